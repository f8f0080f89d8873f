"""What the burner takes and how long the tank lasts.

Gas oil of 42.6 MJ/kg and 0.84 kg/l makes 9.94 kWh/l (common practice, no source). Litres and days of the
boats are those of the independent calculation made for the demonstration projects.
"""

from pathlib import Path

import pytest

from dossier.notation import NotAssessed, named_results, origins_behind
from dossier.project import load
from dossier.sizing.fuel import fuel

BOAT = """
format: 1
document: {{number: T-1, revision: A, date: 2026-11-20}}
components: {{{components}}}
fuel: {{{fuel}}}
"""
BURNER = "B1: {kind: burner, output: {max: 5 kW}}"
KWH_A_LITRE = 42.6 * 0.84 / 3.6


def project(folder: Path, components=BURNER, tank="tank: 120 l"):
    file = folder / "boat.yaml"
    file.write_text(BOAT.format(components=components, fuel=tank), encoding="utf-8")
    return load(file)


@pytest.mark.parametrize(
    ("boat", "load", "litres", "days"),
    [
        # D: 80 % and 85 % assumed; 1.59 kW, 102 l usable
        ((BURNER, "tank: 120 l"), 1590.0, 4.8, 21.25),
        # A: 84 %, 5.13 kW, 900 l · 85 % − 300 l for the engine
        (
            (
                "B1: {kind: burner, output: {max: 12 kW}, efficiency: 84 %}",
                "tank: 900 l, usable: 85 %, reserve_for_engine: 300 l",
            ),
            5130.0,
            14.7,
            465 / 14.7,
        ),
        # B: 86 %, 6.6 kW, 1,800 l · 90 % − 600 l
        (
            (
                "B1: {kind: burner, output: {max: 11 kW}, efficiency: 86 %}",
                "tank: 1800 l, usable: 90 %, reserve_for_engine: 600 l",
            ),
            6600.0,
            18.5,
            1020 / 18.5,
        ),
        # C: 80 % assumed, 3.8 kW; and 82 % from the plate
        (("B1: {kind: burner, output: {max: 8 kW}}", "tank: 160 l, usable: 80 %"), 3780.0, 11.4, 128 / 11.4),
        (
            (
                "B1: {kind: burner, output: {max: 8 kW}, efficiency: 82 %}",
                "tank: 160 l, usable: 80 %",
            ),
            3780.0,
            11.1,
            128 / 11.1,
        ),
    ],
)
def test_litres_a_day_and_days_in_the_tank(tmp_path, boat, load, litres, days):
    found = fuel(project(tmp_path, *boat), load)
    assert found.per_day * 1000 == pytest.approx(litres, abs=0.06)
    assert found.autonomy / 86400 == pytest.approx(days, rel=0.01)


def test_fuel_at_full_output_is_that_of_all_burners(tmp_path):
    two = (
        "B1: {kind: burner, output: {max: 5 kW, min: 2 kW}, efficiency: 80 %}, "
        "B2: {kind: burner, output: {max: 3 kW}, efficiency: 85 %}"
    )
    found = fuel(project(tmp_path, two), 4000.0)
    litres_an_hour = 5 / (0.80 * KWH_A_LITRE) + 3 / (0.85 * KWH_A_LITRE)
    assert found.rate * 3.6e6 == pytest.approx(litres_an_hour)
    assert found.burners[0].rate_low * 3.6e6 == pytest.approx(2 / (0.80 * KWH_A_LITRE))
    assert found.burners[1].rate_low is None
    assert found.per_day * 1000 == pytest.approx(4 * 24 / (0.80 * KWH_A_LITRE))  # the less efficient counts


def test_what_is_not_known_is_left_open(tmp_path):
    boat = project(tmp_path)
    assert {r.name for r in named_results(fuel(boat, None))} == {"fuel.rate"}
    assert {r.name for r in named_results(fuel(boat, 0.0))} == {"fuel.rate"}  # a warm night burns nothing
    no_tank = fuel(project(tmp_path, tank="lift: 0.5 m"), 1000.0)
    assert (no_tank.usable, no_tank.autonomy) == (None, None)
    no_plate = fuel(project(tmp_path, "B1: {kind: burner}"), 1000.0)
    assert no_plate == NotAssessed("How long does the fuel last?", ("components.B1.output.max",))
    no_burner = fuel(project(tmp_path, "P1: {kind: pump}"), 1000.0)
    assert no_burner.needs == ("components.burner.output",)


def test_an_assumed_efficiency_is_told_as_assumed(tmp_path):
    found = fuel(project(tmp_path), 1590.0)
    keys = {getattr(origin, "key", "") for origin in origins_behind(found.autonomy)}
    assert {"components.B1.efficiency", "fuel.usable", "fuel.tank"} <= keys


def test_the_reserve_may_take_the_whole_tank(tmp_path):
    found = fuel(project(tmp_path, tank="tank: 120 l, reserve_for_engine: 110 l"), 1000.0)
    assert (found.usable, found.autonomy) == (0, 0)
