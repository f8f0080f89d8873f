"""Candidates: further ways out with the same keys, what they leave out as in the exhaust."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.checking.candidates import ways_out
from dossier.checking.finding import Status
from dossier.data.catalogue import Severity
from dossier.notation import named_results


def _beside(name):
    if name not in sys.modules:
        place = Path(__file__).parents[1] / "checking" / f"{name}.py"
        spec = spec_from_file_location(name, place)
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("exhaust_boat")
TRANSOM = {"route": [["3 m", "-1 m", "0.5 m"], ["0.2 m", "-0.8 m", "1.0 m"], ["0 m", "-0.8 m", "0.9 m"]]}
LOW = {
    "route": [["3 m", "-1 m", "0.05 m"], ["2.5 m", "-1.5 m", "0.3 m"], ["2.3 m", "-1.7 m", "0.2 m"]],
    "lagging": "none",
}
CANDIDATES = {"exhaust.candidates": {"over transom": TRANSOM, "low": LOW}}


def test_candidates_have_results_of_their_own_names_beside_those_of_the_exhaust():
    study = boat.study_of(CANDIDATES)
    found = {result.name: float(result.value) for result in named_results(study)}
    assert found["exhaust.length"] == pytest.approx(float(boat.study_of().exhaust.length))
    first = ((3.0 - 0.2) ** 2 + 0.2**2 + 0.5**2) ** 0.5
    last = (0.2**2 + 0.1**2) ** 0.5
    assert found["exhaust.candidate.over_transom.length"] == pytest.approx(first + last, rel=1e-9)
    assert found["exhaust.candidate.low.outlet_height.upright"] == pytest.approx(0.2 - 0.015)
    assert "exhaust.candidate.over_transom.passage.hull_side.gap" in found


def test_what_a_candidate_leaves_out_is_as_in_the_exhaust():
    study = boat.study_of(CANDIDATES).candidates["over transom"]
    assert float(study.run.bore) == 0.03
    assert [passage.name for passage in study.passages] == ["hull side"]
    assert study.key("route") == "exhaust.candidates.over transom.route"
    assert study.key("bore") == "exhaust.bore"


def test_a_candidate_of_a_stated_length_does_not_take_the_route_of_the_exhaust():
    study = boat.study_of({"exhaust.candidates": {"rough": {"length": "2.7 m"}}}).candidates["rough"]
    assert float(study.length) == 2.7


def test_a_candidate_with_a_way_of_its_own_has_no_measured_clearance():
    study = boat.study_of(CANDIDATES | {"exhaust.candidates.lagged": {"lagging": {"thickness": "60 mm"}}})
    assert study.candidates["over transom"].heat.run_temperature is None
    assert study.candidates["lagged"].heat.run_temperature is not None


def test_ways_out_are_ordered_by_what_they_do_not_meet_and_say_why():
    ways = ways_out(boat.study_of(CANDIDATES))
    assert [way.name for way in ways] == ["", "over transom", "low"]
    best, _, worst = ways
    assert best.not_met == ()
    names = {found.check for found in worst.not_met}
    assert {"exhaust.outlet_height", "exhaust.outlet_heeled", "exhaust.lagging"} <= names
    assert worst.count(Severity.DANGER, Status.NOT_MET) >= 2
    assert "of grade danger not met" in worst.reason
    assert best.rank < worst.rank


def test_a_candidate_is_judged_as_if_it_were_the_exhaust():
    ways = {way.name: way for way in ways_out(boat.study_of(CANDIDATES))}
    length = {found.check: found for found in ways["over transom"].findings}["exhaust.length"]
    assert (length.key, length.status) == ("exhaust.candidates.over transom.route", Status.NOT_MET)
    clearance = {found.check: found for found in ways["low"].findings}["exhaust.run_clearance"]
    assert clearance.status is Status.NOT_ASSESSED


def test_what_was_measured_aboard_says_nothing_of_a_candidate():
    changes = CANDIDATES | {"commissioning.heights": {"outlet_upright": "0.1 m"}}
    ways = {way.name: way for way in ways_out(boat.study_of(changes))}
    heights = {
        name: {found.check: found for found in way.findings}["exhaust.outlet_height"].status
        for name, way in ways.items()
    }
    assert heights[""] is Status.NOT_MET
    assert heights["over transom"] is Status.MET
