"""The words on the pages: templates in one folder a language, a named block for each text.

``templates/en/heat_loss.j2`` holds ``{% block title %}Heat loss of {{ zone }}{% endblock %}``, and
``words("heat_loss.title", zone="saloon")`` gives it as markup. Whatever is filled in stays plain text: it is
escaped, and known to be the user's (see ``fonts.shown``). Templates run in a sandbox; a name they do not get
is a fault. A yard's own folder, laid out as ours, replaces texts one by one. What our tables say
is told in another language by the tables beside its templates (see ``language``).
"""

import re
from collections.abc import Iterable, Mapping
from enum import Enum
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from jinja2 import (
    FileSystemLoader,
    StrictUndefined,
    TemplateError,
    TemplateNotFound,
    TemplateRuntimeError,
    nodes,
)
from jinja2.environment import Template
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup as Safe
from markupsafe import escape

from dossier.data.shipped import shipped
from dossier.notation import Fault, PageFault, ProjectFaults
from dossier.rendering.fonts import require, shown
from dossier.rendering.language import ENGLISH, Style, editions_by_language, read_language
from dossier.rendering.tags import parsed
from dossier.rendering.text import Markup

if TYPE_CHECKING:
    from dossier.project import Project

LONGEST = 1200
"""Letters of a user's text in one place of the page."""
_LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")


