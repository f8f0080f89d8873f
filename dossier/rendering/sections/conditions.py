"""Section 6.1: what cold, wind and sea is the boat to be kept warm in?"""

from collections.abc import Iterator, Sequence

from dossier.data.assumptions import assumed
from dossier.notation import Line, NotAssessed, Real, origin_of
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import grounds, heading, missing
from dossier.rendering.sections.project_file import line_key
from dossier.rendering.text import Text, link, text

ROWS = (
    ("outside_air", "temperature", ""),
    ("sea", "temperature", ""),
    ("wind", "wind", "conditions.wind"),
    ("humidity_inside", "share", "conditions.humidity_inside"),
    ("unheated_start", "temperature", ""),
    ("lay_up_lowest", "temperature", ""),
    ("altitude", "length_long", "conditions.altitude"),
    ("warm_up_within", "time_hours", ""),
    ("inner_gains", "power", ""),
)
"""Conditions in the order of the table, how each is printed, and what stands in where the file is silent."""


def section(draft: Draft) -> Iterator[Block]:
    """The answer and one table."""
    words, conditions = draft.words, draft.project.conditions
    if conditions is None or conditions.outside_air is None:
        yield from missing(draft, "conditions", "6.1", NotAssessed("", ("conditions.outside_air",)))
        return
    yield heading(draft, "conditions", "6.1")
    yield grounds(draft, "conditions")
    yield Answer(
        words("conditions.answer", outside=draft.said(conditions.outside_air, "temperature")),
        words("conditions.answer_sea", sea=draft.said(conditions.sea, "temperature"))
        if conditions.sea is not None
        else "",
    )
    rows: list[Sequence[Cell]] = []
    for name, kind, stands_in in ROWS:
        stated: Real | None = getattr(conditions, name)
        number = assumed(stands_in) if stated is None and stands_in else stated
        if number is not None:
            rows.append(_row(draft, words(f"conditions.{name}"), number, kind))
    yield Table(
        columns=[
            Column(words("conditions.condition")),
            Column(words("conditions.value"), align=Align.NUMBER),
            Column(words("conditions.basis")),
            Column(words("conditions.line"), align=Align.NUMBER),
        ],
        rows=rows,
        caption=words("conditions.caption"),
        key="table_conditions",
    )
    if conditions.weather is not None:
        yield Note(words("conditions.by_hours"))
    elif conditions.months:
        yield Note(words("conditions.by_months", count=str(len(conditions.months))))


def _row(draft: Draft, label: Text, number: Real, kind: str) -> Sequence[Cell]:
    """A condition with its value, basis and line; where the file is silent, what was taken."""
    origin = origin_of(number)
    value = draft.said(number, kind)
    if not isinstance(origin, Line):
        return [label, value, "", ""]
    basis = draft.words(f"pages.basis_{origin.basis.value}")
    if origin.line is None:
        return [label, value, text(basis, ": ", origin.source), "—"]
    key = line_key(draft, origin.file, origin.line)
    number_of_line = str(origin.line)
    return [label, value, basis, link(key, number_of_line) if key else number_of_line]
