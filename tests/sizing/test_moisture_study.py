"""Where it gets wet: against PsychroLib, ISO 13788 by hand, and the yardsticks of invented boats."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import exp
from pathlib import Path

import pytest

from dossier.notation import NotAssessed, named_results, origin_of
from dossier.project.model.conditions import Conditions, Weather
from dossier.sizing.moisture_year import months_of
from tests.demonstrations import studied


def _hot_boat():
    if "hot_boat" not in sys.modules:
        spec = spec_from_file_location("hot_boat", Path(__file__).parents[1] / "hot_boat.py")
        sys.modules["hot_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["hot_boat"])
    return sys.modules["hot_boat"]


boat = _hot_boat()
ICE_POINT = 273.15
SIDES = "zones.0.sections.0"
WOOL = [
    {"material": "steel", "thickness": "5 mm"},
    {"material": "mineral_wool", "thickness": "50 mm"},
    {"material": "plywood", "thickness": "9 mm"},
]
ONE_MONTH = {
    "conditions.months": [{"month": "1", "outside_air": "-8 degC"}],
    "conditions.humidity_inside": "60 %",
    "build_ups.planking": {"layers": WOOL},
}


def saturation(celsius):
    """Form of ISO 13788."""
    steep, shift = (17.269, 237.3) if celsius >= 0 else (21.875, 265.5)
    return 610.5 * exp(steep * celsius / (shift + celsius))


def section(changes=None, name="Sides"):
    study = boat.study_of(changes)
    return next(s for s in study.moisture.sections if s.name == name)


@pytest.fixture(scope="module")
def cutter():
    return studied("lantern_auk").moisture


@pytest.mark.parametrize(
    ("percent", "target", "dew"),
    [
        (60, "20 degC", 12.00747),
        (70, "18 degC", 12.45257),
        (65, "22 degC", 15.12377),
        (40, "25 degC", 10.47569),
    ],
)
def test_dew_point_of_a_room_by_psychrolib(percent, target, dew):
    """PsychroLib 2.5.0, GetTDewPointFromRelHum."""
    changes = {"conditions.humidity_inside": f"{percent} %", "zones.0.target": target}
    found = boat.study_of(changes).moisture.rooms["saloon"]
    assert float(found.dew_point) - ICE_POINT == pytest.approx(dew, abs=0.1)


def test_a_surface_with_the_film_of_still_air():
    """Worked check in Czech: U 1.169 with R_si 0.25, 20.6 and −13 °C: 10.7804 °C, f_Rsi 0.708.

    With the inside film of the heat loss, 0.13, the same wall has U = 1/(1/1.169 − 0.12).
    """
    wall = {
        "name": "Sides",
        "u_value": f"{1 / (1 / 1.169 - 0.12):.8f} W/m2K",
        "area": "20 m2",
        "faces": "air",
    }
    found = section({SIDES: wall, "zones.0.target": "20.6 degC", "conditions.outside_air": "-13 degC"})
    assert float(found.surface_temperature) - ICE_POINT == pytest.approx(10.7804, abs=1e-4)
    assert float(found.f_rsi) == pytest.approx(0.708, abs=0.0007)


def test_the_steel_cutters_dew_point_and_flanges(cutter):
    """Yardstick: lining over a topside flange about 2 °C, dew point at 20 °C and 60 % 12 °C."""
    assert float(cutter.rooms["saloon"].dew_point) - ICE_POINT == pytest.approx(12, abs=0.1)
    topsides = next(s for s in cutter.sections if (s.zone, s.name) == ("saloon", "Topsides"))
    assert float(topsides.flange_temperature) - ICE_POINT == pytest.approx(2, abs=0.5)
    assert float(topsides.surface_temperature) - ICE_POINT > 14


def test_aluminium_frames_with_and_without_foam_over_the_flange():
    """Yardstick of the yacht: about 14 °C under 20 mm of foam, about 7 °C under plywood below water."""
    metal = {"material": "aluminium", "spacing": "500 mm", "web": "6 mm", "depth": "80 mm", "flange": "50 mm"}
    ply = {"material": "plywood", "thickness": "9 mm"}
    topsides = {
        "layers": [
            {"material": "aluminium", "thickness": "8 mm"},
            {"material": "sprayed_foam", "thickness": "80 mm"},
            {"air": "25 mm"},
            ply,
        ],
        "frames": metal | {"covered_by": [{"material": "closed_cell_foam", "thickness": "20 mm"}, ply]},
    }
    below = {
        "layers": [
            {"material": "aluminium", "thickness": "10 mm"},
            {"material": "sprayed_foam", "thickness": "60 mm"},
            {"air": "30 mm"},
            ply,
        ],
        "frames": metal | {"web": "8 mm", "depth": "100 mm", "flange": "60 mm", "covered_by": [ply]},
    }
    cold = {"conditions.outside_air": "-22 degC", "conditions.sea": "0 degC", "conditions.wind": "12 m/s"}
    over = section(cold | {"build_ups.planking": topsides})
    under = section(cold | {"build_ups.planking": below, f"{SIDES}.faces": "sea"})
    assert float(over.flange_temperature) - ICE_POINT == pytest.approx(14, abs=0.5)
    assert float(under.flange_temperature) - ICE_POINT == pytest.approx(7, abs=0.5)


def test_the_most_humid_month_is_the_coldest():
    """p_i/p_sat(θ_si) at 2 °C in January, by hand from the index of the surface."""
    found = section()
    surface = 20 - (1 - float(found.f_rsi)) * (20 - 2)
    assert found.worst_month == 1
    assert float(found.surface_humidity) == pytest.approx(
        0.5 * saturation(20) / saturation(surface), rel=1e-9
    )


def test_water_on_cold_plating_behind_wool_by_hand():
    """Glaser's method for 31 days of −8 °C: R_se of 4 m/s, moist wool of 0.06 W/mK, wet-cup plywood of 70."""
    film = 1 / (4 + 4 * 4 + 4 * 0.9 * 5.670374419e-8 * (ICE_POINT - 8) ** 3)
    outer, inner = film + 0.005 / 50, 0.05 / 0.06 + 0.009 / 0.13 + 0.13
    plate = -8 + 28 * outer / (outer + inner)
    rate = 2e-10 * (0.6 * saturation(20) - saturation(plate)) / (70 * 0.009 + 1 * 0.05)
    found = section(ONE_MONTH)
    assert float(found.condensate) == pytest.approx(rate * 31 * 86400, rel=2e-3)
    assert float(found.dries) == 0
    assert [(f.outer, f.inner) for f in found.condensation.year.faces] == [("steel", "mineral_wool")]


