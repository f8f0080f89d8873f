"""Reads a project section by section, and judges the sections against each other."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from dossier.notation import Basis, Fault
from dossier.project.fields import keys_of
from dossier.project.model.file import ProjectFile
from dossier.project.nodes import Map, Node
from dossier.project.overlay import inserted
from dossier.project.reader import Reader
from dossier.project.record import Record, Where
from dossier.project.references import Names, circuit_faults, reference_faults, wall_doubts, wall_faults
from dossier.project.short_forms import written_out
from dossier.project.source_file import Folder

APART = frozenset({"format", "alternatives"})
TOP = Where("", "")


@dataclass(frozen=True, slots=True)
class Section:
    """One top-level key as read, and the node it was read from."""

    node: Node
    content: Any
    record: Record


@dataclass
class Reading:
    """A whole file as read."""

    sections: dict[str, Section] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    doubts: list[Fault] = field(default_factory=list)

    @property
    def records(self) -> list[Record]:
        """Records of all sections."""
        return [section.record for section in self.sections.values()]


def read_sections(
    root: Map,
    folder: Folder,
    defaults: Mapping[int, Basis],
    before: tuple[Map, Reading] | None = None,
    insertions: Node | None = None,
) -> Reading:
    """All sections of a project; those an overlay left alone are taken over from the reading before."""
    reading = Reading()
    whole, faults = written_out(root)
    if insertions is not None:
        whole, more = inserted(whole, insertions)
        faults += more
    reading.faults += faults
    keys = keys_of(ProjectFile)
    same = _unchanged(root, before) if before else set()
    if insertions is not None:
        same.discard("circuit")
    marks: Any = {}
    strange = Reader(folder, defaults)
    order = sorted(whole.pairs, key=lambda key: key != "marks")
    for key in order:
        pair = whole.pairs[key]
        reader = Reader(folder, defaults, marks)
        if key not in keys:
            strange.unknown(key, pair.spot, keys)
        elif key in same and before:
            reading.sections[key] = before[1].sections[key]
        elif key not in APART:
            held = reader.read(keys[key].plan, pair.node, TOP.under(key, spot=pair.spot))
            reading.sections[key] = Section(pair.node, held, reader.record)
        if key == "marks":
            marks = reading.sections[key].content or {}
    reading.faults += strange.record.faults
    _judge(reading)
    return reading


def _unchanged(root: Map, before: tuple[Map, Reading]) -> set[str]:
    """Sections an overlay does not touch; marks and defaults touch all."""
    old, reading = before
    same = {k for k, pair in root.pairs.items() if k in old.pairs and old.pairs[k].node is pair.node}
    shaken = any(key in root.pairs and key not in same for key in ("marks", "defaults"))
    return set() if shaken else same & reading.sections.keys()


def _judge(reading: Reading) -> None:
    """What the sections say against each other."""
    records = reading.records
    for record in records:
        reading.faults += record.faults
        reading.doubts += record.doubts
    names = Names.of(records)
    reading.faults += reference_faults(records, names)
    zones = reading.sections.get("zones")
    if zones and zones.content:
        reading.faults += wall_faults(zones.content, zones.record)
        reading.doubts += wall_doubts(zones.content, zones.record)
    circuit = reading.sections.get("circuit")
    if circuit and circuit.content:
        reading.faults += circuit_faults(circuit.content, circuit.record, names)
