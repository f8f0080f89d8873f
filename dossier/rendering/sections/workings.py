"""Appendix A: how each result was found, formula by formula, back to the lines of the project file."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby

from dossier.notation import Given, Line, Quantity, Row, Working, origin_of
from dossier.rendering.blocks import Block, FormulaLine, Heading, Paragraph
from dossier.rendering.draft import Draft
from dossier.rendering.exact import exact, unit_text
from dossier.rendering.sections.project_file import line_key
from dossier.rendering.text import Markup, Text, formula_text, link, own, strong, target, text
from dossier.rendering.workings import ByFormula, Chapter, Worked

MANY = 9
"""Inputs of one working beyond which they are counted and not listed."""

SPACE = "\u00a0"
POWER = re.compile(r"(\d(?:\.\d+)?)e([-+]?\d+)")
"""A number with a power of ten, as a solver tells its residual."""


def section(draft: Draft) -> Iterator[Block]:
    """What the reader must know first, then chapter by chapter."""
    words = draft.words
    yield Heading(2, words("workings.title"), key="workings", numbered=False)
    count, every = draft.workings.count, draft.all_workings.count
    yield Paragraph(words("workings.introduction"))
    yield Paragraph(words("workings.how_to_read", count=str(every)))
    if count < every:
        yield Paragraph(words("workings.concise", count=str(count), all=str(every)))
    yield Paragraph(words("workings.units"))
    yield Paragraph(words("workings.rounding"))
    for chapter in draft.workings.chapters:
        yield from _chapter(draft, chapter)


def _chapter(draft: Draft, chapter: Chapter) -> Iterator[Block]:
    yield Heading(3, draft.words(f"workings.chapter_{chapter.name}"), numbered=False)
    before = None
    for by_formula in chapter.formulas:
        source = by_formula.statement.source
        named = draft.words("workings.same_source") if source == before else str(source)
        yield _whole(draft, by_formula, named)
        before = source


def _whole(draft: Draft, by_formula: ByFormula, source: Text) -> FormulaLine:
    """The first working by a formula: formula, values with units and where they come from, result, source."""
    first, *others = by_formula.worked
    statement = first.working.statement
    label = statement.gives.label[:1].upper() + statement.gives.label[1:]
    values = _values(draft, first.working)
    if by_formula.left_out and not others:
        left_out = draft.words("workings.shortened", count=str(by_formula.left_out))
        values = text(values, own(". " if values else " "), left_out)
    return FormulaLine(
        POWER.sub(r"\1·10^{\2}", statement.text),
        values,
        text(formula_text(statement.gives.symbol), " = ", _with_unit(first.working.value, statement.gives)),
        source,
        text(label, _for(first)),
        str(first.number),
        first.key,
        text(*_more(draft, by_formula, others)),
    )


def _for(worked: Worked) -> str:
    return f": {worked.place}" if worked.place else ""


def _values(draft: Draft, working: Working) -> Markup:
    """Symbols with their values; of a solved network, only how many there are and on which lines."""
    given = [g for g in working.given if g.value is not None]
    if not given:
        return Markup()
    if len(given) > MANY:
        count, lines = str(len(given)), _lines(given)
        if not lines:
            return draft.words("workings.many_workings", count=count)
        return draft.words("workings.many_inputs", count=count, lines=lines)
    parts: list[Text] = [words_with(draft)]
    for number, one in enumerate(given):
        parts += [own(", ") if number else SPACE, _given(draft, one)]
    return text(*parts)


def words_with(draft: Draft) -> Markup:
    """What stands between a formula and its values."""
    return draft.words("workings.with_values")


def _given(draft: Draft, given: Given) -> Markup:
    if given.quantity is None or not isinstance(given.value, float | int):
        return text(str(getattr(given.value, "value", given.value)))
    shown = text(_symbol(given.quantity), SPACE, _with_unit(float(given.value), given.quantity))
    where = _origin(draft, given.value)
    return text(shown, SPACE, where) if where else shown


def _symbol(quantity: Quantity) -> Markup:
    return formula_text(quantity.symbol)


def _with_unit(number: float, quantity: Quantity) -> Markup:
    return text(exact(number, quantity.unit), unit_text(quantity.unit))


def _origin(draft: Draft, number: object) -> Markup:
    """In brackets: the line of the file, the table, or the working a value comes from."""
    words, origin = draft.words, origin_of(number)
    if isinstance(origin, Line):
        if origin.line is None:
            return words("workings.from_assumption")
        shown = words("workings.from_line", line=str(origin.line))
        main = not origin.file or origin.file == draft.project.files[0].name
        if not main:
            shown = words("workings.from_file", file=origin.file, line=str(origin.line))
        return _linked(draft, origin, shown)
    if isinstance(origin, Row):
        return words("workings.from_table", name=origin.table.replace("_", " "))
    return _of_working(draft, number, origin) if isinstance(origin, Working) else Markup()


def _of_working(draft: Draft, number: object, working: Working) -> Markup:
    """In brackets: its own working, one by the same formula, or what it was made of."""
    own_place, alike = draft.workings.of(number), draft.workings.like(number)
    if own_place is not None:
        return link(own_place.key, draft.words("workings.from_working", number=str(own_place.number)))
    if alike is not None:
        return link(alike.key, draft.words("workings.as_working", number=str(alike.number)))
    return _behind(draft, working)


def _behind(draft: Draft, working: Working) -> Markup:
    """In brackets: what a sum or difference that is not printed itself was made of."""
    found: dict[str, Markup] = {}
    for given in working.given:
        near = draft.workings.of(given.value) or draft.workings.like(given.value)
        if near is not None:
            found.setdefault(near.key, link(near.key, own(str(near.number))))
    if not found:
        return Markup()
    return draft.words("workings.from_several", numbers=_joined(list(found.values())[:3]))


def _joined(parts: Sequence[Markup]) -> Markup:
    joined: list[Text] = []
    for place, part in enumerate(parts):
        joined += [own(", ") if place else "", part]
    return text(*joined)


def _linked(draft: Draft, line: Line, shown: Markup) -> Markup:
    key = line_key(draft, line.file, line.line)
    return link(key, shown) if key else shown


def _lines(given: Sequence[Given]) -> str:
    """Lines of the file among many inputs, neighbours drawn together; empty where there are none."""
    lines = sorted({o.line for g in given if isinstance(o := origin_of(g.value), Line) and o.line})
    runs = []
    for _, run in groupby(enumerate(lines), key=lambda pair: pair[1] - pair[0]):
        numbers = [number for _, number in run]
        runs.append(f"{numbers[0]}–{numbers[-1]}" if len(numbers) > 1 else str(numbers[0]))
    return ", ".join(runs)


def _more(draft: Draft, by_formula: ByFormula, others: Sequence[Worked]) -> Iterator[Text]:
    """One short stretch for each of the other workings, then how many more there are."""
    words = draft.words
    for number, worked in enumerate(others):
        if number:
            yield own("; ")
        yield from _short(draft, worked)
    if others:
        yield own(".")
    if by_formula.left_out and others:
        yield own(" ")
        yield words("workings.shortened", count=str(by_formula.left_out))


def _short(draft: Draft, worked: Worked) -> Iterator[Text]:
    """Number, what it is for, the values without units and origins, the result."""
    working = worked.working
    yield target(worked.key, strong(str(worked.number)))
    given = [g for g in working.given if isinstance(g.value, float | int)]
    repeated = Counter(g.quantity.symbol for g in given if g.quantity is not None)
    given = [g for g in given if g.quantity is None or g.value or repeated[g.quantity.symbol] == 1]
    listed = 0 < len(given) <= MANY
    if worked.place:
        yield f"{SPACE}{worked.place}"
        yield own(": ") if listed else ""
    else:
        yield SPACE
    for place, one in enumerate(given if listed else ()):
        yield own(", ") if place else ""
        yield _tight(draft, one)
    yield own(" → ")
    yield exact(working.value, working.statement.gives.unit)


def _tight(draft: Draft, given: Given) -> Markup:
    shown = text(exact(float(given.value), given.quantity.unit if given.quantity else ""))
    if given.quantity is not None:
        shown = text(_symbol(given.quantity), SPACE, shown)
    origin = origin_of(given.value)
    if isinstance(origin, Line) and origin.line is not None:
        return _linked(draft, origin, shown)
    found = draft.workings.of(given.value)
    return shown if found is None else link(found.key, shown)
