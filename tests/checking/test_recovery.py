"""Heat from an engine: two coolants, a ring that does not overheat, an engine neither too hot nor too cold.

Limits are common practice, no source, as the catalogue says; here each is tried just inside and outside.
"""

import sys
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.checking import recovery as checks
from dossier.checking.finding import Status
from dossier.checking.run import limit_of
from dossier.data.catalogue import catalogue
from tests.demonstrations import studied


def _hot_boat():
    if "hot_boat" not in sys.modules:
        spec = spec_from_file_location("hot_boat", Path(__file__).parents[1] / "hot_boat.py")
        sys.modules["hot_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["hot_boat"])
    return sys.modules["hot_boat"]


boat = _hot_boat()
ICE_POINT = 273.15
NAMES = [name for name, row in catalogue().items() if row.group == "recovery"]
NO_MODE = {"modes.generator running": None}
GENERATOR = "modes.generator running"


def finding(check, changes=None):
    return boat.finding(f"recovery.{check}", changes)


def of_study(check, **parts):
    """A check of the boat with parts of her study exchanged."""
    study = boat.study_of().but(**parts)
    return getattr(checks, check)(study, limit_of(study, f"recovery.{check}"))


def with_unit(**figures):
    """Her recovered heat with figures of its one exchanger and mode exchanged."""
    recovery = boat.study_of().recovery
    mode = recovery.modes["generator running"]
    units = tuple(
        replace(unit, **{k: v for k, v in figures.items() if hasattr(unit, k)}) for unit in mode.units
    )
    mode = replace(mode, units=units, **{k: v for k, v in figures.items() if hasattr(mode, k)})
    return replace(recovery, modes={"generator running": mode})


@pytest.mark.parametrize("name", NAMES)
def test_a_boat_written_out_meets_every_check(name):
    assert boat.finding(name).status is Status.MET


@pytest.mark.parametrize("name", NAMES)
def test_before_a_circuit_is_written_silence_is_no_answer(name):
    found = boat.finding(name, boat.BARE)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("recovery",))


@pytest.mark.parametrize("name", NAMES)
def test_none_is_an_answer(name):
    found = boat.finding(name, boat.BARE | {"recovery": "none"})
    assert (found.status, found.why) == (Status.NOT_APPLICABLE, checks.NO_RECOVERY)


@pytest.mark.parametrize("name", NAMES)
def test_a_written_circuit_without_an_exchanger_takes_no_heat_from_an_engine(name):
    found = boat.finding(name, boat.WITHOUT_HEAT_FROM_TAP_OR_ENGINE)
    assert (found.status, found.why) == (Status.NOT_APPLICABLE, checks.NO_EXCHANGER)


@pytest.mark.parametrize(
    ("changes", "status", "missing"),
    [
        ({"components.X2.engine_side": "sea water"}, "not met", ()),
        ({"components.X2.engine_side": None}, "not assessed", ("components.X2.engine_side",)),
        ({"circuit.ring.1.unit": "G1"}, "not met", ()),
    ],
)
def test_engine_and_ring_keep_their_coolants_apart(changes, status, missing):
    found = finding("two_coolants", changes)
    assert (found.status.value, found.missing) == (status, missing)


def test_an_engine_plumbed_into_the_ring_is_told_even_without_an_exchanger():
    changes = {
        "circuit.ring": [{"unit": "P1"}, {"unit": "G1"}],
        "components": {
            "P1": {"kind": "pump", "curve": [["0 l/min", "30 kPa"], ["20 l/min", "0 kPa"]]},
            "G1": {"kind": "generator"},
        },
        "circuit.header": None,
        "modes": None,
        "layout": None,
    }
    found = finding("two_coolants", changes)
    assert (found.status, found.found) == (Status.NOT_MET, "G1 stands in the ring itself")


@pytest.mark.parametrize(("jacket", "status"), [("90 degC", "met"), ("90.1 degC", "not met")])
def test_the_engine_makes_the_ring_no_hotter_than_burner_and_hoses_stand(jacket, status):
    found = finding("ring_overheat", {"components.G1.jacket_highest": jacket})
    assert (found.status.value, found.place) == (status, "generator running, hottest water")
    assert float(found.bound) - ICE_POINT == pytest.approx(90)


