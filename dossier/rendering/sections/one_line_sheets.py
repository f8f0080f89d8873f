"""Drawing 5: the electric supply as one line, with fuses, sections, lengths and drops."""

from collections.abc import Iterator
from dataclasses import fields
from typing import Any

from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.one_line import Feeder, Supply, Words, one_line_sheets
from dossier.rendering.drawings.tag_list import tag_list
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of
from dossier.rendering.sections.yard_cables import gauge_to_buy
from dossier.sizing.electrics import CircuitStudy, ElectricsStudy

FED = ("burner", "pump", "fan_coil")
"""Kinds that take current."""


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of the one-line; what they wait for where no circuit is written."""
    words, found = draft.words, draft.study.electrics
    if isinstance(found, NotAssessed):
        return found
    if not found.circuits:
        return NotAssessed(str(words("drawings.one_line_title")), ("electrics.circuits",))
    supply = Supply(tuple(_battery(draft, found)), tuple(_feeder(draft, each) for each in found.circuits))
    said = Words(**{each.name: str(words(f"drawings.one_line_{each.name}")) for each in fields(Words)})
    fed = tuple(dict.fromkeys(tag for circuit in found.circuits for tag in circuit.feeds))
    return sheets_of(
        draft,
        Subject(
            5,
            "one_line",
            lambda form: one_line_sheets(supply, form, said),
            notes=tuple(_notes(draft, fed)),
            tags=fed + tuple(feeder.isolator for feeder in supply.feeders if feeder.isolator),
            words={"legend": said.legend},
        ),
    )


def _notes(draft: Draft, fed: tuple[str, ...]) -> Iterator[str]:
    words = draft.words
    yield str(words("drawings.one_line_note"))
    parts = draft.project.components or {}
    left_out = [tag for tag, part in parts.items() if part.kind in FED and tag not in fed]
    if left_out:
        yield str(words("drawings.one_line_missing", tags=tag_list(left_out)))


def _battery(draft: Draft, found: ElectricsStudy) -> Iterator[str]:
    """Voltage, and the capacity with its usable share where they are stated."""
    written = draft.project.electrics
    yield str(draft.words("drawings.one_line_system", system=draft.said(found.system, "voltage")))
    if written is not None and written.battery is not None:
        yield draft.said(written.battery, "charge")
    if written is not None and written.usable is not None:
        yield str(draft.words("drawings.one_line_usable", share=draft.said(written.usable, "share")))


def _written(draft: Draft, name: str) -> Any:
    circuits = draft.project.electrics.circuits if draft.project.electrics else None
    return next(circuit for circuit in circuits or () if circuit.name == name)


def _feeder(draft: Draft, circuit: CircuitStudy) -> Feeder:
    """One circuit, what is not stated in words."""
    words, written = draft.words, _written(draft, circuit.name)
    isolator = "" if isinstance(written.isolator, No) else str(written.isolator or "")
    return Feeder(
        draft.capital(circuit.name),
        _fuse(draft, written),
        ""
        if written.fuse_distance is None
        else str(
            words("drawings.one_line_distance", distance=draft.said(written.fuse_distance, "length_check"))
        ),
        _cable(draft, written),
        _drop(draft, circuit),
        circuit.feeds,
        tuple(_said(draft, circuit, written)),
        isolator,
        has_fuse=isinstance(written.fuse, float),
    )


def _fuse(draft: Draft, written: Any) -> str:
    if isinstance(written.fuse, No):
        return str(draft.words("drawings.one_line_no_fuse"))
    if written.fuse is None:
        return str(draft.words("drawings.one_line_fuse_unknown"))
    return draft.said(written.fuse, "current")


def _cable(draft: Draft, written: Any) -> str:
    """Section, gauge and length: ``6 mm² (10 AWG), 4.2 m``."""
    words = draft.words
    if written.section is None:
        section = str(words("drawings.one_line_section_unknown"))
    else:
        area = draft.said(written.section, "cable_section")
        section = str(words("drawings.one_line_section", section=area, gauge=gauge_to_buy(written.section)))
    if written.length is None:
        return f"{section}, {words('drawings.one_line_length_unknown')}"
    return f"{section}, {draft.said(written.length, 'length_long')}"


def _drop(draft: Draft, circuit: CircuitStudy) -> str:
    """Voltage lost running and starting."""
    said = [
        str(draft.words(f"drawings.one_line_drop_{name}", drop=draft.said(drop, "voltage_fine")))
        for name, drop in (("run", circuit.drop_run), ("start", circuit.drop_start))
        if drop is not None
    ]
    return ", ".join(said)


def _said(draft: Draft, circuit: CircuitStudy, written: Any) -> Iterator[str]:
    """Currents, and what is out of the ordinary."""
    words = draft.words
    currents = [
        str(words(f"drawings.one_line_{name}", current=draft.said(current, "current")))
        for name, current in (("starts", circuit.start), ("runs", circuit.run))
        if current is not None
    ]
    if currents:
        yield ", ".join(currents)
    if written.two_wire is False:
        yield str(words("drawings.one_line_hull"))
    if written.fed_before_main_switch:
        yield str(words("drawings.one_line_before"))
    if isinstance(written.cut_out, str) and written.cut_out:
        yield str(words("drawings.one_line_cut_out", what=written.cut_out))
