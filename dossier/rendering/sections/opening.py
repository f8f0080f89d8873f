"""How every sub-section of the calculation opens: question, answer, and in the outer column what it feeds."""

from collections.abc import Iterable, Iterator, Sequence

from dossier.checking.finding import Status
from dossier.data.check_numbers import number_of
from dossier.notation import Basis, Line, NotAssessed, lines_behind
from dossier.rendering.blocks import Block, Heading, Note, Side, SideNote
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.ranges import ranges
from dossier.rendering.text import Markup, Text, link, own, status_mark, text

NAMED = 4
"""Assumed inputs that are named one by one; of more, these and how many there are besides."""

TOP = ("components", "circuit")


def heading(draft: Draft, name: str, number: str) -> Heading:
    """Number, title and question of a sub-section."""
    words = draft.words
    return Heading(2, words(f"{name}.title"), key=name, number=number, question=words(f"{name}.question"))


def missing(draft: Draft, name: str, number: str, gap: NotAssessed) -> Iterator[Block]:
    """A sub-section without data: its question, and one line that names the inputs it needs."""
    yield heading(draft, name, number)
    yield Note(draft.needs(gap))


def feeds(draft: Draft, groups: Sequence[str]) -> Side:
    """The outer column beside the answer: checks it feeds, and those of them that are not met.

    ``groups`` are groups of checks, or single checks by their full names.
    """
    words = draft.words
    said = _checks(draft, groups)
    open_checks = _open_checks(draft, groups)
    if open_checks:
        said = text(said, " ", words("opening.not_met", checks=open_checks))
    return Side([SideNote(words("opening.feeds_title"), said)])


def grounds(draft: Draft, name: str, *, numbers: Iterable[object] = (), chapters: Sequence[str] = ()) -> Side:
    """The outer column further down: basis of the data behind ``numbers``, limit, method and workings.

    ``chapters`` are those of the workings. ``NAME.limit`` and ``NAME.method`` are printed where the template
    has them.
    """
    words = draft.words
    blocks: list[Block] = []
    basis = basis_of(draft, numbers)
    if basis:
        blocks.append(SideNote(words("opening.basis_title"), basis))
    if words.has(f"{name}.limit"):
        blocks.append(SideNote(words("opening.limit_title"), words(f"{name}.limit")))
    method: list[Text] = [words(f"{name}.method")] if words.has(f"{name}.method") else []
    where = _workings(draft, chapters)
    if where:
        method += [" ", where] if method else [where]
    if method:
        blocks.append(SideNote(words("opening.method_title"), text(*method)))
    return Side(blocks)


def _is_of(check: str, group: str) -> bool:
    return check == group or check.partition(".")[0] == group


def _checks(draft: Draft, groups: Sequence[str]) -> Markup:
    """Numbers of the checks of one or more groups."""
    numbers = [
        number_of(finding.check)
        for finding in draft.assessment.findings
        if any(_is_of(finding.check, group) for group in groups)
        and finding.status is not Status.NOT_APPLICABLE
    ]
    if not numbers:
        return draft.words("opening.feeds_nothing")
    return draft.words("opening.feeds", count=len(numbers), numbers=ranges(numbers))


def _open_checks(draft: Draft, groups: Sequence[str]) -> Markup:
    """Those that are not met, each with its mark."""
    parts: list[Text] = []
    for finding in draft.assessment.findings:
        name = finding.check.partition(".")[2]
        if any(_is_of(finding.check, group) for group in groups) and finding.status is Status.NOT_MET:
            number = str(number_of(finding.check))
            shown = text(status_mark(Status.NOT_MET), "\u00a0", number, "\u00a0", draft.named(name))
            parts += [own(", ") if parts else "", shown]
    return text(*parts)


def basis_of(draft: Draft, numbers: Iterable[object]) -> Markup:
    """What the numbers rest on: kinds of inputs by basis, and the assumed ones by name."""
    lines: dict[str, Line] = {}
    for number in numbers:
        for line in lines_behind(number):
            lines.setdefault(line.key, line)
    parts: list[Text] = []
    for basis in Basis:
        own_lines = [line for line in lines.values() if line.basis is basis]
        if own_lines:
            label = draft.words(f"opening.of_{basis.value}")
            listed = _assumed(draft, own_lines) if basis is Basis.ASSUMED else _kinds(draft, own_lines)
            parts += [" " if parts else "", label, ": ", *listed, "."]
    if lines and not any(line.basis is Basis.ASSUMED for line in lines.values()):
        parts += [" ", draft.words("opening.nothing_assumed")]
    return text(*parts)


def _kinds(draft: Draft, lines: Iterable[Line]) -> list[Text]:
    names = dict.fromkeys(_kind(draft, line.key) for line in lines)
    return [", ".join(names)]


def _kind(draft: Draft, key: str) -> str:
    """What an input belongs to, in a word: the kind of a part, else the top of its key."""
    head, _, rest = key.partition(".")
    tag = rest.partition(".")[0]
    if head == "components":
        part = (draft.project.components or {}).get(tag)
        return draft.named(part.kind) if part is not None else tag
    if head == "circuit" and tag in {"branches", "ring", "links"}:
        return str(draft.words("opening.group_pipes"))
    if head == "circuit":
        return draft.named(tag)
    name = f"opening.group_{head}"
    return str(draft.words(name)) if draft.words.has(name) else draft.named(head)


def _assumed(draft: Draft, lines: Sequence[Line]) -> list[Text]:
    """Assumed inputs by the last word of their key, those of several parts once."""
    names = dict.fromkeys(_last(draft, line.key) for line in lines)
    shown = list(names)[:NAMED]
    more = len(names) - len(shown)
    listed: list[Text] = [", ".join(shown)]
    return [*listed, " ", draft.words("opening.and_more", count=str(more))] if more else listed


def _last(draft: Draft, key: str) -> str:
    words = [word for word in key.split(".") if not word.isdigit()]
    last = draft.named(words[-1])
    return f"{draft.named(words[-2])} {last}" if last in {"is", "at", "value"} and len(words) > 1 else last


def _workings(draft: Draft, chapters: Sequence[str]) -> Markup:
    """The lines of the appendix that show the workings; nothing where they are not printed."""
    if not draft.prints_file:
        return Markup()
    numbers = [
        worked.number
        for chapter in draft.all_workings.chapters
        if chapter.name in chapters
        for by_formula in chapter.formulas
        for worked in by_formula.worked
    ]
    if not numbers:
        return Markup()
    first, last = min(numbers), max(numbers)
    if draft.extent("appendices") is Extent.CONCISE:
        return draft.words("opening.workings_elsewhere", first=str(first), last=str(last))
    return link(f"working {first}", draft.words("opening.workings", first=str(first), last=str(last)))
