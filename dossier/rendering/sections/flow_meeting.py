"""Pump against circuit: the curves, and where they meet."""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Block, Cell, Column, Figure, Note, Side, SideNote, Table
from dossier.rendering.charts import Dash, Level, Line, LineChart, Point
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import column_width
from dossier.rendering.plotted import plotted
from dossier.rendering.text import strong, text
from dossier.sizing.system_curves import COLD, WARM, WATER, SystemCurves

NUMBER = Align.NUMBER
DASHES = {COLD: Dash.DASH_DOT, WARM: Dash.LONG, WATER: Dash.SHORT}
LETTERS = "abc"
TALL = 64.0
HEADROOM = 1.06
"""How far the axis reaches beyond the pump's highest rise."""


def blocks(draft: Draft) -> Iterator[Block]:
    """Figure in the text, table and reasons beside it; one line where they cannot be drawn."""
    found = draft.study.system_curves
    if isinstance(found, NotAssessed):
        yield Note(draft.needs(found))
        return
    yield Side([_meetings(draft, found), SideNote(draft.words("flow.why_title"), draft.words("flow.why"))])
    yield _figure(draft, found)


def _figure(draft: Draft, found: SystemCurves) -> Figure:
    words, numbers = draft.words, draft.numbers
    lines = []
    for line in found.lines:
        warm = line.case == WARM
        label = words(
            "flow.pump_warm" if warm else "flow.pump_cold",
            voltage=draft.said(line.voltage, "voltage") if line.voltage is not None else "—",
        )
        lines.append(
            Line(
                plotted(numbers, line.flows, "flow"),
                plotted(numbers, line.rises, "pressure"),
                str(label),
                bold=warm,
                thin=not warm,
            )
        )
    top = max(max(line.y) for line in lines) * HEADROOM
    for curve in found.curves:
        label = words(f"flow.curve_{curve.case}", temperature=draft.said(curve.temperature, "temperature"))
        lines.append(
            Line(
                plotted(numbers, curve.flows, "flow"),
                plotted(numbers, curve.heads, "pressure"),
                str(label),
                DASHES[curve.case],
            )
        )
    points = [
        Point(
            plotted(numbers, [met.flow], "flow")[0],
            plotted(numbers, [met.rise], "pressure")[0],
            letter,
            full=met.case == WARM,
        )
        for letter, met in zip(LETTERS, found.meetings, strict=False)
    ]
    levels = []
    if found.least is not None:
        at = plotted(numbers, [found.least], "flow")[0]
        levels = [Level(at, str(words("flow.least", least=draft.cell(found.least, "flow"))))]
    width = column_width(draft.paper)
    farthest = max(max(line.x) for line in lines[: len(found.lines)])
    chart = LineChart(
        width,
        min(TALL, width * 0.72),
        lines,
        str(words("flow.x_title", unit=numbers.unit("flow"))),
        str(words("flow.y_title", unit=numbers.unit("pressure"))),
        points,
        levels,
        x_range=(0.0, farthest * 1.04),
        y_range=(0.0, top),
    )
    return Figure(
        chart,
        words("flow.figure", pump=found.pump),
        str(words("flow.figure_alt", cases=", ".join(str(words(f"flow.{c.case}")) for c in found.curves))),
        key="figure_pump",
    )


def _meetings(draft: Draft, found: SystemCurves) -> Table:
    words, numbers = draft.words, draft.numbers
    cold = draft.study.cold_start
    rows: list[Sequence[Cell]] = []
    for letter, met in zip(LETTERS, found.meetings, strict=False):
        name = words(f"flow.{met.case}")
        line = next((line for line in found.lines if line.case == met.case), None)
        if line is not None and line.voltage is not None and not isinstance(cold, NotAssessed):
            name = words("flow.cold_at", voltage=draft.said(line.voltage, "voltage"))
        margin = numbers.text(None if met.margin is None else float(met.margin), "flow", signed=True)
        rows.append(
            [
                text(strong(letter), "\u00a0 ", name),
                draft.cell(met.flow, "flow"),
                draft.cell(met.rise, "pressure"),
                strong(margin),
            ]
        )
    return Table(
        columns=[
            Column(words("flow.case")),
            Column(words("flow.flow"), numbers.unit("flow"), NUMBER),
            Column(words("flow.head"), numbers.unit("pressure"), NUMBER),
            Column(words("flow.margin"), numbers.unit("flow"), NUMBER),
        ],
        rows=rows,
        caption=words("flow.meetings_caption"),
        key="table_meetings",
    )
