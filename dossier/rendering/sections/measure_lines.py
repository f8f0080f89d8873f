"""The lines of a measuring sheet: input, box, basis, how."""

from collections.abc import Sequence
from functools import cache

from dossier.data.measuring import MeasuringSheet
from dossier.data.tables import rows
from dossier.notation import Basis
from dossier.rendering.blocks import Align, Blank, Column, Span, Table, Tick
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import System
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.measure_inputs import Asked
from dossier.rendering.text import Text, line_break, severity_blocks, strong, text

DANGER = 0
COMPONENTS = "components"
BASES = (Basis.MEASURED, Basis.PLATE, Basis.DRAWING, Basis.ASSUMED)
EVERYBODY = frozenset({"degC", "mm", "m", "l", "m2", "m3", "cm2", "kg", "bar", "m3/h", "l/min"})
"""Units that people who measure in the other system have an own one for."""


def lines(draft: Draft, sheet: MeasuringSheet, asked: Sequence[Asked]) -> Table:
    """One line for each input, the gravest first; the boxes bear the names of the long form of a value."""
    words = draft.words
    basis = words("measure.basis")
    return Table(
        [
            Column(words("measure.column_input"), width=60.0),
            Column(words("measure.column_value"), width=34.0),
            *[
                Column(words(f"measure.short_{each.value}"), align=Align.CENTRE, width=8.5, group=basis)
                for each in BASES
            ],
            Column(words("measure.column_how"), width=36.0),
        ],
        [_line(draft, each) for each in asked],
        words("measure.lines_caption", title=sheet.title),
        key=f"measure_{sheet.sheet}",
        notes=words("measure.lines_notes"),
        span=Span.FULL,
    )


def _line(draft: Draft, each: Asked) -> Sequence[Cell]:
    key = each.key.key
    ticks = [Tick(f"{key}.basis.{basis.value}") for basis in BASES]
    return [_input(draft, each), Blank(unit_of(draft, each), f"{key}.is"), *ticks, _how(draft, each)]


def _input(draft: Draft, each: Asked) -> Text:
    """Which part's input, its key, what the file says now, and which dangers wait."""
    said, words = FindingWords(draft), draft.words
    parts: list[Text] = [strong(_label(draft, each)), line_break(), each.key.key]
    if each.now:
        parts += [line_break(), words("measure.now", now=each.now)]
    grave = [said.number(finding) for finding in each.findings if finding.severity.rank == DANGER]
    if grave:
        waits = words("measure.waits", count=len(grave), numbers=", ".join(grave))
        parts += [line_break(), severity_blocks("danger"), " ", waits]
    return text(*parts)


def _label(draft: Draft, each: Asked) -> Text:
    """What it is, and of which part."""
    key = each.key
    parts = key.pattern.split(".")
    inner = parts[1:-1]
    within = inner[1:] if parts[0] == COMPONENTS else [] if key.names else inner
    what = draft.named(parts[-1]) if key.choices else key.description
    part = ", ".join(draft.named(name) for name in (*key.names, *within))
    if not part:
        return _capital(what)
    return draft.words("measure.of", part=_capital(part), what=what[:1].lower() + what[1:])


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _how(draft: Draft, each: Asked) -> Text:
    if not each.key.choices:
        return each.how.how
    return text(each.how.how, " ", draft.words("measure.one_of", choices=", ".join(each.key.choices)))


def unit_of(draft: Draft, each: Asked) -> str:
    """What stands in the box: the unit to write in, or yes and no."""
    if each.key.yes_or_no:
        return str(draft.words("measure.yes_no"))
    if each.key.is_date:
        return str(draft.words("measure.date"))
    return printed_unit(each.how.unit or each.key.unit, draft.numbers.system)


@cache
def printed_unit(unit: str, system: System) -> str:
    """A unit as people read it, in the system they measure in where that has an own one."""
    other = system is System.IMPERIAL and unit in EVERYBODY
    for row in rows("display_units"):
        if row["metric"] == unit:
            return row["imperial_text"] if other else row["metric_text"]
    return unit.replace("*", "·")