def cut(words: str, most: int = LONGEST) -> str:
    """A user's text no longer on the page than people read; the rest stands in the project file.

    >>> cut("a long story", 6)
    'a long…'
    """
    if len(words) <= most and words.isascii():
        return words
    wide = len(shown(words))
    return words if wide <= most else words[: most * len(words) // wide].rstrip() + "…"


def _given(filled: Any) -> Any:
    """What a template is given: markup stays, any other word is marked as not ours.

    Nothing and bare floats are refused: a page says "—" or a number made by ``numbers``.
    """
    if hasattr(filled, "__html__"):
        return filled
    if filled is None or isinstance(filled, float):
        raise TemplateRuntimeError(f"{filled!r} is no text; numbers are made texts by `numbers`")
    if isinstance(filled, Enum):
        filled = filled.value
    return Safe("<given>{}</given>").format(cut(str(filled)))


def _joined(items: Iterable[Any], between: str = "") -> Safe:
    """Filter ``join``: each item stays what it was, a user's word or markup."""
    return escape(between).join(_given(item) for item in items)


class _Texts(ImmutableSandboxedEnvironment):
    """Templates in which texts that nothing is filled into stay as they were parsed: most of all texts.

    Only the others are compiled, since compiling took as long as checking a boat.
    """

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        self.plain: dict[str | None, dict[str, str]] = {}

    def _generate(
        self,
        source: nodes.Template,
        name: str | None,
        filename: str | None,
        defer_init: bool = False,  # noqa: FBT001, FBT002 - jinja's own signature
    ) -> str:
        referred = any(found.name == "self" for found in source.find_all(nodes.Name))
        if not referred and source.find(nodes.Extends) is None:
            texts = {block.name: _text_of(block) for block in source.body if isinstance(block, nodes.Block)}
            self.plain[name] = plain = {block: text for block, text in texts.items() if text is not None}
            source.body = [node for node in source.body if getattr(node, "name", None) not in plain]
        return super()._generate(source, name, filename, defer_init)


def _text_of(block: nodes.Block) -> str | None:
    """Text of a block that is text alone; None of one that fills something in."""
    parts = [part for output in block.body for part in getattr(output, "nodes", [output])]
    if not all(isinstance(part, nodes.TemplateData) for part in parts):
        return None
    return "".join(part.data for part in parts)


@cache
def _environment(folder: Path) -> _Texts:
    environment = _Texts(
        loader=FileSystemLoader(folder),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_given,
        trim_blocks=True,
        lstrip_blocks=True,
        cache_size=-1,
        auto_reload=False,
    )
    environment.filters["join"] = _joined
    return environment


class Words:
    """All texts of one language, ours or a yard's.

    ``folder`` is the yard's own folder of languages. Raises PageFault if neither has the language.
    """

    def __init__(self, language: str, folder: Path | None = None) -> None:
        if not _LANGUAGE.fullmatch(language):
            raise PageFault(f"{language!r} is no language; write it as en, de or pt-BR")
        places = [home / language for home in homes(folder)]
        self.language = language
        self._told = read_language(language, tuple(place for place in places if place.is_dir()))
        self._environments = [_environment(place) for place in places if place.is_dir()]
        if not self._environments:
            known = ", ".join(sorted(p.name for p in shipped("templates").iterdir() if p.is_dir()))
            raise PageFault(f"there are no words in {language!r}; there are in {known}")
        self._blocks: dict[str, str | Template | None] = {}
        self._as_written: dict[str, Markup] = {}

    def _template(self, name: str) -> str | Template | None:
        """A text that stands by itself, or the template that fills it; the yard's before ours."""
        if name not in self._blocks:
            section, _, block = name.rpartition(".")
            self._blocks[name] = None
            for environment in self._environments:
                try:
                    template = environment.get_template(f"{section}.j2")
                except TemplateNotFound:
                    continue
                except TemplateError as fault:
                    line = getattr(fault, "lineno", "?")
                    raise PageFault(f"template {section}.j2, line {line}: {fault}") from fault
                plain = environment.plain.get(template.name, {})
                if block in plain or block in template.blocks:
                    self._blocks[name] = plain.get(block, template)
                    break
        return self._blocks[name]

    def _filled(self, name: str, given: Mapping[str, Any]) -> str:
        template = self._template(name)
        if template is None:
            raise PageFault(f"there is no text {name!r} in {self.language!r}")
        if isinstance(template, str):
            return template
        block = template.blocks[name.rpartition(".")[2]]
        try:
            return "".join(block(template.new_context(dict(given))))
        except TemplateError as fault:
            raise PageFault(f"text {name!r}: {fault}") from fault

    def _read(self, tagged: str, name: str) -> Markup:
        markup = parsed(tagged, name)
        for run in markup.runs:
            if run.own:
                require(run.text, f"text {name!r}")
        return markup

    def __call__(self, name: str, /, **given: Any) -> Markup:
        """The text of a name (``heat_loss.title``), filled.

        Raises PageFault if there is no such text, if something it needs is not given, or if the typeface
        lacks one of its characters.
        """
        if given:
            return self._read(self._filled(name, given), name)
        if name not in self._as_written:
            self._as_written[name] = self._read(self._filled(name, given), name)
        return self._as_written[name]

    def lines(self, name: str, /, **given: Any) -> tuple[Markup, ...]:
        """The text of a name, line by line, for lists and steps; empty lines fall away."""
        marked = {key: _one_line(filled) for key, filled in given.items()}
        return tuple(
            self._read(line, name) for line in self._filled(name, marked).splitlines() if line.strip()
        )

    @property
    def style(self) -> Style:
        """How the language writes numbers."""
        return self._told.style

    @property
    def editions(self) -> tuple[str, ...]:
        """Editions of which the language has every word."""
        return self._told.editions

    def told(self, english: str) -> str:
        """What the language says for a text of our own tables or checks.

        Raises PageFault where it has no words for it, so that languages are never mixed.
        """
        said = self._told.told(english) if english else ""
        if said is None:
            raise PageFault(f"there are no words in {self.language!r} for {english!r}")
        return said

    def phrase(self, english: str, *, with_gaps: bool = True) -> str | None:
        """What the language says for a text that a check has made; None where it has no words for it."""
        return self._told.phrase(english) if with_gaps else self._told.told(english)

    def has(self, name: str) -> bool:
        """Whether there is a text of this name."""
        return self._template(name) is not None


def homes(folder: Path | None = None) -> tuple[Path, ...]:
    """Folders of languages: a yard's own, then ours. Raises PageFault where the yard's holds none."""
    if folder is not None and not (folder.is_dir() and any(map(_is_language, folder.iterdir()))):
        raise PageFault(f"{folder}: no folder of words; it holds a folder for each language, as {folder}/en")
    return tuple(home for home in (folder, shipped("templates")) if home is not None)


def _is_language(folder: Path) -> bool:
    return folder.is_dir() and _LANGUAGE.fullmatch(folder.name) is not None


def language_of(project: "Project") -> str:
    """Code of the language a project asks for; English where it asks for none."""
    return (project.document.language if project.document else None) or ENGLISH


def words_of(project: "Project", edition: str, folder: Path | None = None) -> Words:
    """Words of the language a project asks for.

    Raises ProjectFaults, with the place in the file, where the language has no words for the edition.
    """
    code = language_of(project)
    spoken = editions_by_language(homes(folder))
    if edition not in spoken.get(code, ()):
        having = ", ".join(name for name, editions in spoken.items() if edition in editions)
        also = f"; {code} has {', '.join(spoken[code])}" if spoken.get(code) else ""
        place = project.where("document.language")
        what, instead = (
            f"the {edition} edition is not written in {code!r}",
            f"{edition} is written in {having}",
        )
        raise ProjectFaults([Fault(what, instead + also, place.file, place.line or 0, place.column or 0)])
    return Words(code, folder)


def _one_line(filled: Any) -> Any:
    """A user's text without line ends, so that it cannot make a step of its own."""
    return " ".join(filled.split()) if isinstance(filled, str) else filled
