"""Reads the few tags that a template may hold into markup, and refuses every other.

``<b>`` strong, ``<i>`` italic, ``<heavy>`` bold, ``<sub>``, ``<sup>``, ``<a href="#key">`` link,
``<ref key="…" as="full|name|page"/>`` reference, ``<sign is="status met"/>`` a drawn mark,
``<place key="…">`` a place that references lead to, ``<given>`` words that are not ours.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from html.parser import HTMLParser

from dossier.notation import PageFault
from dossier.rendering.text import Face, Markup, Refers, Run

_ATTRIBUTES = {"a": ("href",), "ref": ("key", "as"), "sign": ("is",), "place": ("key",)}

_CHANGES: Mapping[str, Callable[[Run, Mapping[str, str]], Run]] = {
    "b": lambda run, _: replace(run, face=Face.STRONG),
    "i": lambda run, _: replace(run, face=Face.ITALIC),
    "heavy": lambda run, _: replace(run, face=Face.HEAVY),
    "sub": lambda run, _: replace(run, rise=-1),
    "sup": lambda run, _: replace(run, rise=1),
    "given": lambda run, _: replace(run, own=False),
    "a": lambda run, said: replace(run, link=said["href"].removeprefix("#")),
    "place": lambda run, said: replace(run, target=said["key"]),
    "ref": lambda run, said: replace(run, link=said["key"], refers=Refers(said["as"])),
    "sign": lambda run, said: replace(
        run, sign=said["is"], text=said["is"].partition(" ")[2] if said["is"].startswith("boxed ") else ""
    ),
}
_EMPTY = ("ref", "sign")


class _Reader(HTMLParser):
    """Reads tags and words into runs; keeps the styles that stand open."""

    def __init__(self, where: str) -> None:
        super().__init__(convert_charrefs=True)
        self.where = where
        self.runs: list[Run] = []
        self.styles: list[tuple[str, Run]] = [("", Run("", own=True))]

    def fault(self, what: str) -> PageFault:
        """What is wrong with the text, and which text it is."""
        return PageFault(f"text {self.where}: {what}")

    def attributes(self, tag: str, attrs: list[tuple[str, str | None]]) -> dict[str, str]:
        """Attributes of a tag; all it takes and no others must be there."""
        said = {name: given or "" for name, given in attrs}
        if tag == "ref":
            said.setdefault("as", Refers.FULL.value)
        wanted = _ATTRIBUTES.get(tag, ())
        if set(said) != set(wanted) or not all(said.values()):
            raise self.fault(f"<{tag}> takes {', '.join(wanted) or 'no attribute'}")
        if tag == "ref" and said["as"] not in {refers.value for refers in Refers}:
            raise self.fault(f"a reference prints full, name or page, not {said['as']!r}")
        if tag == "a" and not said["href"].startswith("#"):
            raise self.fault(f"a link leads to a key of this document (#key), not to {said['href']!r}")
        return said

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open a tag."""
        if tag not in _CHANGES:
            known = ", ".join(sorted(_CHANGES))
            raise self.fault(f"<{tag}> is no tag of a text here; these are: {known}")
        run = _CHANGES[tag](self.styles[-1][1], self.attributes(tag, attrs))
        self.styles.append((tag, run))
        if tag in _EMPTY:
            self.runs.append(run)

    def handle_endtag(self, tag: str) -> None:
        """Close a tag; a place without words of its own still is a place."""
        if len(self.styles) == 1 or self.styles[-1][0] != tag:
            raise self.fault(f"</{tag}> closes nothing")
        _, run = self.styles.pop()
        if tag == "place" and run.target:
            self.runs.append(run)

    def handle_data(self, data: str) -> None:
        """Take words into the style that stands open."""
        if any(tag in _EMPTY for tag, _ in self.styles):
            raise self.fault(f"<{self.styles[-1][0]}> holds no words of its own")
        self.runs.append(replace(self.styles[-1][1], text=data))
        self.styles = [(tag, replace(run, target="")) for tag, run in self.styles]

    def handle_comment(self, data: str) -> None:
        """Refuse a remark: templates have their own."""
        raise self.fault(f"a remark {data[:40]!r} stands in the text; write {{# … #}}")

    def handle_decl(self, decl: str) -> None:
        """Refuse a declaration."""
        raise self.fault(f"<!{decl[:40]}> is no tag of a text here")

    def handle_pi(self, data: str) -> None:
        """Refuse a processing instruction."""
        raise self.fault(f"<?{data[:40]}> is no tag of a text here")


_SPACE = re.compile(r"[ \t\r\n]+")


def parsed(tagged: str, where: str) -> Markup:
    """Read a text with tags, as a template gives it; white space shrinks to single spaces.

    Raises PageFault at a tag it does not know; ``where`` names the text in the message.

    >>> [run.text for run in parsed("R<sub>si</sub> &lt; 0.2", "example").runs]
    ['R', 'si', ' < 0.2']
    """
    reader = _Reader(where)
    reader.feed(_SPACE.sub(" ", tagged).strip())
    reader.close()
    if len(reader.styles) > 1:
        raise reader.fault(f"<{reader.styles[-1][0]}> is not closed")
    return Markup(tuple(reader.runs))