def test_a_tight_inner_face_keeps_the_wool_dry_and_most_water_out():
    """s_d 50.68 m instead of 0.68 m (ISO 10456, foil of 50 m, from memory); dry wool besides."""
    tight = section(ONE_MONTH | {"build_ups.planking": {"layers": WOOL, "vapour_tight": "true"}})
    bare = section(ONE_MONTH)
    assert float(tight.condensate) == pytest.approx(float(bare.condensate) * 0.68 / 50.68, rel=0.05)


def test_the_less_favourable_vapour_factor_counts():
    """Oak of 200 dry and 50 wet outside, plywood of 70 wet and 200 dry inside: ISO 10456, from memory."""
    layers = [{"material": "oak", "thickness": "50 mm"}, *WOOL[1:]]
    found = section(ONE_MONTH | {"build_ups.planking": {"layers": layers}})
    assert found.condensation.cups == ("dry", "wet")


def test_wood_in_the_sea_stands_in_saturated_air():
    layers = [{"material": "oak", "thickness": "50 mm"}, *WOOL[1:]]
    changes = {
        "build_ups.planking": {"layers": layers},
        "conditions.humidity_inside": "60 %",
        "conditions.months": [{"month": "1", "outside_air": "2 degC", "sea": "2 degC"}],
    }
    dry = section(changes)
    wet = section(changes | {f"{SIDES}.faces": "sea"})
    assert float(wet.condensate) > float(dry.condensate) > 0


