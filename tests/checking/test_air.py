"""The burner's air and its space. Flows follow from the combustion of gas oil, written out here once more."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.checking.finding import Status


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("exhaust_boat")
finding = boat.finding
DENSITY = 101325 / (287.05 * 298.15)
BURNER = 8000 / (0.82 * 42.6e6) * 14.5 * 1.5 / DENSITY
"""Air of 8 kW at 82 %: gas oil of 42.6 MJ/kg, 14.5 kg/kg, half as much again; air of 25 °C (m³/s)."""
ENGINE = 200 / 3600
ALONE = {"exhaust": None, "components.B1.air_opening": None}
"""No heat of an exhaust, and no figure of the maker: the burner's own air is all it needs."""


def area(square_metres):
    return f"{square_metres:.12g} m2"


@pytest.mark.parametrize(
    ("air", "status"),
    [
        ({"from": "outside"}, "met"),
        ({"from": "engine_room", "opening": "20 cm2"}, "met"),
        ({"from": "engine_room", "opening": "0 cm2"}, "not met"),
        ({"from": "saloon", "opening": "150 cm2"}, "not met"),
    ],
)
def test_the_burner_breathes_air_from_outside_never_from_where_people_live(air, status):
    assert finding("air.source", {"combustion_air": air}).status.value == status


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"combustion_air": None}, ("combustion_air.from",)),
        ({"combustion_air.opening": None}, ("combustion_air.opening",)),
        (
            {
                "combustion_air.from": "locker",
                "layout.compartments.locker": {"from": ["0 m", "-1 m", "0 m"], "to": ["1 m", "1 m", "1 m"]},
            },
            ("layout.compartments.locker.holds",),
        ),
    ],
)
def test_what_the_source_of_air_waits_for_is_named(changes, missing):
    found = finding("air.source", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(("velocity", "status"), [(0.99, "met"), (1.01, "not met")])
def test_the_air_needed_goes_through_the_opening_at_one_metre_a_second(velocity, status):
    found = finding("air.opening", ALONE | {"combustion_air.opening": area(BURNER / velocity)})
    assert (found.status.value, float(found.found)) == (status, pytest.approx(velocity, rel=1e-9))


def test_an_engine_without_an_opening_of_its_own_draws_through_the_burners():
    changes = ALONE | {"combustion_air.engine_opening": None, "combustion_air.opening": area(0.05)}
    found = finding("air.opening", changes)
    assert (found.status, float(found.found)) == (Status.NOT_MET, pytest.approx((BURNER + ENGINE) / 0.05))
    silent = finding("air.opening", changes | {"components.E1.air_flow": None})
    assert (silent.status, float(silent.found)) == (Status.MET, pytest.approx(BURNER / 0.05))
    assert "for the burner alone" in silent.remark


@pytest.mark.parametrize(("asked", "status"), [("149 cm2", "met"), ("151 cm2", "not met")])
def test_the_free_area_is_that_of_the_maker(asked, status):
    found = finding("air.opening", {"components.B1.air_opening": asked})
    assert found.status.value == status
    assert "supplied" not in found.remark


def test_an_opening_that_is_shut_lets_nothing_in():
    found = finding("air.opening", ALONE | {"combustion_air.opening": "0 cm2"})
    assert (found.status, found.found) == (Status.NOT_MET, "no free opening")


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"combustion_air.opening": None}, ("combustion_air.opening",)),
        (ALONE | {"components.B1.output": None}, ("components.burner.output.max",)),
        ({"combustion_air": None, "components.B1.output": None}, ("combustion_air.opening",)),
    ],
)
def test_what_the_opening_waits_for_is_named(changes, missing):
    found = finding("air.opening", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


def test_air_led_from_outside_asks_nothing_of_the_space():
    ducted = {"combustion_air": {"from": "outside"}}
    for check in ("air.opening", "air.suction"):
        found = finding(check, ducted)
        assert (found.status, found.why) == (
            Status.NOT_APPLICABLE,
            "the burner's air is led to it from outside",
        )


def opening_for(pressure, flow):
    """Orifice: Δp = ρ/2 · (q/(0.6 · A))², turned round for A."""
    return flow / 0.6 * (DENSITY / 2 / pressure) ** 0.5


@pytest.mark.parametrize(("pressure", "status"), [(4.95, "met"), (5.05, "not met")])
def test_engine_and_fans_pull_no_more_than_five_pascals(pressure, status):
    whole = opening_for(pressure, BURNER + ENGINE + 90 / 3600)
    changes = {
        "combustion_air.fans": [{"air_flow": "90 m3/h"}],
        "combustion_air.opening": area(0.01),
        "combustion_air.engine_opening": area(whole - 0.01),
    }
    found = finding("air.suction", changes)
    assert (found.status.value, float(found.found)) == (status, pytest.approx(pressure, rel=1e-6))


def test_too_much_for_the_burners_opening_asks_for_that_of_the_engine():
    found = finding("air.suction", {"combustion_air.engine_opening": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("combustion_air.engine_opening",))
    wide = {"combustion_air.engine_opening": None, "combustion_air.opening": area(0.08)}
    assert finding("air.suction", wide).status is Status.MET


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"components.E1.air_flow": None}, ("components.E1.air_flow",)),
        ({"components.E1": None}, ("components.engine.air_flow",)),  # the engine room holds one
        (
            {"layout.compartments.engine_room.holds": ["diesel engine", "genset"]},
            ("components.generator.air_flow",),
        ),
        ({"combustion_air.fans": None}, ("combustion_air.fans",)),
        ({"combustion_air.fans": [{}]}, ("combustion_air.fans.air_flow",)),
        ({"combustion_air.opening": None}, ("combustion_air.opening",)),
    ],
)
def test_what_the_suction_waits_for_is_named(changes, missing):
    found = finding("air.suction", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


def test_a_space_without_an_engine_has_only_the_burner_in_it():
    changes = {"components.E1": None, "layout.compartments.engine_room.holds": ["fuel tank"]}
    found = finding("air.suction", changes | {"combustion_air.engine_opening": None})
    expected = DENSITY / 2 * (BURNER / (0.6 * 0.015)) ** 2
    assert (found.status, float(found.found)) == (Status.MET, pytest.approx(expected, rel=1e-9))


def test_an_engine_placed_elsewhere_does_not_draw_from_the_burners_space():
    elsewhere = {"layout.places.E1": {"at": ["5 m", "0 m", "0 m"], "size": ["0.5 m", "0.5 m", "0.5 m"]}}
    held = {"layout.compartments.engine_room.holds": ["fuel tank"]}
    study = boat.study_of(elsewhere | held)
    assert float(study.air.engines) == 0


@pytest.mark.parametrize(("measured", "status"), [("4.9 Pa", "met"), ("5.1 Pa", "not met")])
def test_the_suction_that_was_measured_counts(measured, status):
    changes = {"commissioning.co": {"suction": measured}}
    found = finding("air.suction", changes)
    assert (found.status.value, found.place) == (status, "measured")
    found = finding("air.suction", changes | {"components.E1.air_flow": None})
    assert (found.status.value, found.remark) == (status, "measured")


@pytest.mark.parametrize(
    ("space_max", "measured", "status"),
    [("55 degC", 54.9, "met"), ("55 degC", 55.1, "not met"), (None, 49.9, "met"), (None, 50.1, "not met")],
)
def test_the_burners_space_stays_as_cool_as_the_maker_asks_or_below_fifty_degrees(
    space_max, measured, status
):
    changes = {
        "components.B1.space_max": space_max,
        "commissioning.surface.compartment_air": f"{measured} degC",
    }
    found = finding("air.compartment_temperature", changes)
    assert found.status.value == status
    assert ("maker's figure not supplied" in found.remark) is (space_max is None)


def test_a_cold_engine_room_on_the_design_night_says_nothing_of_the_hot_case():
    found = finding("air.compartment_temperature", {"commissioning": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("commissioning.surface.compartment_air",))
    assert "not the hot case" in found.why
    # A space that is too hot on the coldest night already is found without a test.
    hot = {"commissioning": None, "components.B1.space_max": "0 degC", "conditions.outside_air": "2 degC"}
    assert finding("air.compartment_temperature", hot).status is Status.NOT_MET


@pytest.mark.parametrize(
    ("held", "status"),
    [
        (["diesel engine", "fuel tanks", "batteries"], "met"),
        ([], "met"),
        (["petrol engine"], "not met"),
        (["diesel engine", "two gas bottles"], "not met"),
        (["paint and varnish"], "not met"),
    ],
)
def test_no_vapour_that_takes_fire_shares_the_burners_space(held, status):
    assert finding("air.vapour", {"layout.compartments.engine_room.holds": held}).status.value == status


@pytest.mark.parametrize(
    ("sealed", "status"), [("true", "met"), ("false", "not met"), (None, "not assessed")]
)
def test_a_gas_locker_beside_it_is_sealed(sealed, status):
    locker = {"from": ["0.5 m", "-2 m", "0 m"], "to": ["1.5 m", "2 m", "1.8 m"], "holds": ["gas bottles"]}
    locker |= {"sealed": sealed} if sealed else {}
    found = finding("air.vapour", {"layout.compartments.locker": locker})
    assert found.status.value == status
    assert (found.missing == ("layout.compartments.locker.sealed",)) is (sealed is None)
    apart = locker | {"to": ["1.4 m", "2 m", "1.8 m"]}
    assert finding("air.vapour", {"layout.compartments.locker": apart}).status is Status.MET


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"layout.compartments.engine_room.holds": None}, ("layout.compartments.engine_room.holds",)),
        (
            {"layout.places.B1": None, "combustion_air": None},
            ("layout.places.B1", "combustion_air.from"),
        ),
    ],
)
def test_what_the_vapour_waits_for_is_named(changes, missing):
    found = finding("air.vapour", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(
    ("sealed", "status"), [("true", "met"), ("false", "not met"), (None, "not assessed")]
)
def test_the_burners_space_is_tight_against_the_cabins(sealed, status):
    found = finding("air.space_sealed", {"layout.compartments.engine_room.sealed": sealed})
    assert found.status.value == status
    assert (found.missing == ("layout.compartments.engine_room.sealed",)) is (sealed is None)


def test_every_space_the_exhaust_runs_through_is_tight_against_the_cabins():
    locker = {"from": ["0.5 m", "-2 m", "0 m"], "to": ["1.9 m", "2 m", "1.8 m"], "sealed": "false"}
    found = finding("air.space_sealed", {"layout.compartments.locker": locker})
    assert (found.status, found.place) == (Status.NOT_MET, "locker")


def test_a_space_nobody_names_is_not_assessed():
    found = finding("air.space_sealed", {"layout.places.B1": None, "combustion_air": None})
    assert found.status is Status.NOT_ASSESSED
    assert {"layout.places.B1", "combustion_air.from"} <= set(found.missing)


@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({"air_from": "saloon"}, "met"),
        ({"air_from": "outside"}, "met"),
        ({"air_from": "engine_room"}, "not met"),
        ({"air_from": None}, "not assessed"),
    ],
)
def test_a_fan_coil_draws_from_a_cabin_or_from_outside(changes, status):
    found = finding("air.fan_coil_return", {f"components.F1.{key}": value for key, value in changes.items()})
    assert found.status.value == status
    assert (found.missing == ("components.F1.air_from",)) is (status == "not assessed")


def test_a_fan_coil_that_stands_in_the_engine_room_draws_its_air():
    found = finding("air.fan_coil_return", {"layout.places.F1.at": ["2.0 m", "1.0 m", "0 m"]})
    assert (found.status, found.found) == (Status.NOT_MET, "stands in engine_room")
    assert "not placed" in finding("air.fan_coil_return", {"layout.places.F1": None}).remark


def test_checks_of_what_is_not_aboard_do_not_apply():
    nothing = {"components": {}, "layout.places": None} | boat.CIRCUIT_WITHOUT
    for check in (
        "source",
        "opening",
        "suction",
        "compartment_temperature",
        "vapour",
        "space_sealed",
        "fan_coil_return",
    ):
        assert finding(f"air.{check}", nothing).status is Status.NOT_APPLICABLE
    silent = finding("air.fan_coil_return", {"components": None, "layout.places": None})
    assert (silent.status, silent.missing) == (Status.NOT_ASSESSED, ("components.fan_coil.air_from",))
