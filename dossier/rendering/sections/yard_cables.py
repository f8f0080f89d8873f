"""The cable schedule: one line for each circuit."""

from collections.abc import Iterator, Sequence
from typing import Any

from dossier.data.cables import gauges
from dossier.notation import NotAssessed, Real
from dossier.project.model.entry import Answer
from dossier.rendering.blocks import Align, Block, Column, Note, Span, Table
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.text import Text, line_break, strong, text
from dossier.sizing.electrics import CircuitStudy

NUMBER = Align.NUMBER
ROUNDING = 1e-3
"""Share by which a section in the file may fall short of the one it means."""


def cables(draft: Draft) -> Iterator[Block]:
    """One line for each circuit: cable, length, fuse, isolator."""
    study, words, numbers = draft.study.electrics, draft.words, draft.numbers
    circuits = () if isinstance(study, NotAssessed) else study.circuits
    if not circuits:
        yield Note(words("yard.no_cables", keys=draft.keys(("electrics.circuits",))))
        return
    stated = {
        c.name: c for c in (draft.project.electrics.circuits if draft.project.electrics else None) or ()
    }
    metres, section = numbers.unit("length_long"), numbers.unit("cable_section")
    yield Table(
        [
            Column(words("yard.column_circuit"), width=33.0),
            Column(words("yard.column_one_way"), metres, NUMBER, width=14.0),
            Column(words("yard.column_cable"), section, NUMBER, width=12.0),
            Column(words("yard.column_needs"), section, NUMBER, width=12.0),
            Column(words("yard.column_awg"), "", NUMBER, width=9.0),
            Column(words("yard.column_fuse"), numbers.unit("current"), NUMBER, width=10.0),
            Column(words("yard.column_to_fuse"), numbers.unit("length"), NUMBER, width=14.0),
            Column(words("yard.column_isolator"), width=14.0),
        ],
        [_circuit(draft, circuit, stated[circuit.name]) for circuit in circuits],
        words("yard.cables_caption"),
        key="table_cables",
        notes=words("yard.cables_notes"),
        span=Span.FULL,
    )


def _circuit(draft: Draft, circuit: CircuitStudy, stated: Any) -> Sequence[Cell]:
    words = draft.words
    name: Text = strong(circuit.name)
    if circuit.feeds:
        name = text(name, line_break(), words("yard.feeds", tags=", ".join(circuit.feeds)))
    least = circuit.section_needed
    if (
        least is not None
        and stated.section is not None
        and float(stated.section) < float(least) * (1 - ROUNDING)
    ):
        name = text(name, line_break(), words("yard.too_thin"))
    fuse = stated.fuse
    return [
        name,
        draft.cell(stated.length, "length_long"),
        strong(draft.cell(stated.section, "cable_section")),
        draft.cell(least, "cable_section"),
        gauge_to_buy(stated.section),
        NOT_APPLICABLE if isinstance(fuse, Answer) else draft.cell(fuse, "current"),
        draft.cell(stated.fuse_distance, "length"),
        stated.isolator if isinstance(stated.isolator, str) else NOT_APPLICABLE,
    ]


def gauge_to_buy(section: Real | None) -> str:
    """The smallest American gauge that is no thinner than a section."""
    if section is None:
        return NOT_APPLICABLE
    thick = [
        (float(least), name)
        for name, least in gauges().items()
        if float(least) >= float(section) * (1 - ROUNDING)
    ]
    return min(thick)[1].replace(" AWG", "") if thick else NOT_APPLICABLE