@pytest.mark.parametrize(("off", "status"), [(-0.01, "met"), (0.01, "not met")])
def test_the_ring_stays_ten_kelvin_under_boiling(off, status):
    boiling = float(boat.study_of().expansion.boiling_point)
    expansion = replace(boat.study_of().expansion, boiling_point=boiling - 12)
    found = of_study(
        "ring_overheat", expansion=expansion, recovery=with_unit(ring_highest=boiling - 22 + off)
    )
    assert found.status.value == status
    assert found.place == "generator running, boiling"


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"components.G1.jacket_highest": None}, ("components.G1.jacket_highest",)),
        ({"components.G1.jacket_heat": None}, ("components.G1.jacket_heat",)),
        (
            {"components.X2.at": None},
            tuple(
                f"components.X2.at.{name}" for name in ("engine_in", "engine_flow", "ring_in", "ring_flow")
            ),
        ),
        ({"layout.places.P1": None}, ("layout.places.P1",)),
        (NO_MODE, ("modes.recovering",)),
        ({"components.P1.curve": None}, ("components.P1.curve",)),
    ],
)
def test_the_hottest_ring_waits_for_its_inputs(changes, missing):
    found = finding("ring_overheat", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(
    ("changes", "status", "missing"),
    [
        ({"components.G1.own_cooler": "false"}, "not met", ()),
        ({"components.G1.own_cooler": None}, "not assessed", ("components.G1.own_cooler",)),
        ({"components.X2.serves": None}, "not assessed", ("components.X2.serves",)),
    ],
)
def test_the_engine_keeps_a_cooler_of_its_own(changes, status, missing):
    found = finding("engine_cooling", changes)
    assert (found.status.value, found.missing) == (status, missing)


@pytest.mark.parametrize(("celsius", "status"), [(55.0, "met"), (54.99, "not met")])
def test_the_jacket_reaches_five_kelvin_under_its_thermostat(celsius, status):
    found = of_study("overcool", recovery=with_unit(jacket=ICE_POINT + celsius))
    assert (found.status.value, found.place) == (status, "G1, generator running")


def test_an_engine_whose_thermostat_nobody_states_is_not_assessed():
    found = finding("overcool", {"components.G1.thermostat": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("components.G1.thermostat",))


def test_a_small_engine_on_a_large_ring_stays_cold():
    found = finding("overcool", {"components.G1.jacket_heat": "100 W"})
    assert (found.status, found.remark) == (Status.NOT_MET, "from cold its thermostat never opens")


@pytest.mark.parametrize(
    ("number", "status", "missing"),
    [
        ("2", "met", ()),
        ("1", "not met", ()),
        ("0", "not met", ()),
        (None, "not assessed", ("components.X2.engine_valves",)),
    ],
)
def test_two_valves_at_the_engine(number, status, missing):
    found = finding("valves", {"components.X2.engine_valves": number})
    assert (found.status.value, found.missing) == (status, missing)


@pytest.mark.parametrize(
    ("changes", "status", "missing"),
    [
        ({"components.G1.filler_level": "0.401 m"}, "met", ()),
        ({"components.G1.filler_level": "0.4 m"}, "not met", ()),
        ({"components.G1.filler_level": "0.3 m", "components.X2.vented": "true"}, "met", ()),
        (
            {"components.G1.filler_level": "0.3 m", "components.X2.vented": None},
            "not assessed",
            ("components.X2.vented",),
        ),
        ({"components.G1.filler_level": None}, "not assessed", ("components.G1.filler_level",)),
        (
            {"layout.places.X2": None, "components.X2.vented": None},
            "not assessed",
            ("layout.places.X2", "components.X2.vented"),
        ),
    ],
)
def test_the_exchanger_lies_below_the_filler_or_has_a_vent(changes, status, missing):
    """Its top is at 0.0 + 0.4 m."""
    found = finding("exchanger_height", changes)
    assert (found.status.value, found.missing) == (status, missing)


@pytest.mark.parametrize(
    ("changes", "status", "missing"),
    [
        ({"components.P1.runs_without_burner": "false"}, "not met", ()),
        ({"components.P1.runs_without_burner": None}, "not assessed", ("components.P1.runs_without_burner",)),
        ({f"{GENERATOR}.stopped": None}, "not applicable", ()),
        (NO_MODE, "not assessed", ("modes.recovering",)),
    ],
)
def test_something_moves_the_water_while_the_burner_rests(changes, status, missing):
    found = finding("pump_runs", changes)
    assert (found.status.value, found.missing) == (status, missing)


def test_a_leak_goes_the_way_of_the_lower_pressure():
    assert finding("leak_way").found == "from the engine into the ring"
    outward = finding("leak_way", {"components.G1.cap_pressure": "0 bar"})
    assert outward.found == "from the ring into the engine"
    assert "alarm" in outward.remark


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"components.G1.cap_pressure": None}, ("components.G1.cap_pressure",)),
        ({"layout.places.P1": None}, ("layout.places.P1",)),
    ],
)
def test_the_way_of_a_leak_waits_for_both_pressures(changes, missing):
    found = finding("leak_way", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


def test_every_reason_printed_is_one_sentence():
    for name in NAMES:
        words = getattr(checks, catalogue()[name].function).__doc__
        assert words.endswith("."), name
        assert words.count(". ") == 0, name


def test_the_yachts_ring_is_two_kelvin_under_its_limit_without_demand():
    found = boat.finding_in(studied("northern_quill"), "recovery.ring_overheat")
    assert (found.status, float(found.margin)) == (Status.MET, pytest.approx(2))