def test_a_wall_of_an_engine_room_is_seen_from_the_warm_side_whoever_writes_it():
    wall = {"name": "Bulkhead", "u_value": "1 W/m2K", "area": "4 m2"}
    inside = {"zones.0.sections.1": wall | {"faces": {"zone": "engine_room"}}}
    shell = {"name": "Shell", "u_value": "3 W/m2K", "area": "10 m2", "faces": "sea"}
    outside = {"zones.1.sections": [wall | {"faces": {"zone": "saloon"}}, shell]}
    own, other = section(inside, "Bulkhead"), section(outside, "Bulkhead")
    assert (own.zone, own.room, other.zone, other.room) == ("saloon", "saloon", "engine_room", "saloon")
    assert float(own.surface_temperature) == pytest.approx(float(other.surface_temperature))
    assert float(own.f_rsi) == pytest.approx(1 - 0.25 / (1 + 0.12))


def test_a_build_up_between_rooms_is_turned_about_where_the_cold_side_writes_it():
    layers = {"layers": [*WOOL[2:], *WOOL[1:2], {"material": "steel", "thickness": "5 mm"}]}
    shell = {"name": "Shell", "u_value": "30 W/m2K", "area": "10 m2", "faces": "air"}
    wall = {"name": "Bulkhead", "build_up": "turned", "area": "4 m2", "faces": {"zone": "saloon"}}
    found = section(ONE_MONTH | {"build_ups.turned": layers, "zones.1.sections": [wall, shell]}, "Bulkhead")
    assert found.flange_temperature is None
    assert [(f.outer, f.inner) for f in found.condensation.year.faces] == [("steel", "mineral_wool")]


def test_a_space_nobody_heats_follows_the_outside_air_by_one_share():
    """Share b = (20 − θ_u)/28 on the design night; in the month θ_u = 20 − 28 · b again, by hand."""
    wall = {"name": "Bulkhead", "u_value": "1 W/m2K", "area": "4 m2", "faces": {"zone": "engine_room"}}
    changes = ONE_MONTH | {"zones.0.sections.1": wall}
    found = section(changes, "Bulkhead")
    surface = float(found.surface_temperature) - ICE_POINT
    expected = 0.6 * saturation(20) / saturation(surface)
    assert float(found.surface_humidity) == pytest.approx(expected, rel=1e-9)


def test_spaces_that_nobody_heats_are_left_out():
    assert {s.room for s in boat.study_of().moisture.sections} == {"saloon"}


def test_months_of_an_hourly_weather_file_are_means():
    hours = tuple(ICE_POINT + (1.0 if hour < 31 * 24 else 7.0) for hour in range(8760))
    weather = Weather("weather.epw", hours, (0.0,) * 8760)
    conditions = Conditions.model_construct(weather=weather)
    months = months_of(boat.project_of().model_copy(update={"conditions": conditions}))
    assert [float(m.outside) - ICE_POINT for m in months[:2]] == pytest.approx([1.0, 7.0])
    assert sum(m.days for m in months) == 365
    assert months[0].sea is None


def test_a_leap_years_february_has_a_day_more():
    weather = Weather("weather.epw", (ICE_POINT,) * 8784, (0.0,) * 8784)
    conditions = Conditions.model_construct(weather=weather)
    months = months_of(boat.project_of().model_copy(update={"conditions": conditions}))
    assert [m.days for m in months[:3]] == [31, 29, 31]


def test_every_named_result_has_a_working():
    results = list(named_results(boat.study_of().moisture))
    names = {r.name for r in results}
    assert "dew_point.zone.saloon" in names
    assert {
        f"moisture.saloon.Sides.{what}"
        for what in (
            "f_rsi",
            "surface_temperature",
            "flange_temperature",
            "surface_humidity",
            "condensate",
            "dries",
        )
    } <= names
    assert all(origin_of(r.value) is not None for r in results)


def test_silence_is_told_with_its_keys():
    found = boat.study_of(boat.BARE | {"zones": None}).moisture
    assert isinstance(found, NotAssessed)
    assert "zones" in found.needs
    bare = boat.study_of({"conditions.months": None}).moisture
    assert bare.months == ()
    assert {s.lacking for s in bare.sections} == {("conditions.months",)}
