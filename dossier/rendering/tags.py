"""Reads the few tags that a template may hold into markup, and refuses every other.

``<b>`` strong, ``<i>`` italic, ``<heavy>`` bold, ``<sub>``, ``<sup>``, ``<a href="#key">`` link,
``<ref key="…" as="full|name|page"/>`` reference, ``<sign is="status met"/>`` a drawn mark,
``<place key="…">`` a place that references lead to, ``<given>`` words that are not ours.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from html import unescape

from dossier.notation import PageFault
from dossier.rendering.text import Face, Markup, Refers, Run

_ATTRIBUTES = {"a": ("href",), "ref": ("key", "as"), "sign": ("is",), "place": ("key",)}

LETTERED = ("boxed ", "dot ")
"""Signs that hold a letter or a number, which then is their text."""

_CHANGES: Mapping[str, Callable[[Run, Mapping[str, str]], Run]] = {
    "b": lambda run, _: run.set_in(Face.STRONG),
    "i": lambda run, _: run.set_in(Face.ITALIC),
    "heavy": lambda run, _: run.set_in(Face.HEAVY),
    "sub": lambda run, _: replace(run, rise=-1),
    "sup": lambda run, _: replace(run, rise=1),
    "given": lambda run, _: replace(run, own=False),
    "a": lambda run, said: replace(run, link=said["href"].removeprefix("#")),
    "place": lambda run, said: replace(run, target=said["key"]),
    "ref": lambda run, said: replace(run, link=said["key"], refers=Refers(said["as"])),
    "sign": lambda run, said: replace(
        run, sign=said["is"], text=said["is"].partition(" ")[2] if said["is"].startswith(LETTERED) else ""
    ),
}
_EMPTY = ("ref", "sign")
_TAG = re.compile(r"<(/?)([A-Za-z][\w-]*)([^<>]*?)(/?)>|<([!?][^>]{0,40})")
_ATTRIBUTE = re.compile(r"\s*([\w-]+)\s*=\s*(?:\"([^\"]*)\"|'([^']*)')\s*")


class _Reader:
    """Reads tags and words into runs; keeps the styles that stand open."""

    def __init__(self, where: str) -> None:
        self.where = where
        self.runs: list[Run] = []
        self.styles: list[tuple[str, Run]] = [("", Run("", own=True))]

    def fault(self, what: str) -> PageFault:
        """What is wrong with the text, and which text it is."""
        return PageFault(f"text {self.where}: {what}")

    def read(self, tagged: str) -> None:
        """Read a whole text."""
        place = 0
        for tag in _TAG.finditer(tagged):
            self.words(tagged[place : tag.start()])
            closes, name, attributes, at_once, remark = tag.groups()
            if remark:
                raise self.fault(f"a remark {remark!r} stands in the text; templates write {{# … #}}")
            if closes:
                self.close(name)
            else:
                self.open(name, attributes)
                if at_once:
                    self.close(name)
            place = tag.end()
        self.words(tagged[place:])
        if len(self.styles) > 1:
            raise self.fault(f"<{self.styles[-1][0]}> is not closed")

    def attributes(self, tag: str, written: str) -> dict[str, str]:
        """Attributes of a tag; all it takes and no others must be there."""
        if _ATTRIBUTE.sub("", written).strip():
            raise self.fault(f"<{tag} {written.strip()}> cannot be read")
        said = {name: unescape(one or other) for name, one, other in _ATTRIBUTE.findall(written)}
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

    def open(self, tag: str, written: str) -> None:
        """Open a tag."""
        if tag not in _CHANGES:
            known = ", ".join(sorted(_CHANGES))
            raise self.fault(f"<{tag}> is no tag of a text here; these are: {known}")
        run = _CHANGES[tag](self.styles[-1][1], self.attributes(tag, written))
        self.styles.append((tag, run))
        if tag in _EMPTY:
            self.runs.append(run)

    def close(self, tag: str) -> None:
        """Close a tag; a place without words of its own still is a place."""
        if len(self.styles) == 1 or self.styles[-1][0] != tag:
            raise self.fault(f"</{tag}> closes nothing")
        _, run = self.styles.pop()
        if tag == "place" and run.target:
            self.runs.append(run)

    def words(self, written: str) -> None:
        """Take words into the style that stands open."""
        if not written:
            return
        if any(tag in _EMPTY for tag, _ in self.styles):
            raise self.fault(f"<{self.styles[-1][0]}> holds no words of its own")
        self.runs.append(self.styles[-1][1].saying(unescape(written)))
        if self.styles[-1][1].target:
            self.styles = [(tag, replace(run, target="")) for tag, run in self.styles]


_SPACE = re.compile(r"[ \t\r\n]+")


def parsed(tagged: str, where: str) -> Markup:
    """Read a text with tags, as a template gives it; white space shrinks to single spaces.

    Raises PageFault at a tag it does not know; ``where`` names the text in the message.

    >>> [run.text for run in parsed("R<sub>si</sub> &lt; 0.2", "example").runs]
    ['R', 'si', ' < 0.2']
    """
    reader = _Reader(where)
    reader.read(_SPACE.sub(" ", tagged).strip())
    return Markup(tuple(reader.runs))
