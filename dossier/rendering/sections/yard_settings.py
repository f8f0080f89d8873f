"""What is set in a work package: pressures, temperatures, levels, and the valves."""

from collections.abc import Iterator, Sequence

from dossier.data.commissioning import SettingRow, WorkPackage
from dossier.data.wording import BLANK, places_in, wanted
from dossier.notation import NotAssessed, Real
from dossier.project.model.entry import Answer
from dossier.rendering.blocks import Align, Block, Column, Span, Table, Tick
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.filling import Filling
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.text import Text, strong, text
from dossier.sizing.needs_aboard import needs_met
from dossier.sizing.tightness import tightness_test

NUMBER = Align.NUMBER
VALVES = (6, 11)
"""Packages in which valves are set, and their flows read."""
TEST = "{test_pressure}"


def settings(draft: Draft, package: WorkPackage) -> Iterator[Block]:
    """Everything of the package that is set to a figure; what is not known is a line to write on."""
    words, aboard = draft.words, needs_met(draft.project)
    rows: list[Sequence[Cell]] = [
        [tag, text(what), figure, Tick()]
        for row in package.settings
        if wanted(row.needs, aboard)
        for tag, what, figure in _set(draft, row)
    ]
    if rows:
        yield Table(
            [
                Column(words("overview.tag"), width=8.0, strong=True),
                Column(words("yard.column_set"), width=40.0),
                Column(words("yard.column_figure"), width=24.0),
                Column(words("yard.column_done"), align=Align.CENTRE, width=9.0),
            ],
            rows,
            words("yard.settings_caption", package=package.number),
            key=f"table_package_{package.number}_settings",
            span=Span.TEXT,
        )


def _set(draft: Draft, row: SettingRow) -> Iterator[tuple[str, Text, Text]]:
    """Tag, what is set, and the figure, for each part a row is about."""
    if row.kind:
        for tag, part in (draft.project.components or {}).items():
            if part.kind == row.kind:
                value = _under(part, row.key)
                if value is not None or row.needed:
                    yield tag, row.what, _figure(draft, value, row)
        return
    names = places_in(row.key)
    if names:
        value = Filling(draft).number(names[0])
    elif row.key[0].isdigit():
        value = float(row.key)
    else:
        value = _under(draft.project, row.key)
    what: Text = row.what
    test = tightness_test(draft.study) if row.key == TEST else None
    if test is not None and not isinstance(test, NotAssessed) and test.weakest:
        what = text(row.what, ", ", draft.words("yard.held_down", part=test.weakest))
    if value is not None or row.needed:
        yield "", what, _figure(draft, value, row)


def _under(here: object, key: str) -> Real | None:
    """Figure under a dotted key; None where the file gives none."""
    for part in key.split("."):
        here = getattr(here, part, None)
    return None if here is None or isinstance(here, Answer | str) else here  # type: ignore[return-value]  # a figure by its model


def _figure(draft: Draft, value: Real | None, row: SettingRow) -> Text:
    return BLANK if value is None else strong(draft.numbers.both(float(value), row.shown))


def valves(draft: Draft, package: WorkPackage) -> Iterator[Block]:
    """Flow factor, turns and flow of each valve that is preset."""
    ring = draft.study.ring
    if package.number not in VALVES or isinstance(ring, NotAssessed) or not ring.presets:
        return
    words, numbers = draft.words, draft.numbers
    rows: list[Sequence[Cell]] = []
    for tag, preset in ring.presets.items():
        kv: Text = words("yard.open") if preset.is_open else strong(draft.cell(preset.kv, "flow_factor"))
        branch = draft.capital(preset.branch) if preset.branch else NOT_APPLICABLE
        turns, flow = draft.cell(preset.turns, "tenths"), draft.cell(preset.flow, "flow")
        rows.append([tag, branch, kv, turns, flow, Tick()])
    yield Table(
        [
            Column(words("overview.tag"), width=9.0, strong=True),
            Column(words("yard.column_branch"), width=23.0),
            Column(words("yard.column_kv"), numbers.unit("flow_factor"), NUMBER, width=12.0),
            Column(words("yard.column_turns"), "", NUMBER, width=11.0),
            Column(words("yard.column_flow"), numbers.unit("flow"), NUMBER, width=14.0),
            Column(words("yard.column_done"), align=Align.CENTRE, width=9.0),
        ],
        rows,
        words("yard.valves_caption", package=package.number),
        key=f"table_package_{package.number}_valves",
        notes=words("yard.valves_notes"),
        span=Span.TEXT,
    )
