"""Tests change a boat by its nodes; the program reads a whole file. Both must give the same project."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.notation import ProjectFaults
from tests.written_boat import WrittenBoat, as_text, in_full


def _boat():
    if "ring_boat" not in sys.modules:
        spec = spec_from_file_location("ring_boat", Path(__file__).parents[1] / "ring_boat.py")
        sys.modules["ring_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["ring_boat"])
    return sys.modules["ring_boat"]


boat = _boat()
CUTTER = WrittenBoat(boat.CUTTER)
SAID = [
    {},
    {"vessel.hull": "wood", "components.P1.curve": None},
    {"zones.0.sections.0.area": {"is": "31 m2", "spread": "5 %"}, "conditions.wind": "6 m/s"},
    {f"{boat.BRANCH}.heads.1.pipe.length": "3.5 m", "circuit.ring.1": {"unit": "P1"}},
    {"defaults.basis": "assumed"},
    {"marks": {"M": {"along": "6.6 m"}}},
    {"layout.places": None, "fuel": {"tank": "100 l"}, "tap_water": "none"},
    boat.SEALED,
]


@pytest.mark.parametrize("changes", SAID)
def test_a_boat_changed_by_nodes_is_the_boat_read_from_a_file(changes):
    quick, full = CUTTER.project(changes), in_full(as_text(CUTTER.mapping(changes)))
    assert quick.model_dump() == full.model_dump()
    said = [
        {line.key: (line.text, line.basis, line.spread) for line in project._inputs}
        for project in (quick, full)
    ]
    assert said[0] == said[1]


def test_what_a_file_may_not_say_is_refused_in_the_same_words():
    changes = {"components.B1.efficiency": "82 bar", "circuit.header.unit": "T9", "zones.0.colour": "red"}
    told = []
    for read in (CUTTER.project, lambda changes: in_full(as_text(CUTTER.mapping(changes)))):
        with pytest.raises(ProjectFaults) as refused:
            read(changes)
        told.append({(fault.what, fault.instead) for fault in refused.value.faults})
    assert told[0] == told[1]
    assert len(told[0]) == 3


def test_changing_leaves_the_boat_as_she_was():
    before = CUTTER.mapping({})
    CUTTER.project({"circuit.ring.4.pipe.length": "9 m", "zones.1.target": "15 degC", "electrics": None})
    assert CUTTER.mapping({}) == before
    assert CUTTER.project().model_dump() == in_full(boat.CUTTER).model_dump()
