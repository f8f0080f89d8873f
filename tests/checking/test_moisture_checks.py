"""Linings, frames and the inside of the shell: limits after ISO 13788, each tried just inside and outside.

Expected surfaces are those of a wall of stated transmittance, its inside film of 0.13 m²K/W exchanged for
the 0.25 m²K/W of still air: U_m = 1/(1/U + 0.12).
"""

import sys
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from math import exp
from pathlib import Path

import pytest

from dossier.checking import moisture as checks
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
NAMES = [name for name, row in catalogue().items() if row.group == "moisture"]
DAMP = {"conditions.humidity_inside": "60 %"}
SIDES = "zones.0.sections.0"


def finding(check, changes=None):
    return boat.finding(f"moisture.{check}", changes)


def plain_wall(transmittance, name="Sides", **more):
    """The sides as one wall of a stated transmittance."""
    return {
        SIDES: {"name": name, "u_value": f"{transmittance} W/m2K", "area": "20 m2", "faces": "air", **more}
    }


def saturation(celsius):
    """Form of ISO 13788 above the ice point."""
    return 610.5 * exp(17.269 * celsius / (237.3 + celsius))


@pytest.mark.parametrize("name", NAMES)
def test_a_dry_boat_meets_every_check(name):
    assert boat.finding(name).status is Status.MET


@pytest.mark.parametrize("name", NAMES)
def test_a_humidity_that_nobody_states_is_no_evidence(name):
    found = boat.finding(name, {"conditions.humidity_inside": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("conditions.humidity_inside",))


@pytest.mark.parametrize("name", NAMES)
def test_without_rooms_there_is_no_lining(name):
    found = boat.finding(name, boat.BARE | {"zones": None})
    assert found.status is Status.NOT_ASSESSED
    assert "zones" in found.missing


@pytest.mark.parametrize(("transmittance", "status"), [(1.1355, "met"), (1.137, "not met")])
def test_a_surface_stays_a_kelvin_over_the_dew_point(transmittance, status):
    """At 20 °C and 60 % the dew point is 12.004 °C (ISO 13788); −8 °C outside: U_m = 6.996/(0.25 · 28)."""
    found = finding("surface_dew", DAMP | plain_wall(transmittance))
    assert found.status.value == status
    assert float(found.found) - 273.15 == pytest.approx(13.0, abs=0.01)
    assert float(found.bound) - 273.15 == pytest.approx(13.00393, abs=1e-5)


@pytest.mark.parametrize(("transmittance", "status"), [(1.154, "met"), (1.156, "not met")])
def test_air_at_a_surface_keeps_below_80_percent_in_the_coldest_month(transmittance, status):
    """The surface must keep 15.43487 °C (ISO 13788: p_sat(θ_si) = p_i/0.8) at 2 °C outside."""
    found = finding("mould", DAMP | plain_wall(transmittance))
    assert (found.status.value, found.place) == (status, "saloon, Sides")


@pytest.mark.parametrize("check", ["surface_dew", "mould"])
@pytest.mark.parametrize(
    "changes",
    [plain_wall(6, "Big windows"), plain_wall(6, "Skylight aft"), plain_wall(6, "Hatches and ports")],
)
def test_glass_is_excepted(check, changes):
    found = finding(check, DAMP | changes)
    assert (found.status, found.why) == (Status.NOT_APPLICABLE, checks.ONLY_GLASS)


@pytest.mark.parametrize("name", ["Door", "Port side", "Hatch"])
def test_what_may_be_of_wood_or_metal_is_no_glass(name):
    assert finding("surface_dew", DAMP | plain_wall(6, name)).status is Status.NOT_MET


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"conditions.months": None}, ("conditions.months",)),
        ({"conditions.months.0.outside_air": None}, ("conditions.months.outside_air",)),
        ({f"{SIDES}.faces": "sea", "conditions.months.1.sea": None}, ("conditions.months.sea",)),
    ],
)
def test_the_year_is_asked_for(changes, missing):
    for check in ("mould", "inside_layers"):
        found = finding(check, changes)
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(("off", "status"), [(-0.002, "met"), (0.002, "not met")])
def test_a_flange_keeps_over_the_dew_point(off, status):
    """The humidity at which air of 20 °C is saturated at the flange's temperature."""
    flange = float(boat.study_of().moisture.sections[0].flange_temperature) - 273.15
    humidity = saturation(flange) / saturation(20) + off
    found = finding("frames", {"conditions.humidity_inside": f"{100 * humidity:.4f} %"})
    assert (found.status.value, found.place) == (status, "saloon, Sides")
    assert float(found.margin) == pytest.approx(0, abs=0.1)


def test_without_frames_no_flange_drips():
    found = finding("frames", {"build_ups.planking.frames": None})
    assert found.status is Status.NOT_APPLICABLE


@pytest.mark.parametrize("check", ["frames", "inside_layers"])
def test_of_walls_whose_layers_nobody_writes_nothing_is_known(check):
    found = finding(check, plain_wall(1.0))
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("zones.saloon.sections.Sides.build_up",))


def _with_water(peak, *, dries):
    """The boat with a peak of water in her planking."""
    study = boat.study_of()
    sections = []
    for section in study.moisture.sections:
        if section.condensation is not None:
            year = replace(section.condensation.year, peak=peak, dries=dries, water=(peak, peak / 2))
            section = replace(  # noqa: PLW2901 - the section as the check is to find it
                section, condensate=peak, condensation=replace(section.condensation, year=year)
            )
        sections.append(section)
    whole = replace(study.moisture, sections=tuple(sections))
    limit = limit_of(study, "moisture.inside_layers")
    return checks.inside_layers(study.but(moisture=whole), limit)


@pytest.mark.parametrize(
    ("peak", "dries", "status"),
    [(0.2, True, "met"), (0.2001, True, "not met"), (0.01, False, "not met"), (0.0, True, "met")],
)
def test_a_build_up_dries_within_the_year_and_holds_no_puddle(peak, dries, status):
    assert _with_water(peak, dries=dries).status.value == status


def test_what_stays_wet_says_how_much_is_left():
    found = _with_water(0.5, dries=False)
    assert (found.bound, found.margin) == ("dry within the year", -0.25)


def test_a_material_without_vapour_factor_is_asked_for():
    own = {"conductivity": "0.045 W/m/K", "density": "120 kg/m3", "source": "delivery note"}
    changes = {"materials": {"flax": own}, "build_ups.planking.layers.1.material": "flax"}
    found = finding("inside_layers", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("materials.flax.vapour_factor",))


def test_wool_on_plating_without_a_tight_face_gathers_water():
    wet = [
        {"material": "steel", "thickness": "5 mm"},
        {"material": "mineral_wool", "thickness": "50 mm"},
        {"material": "plywood", "thickness": "9 mm"},
    ]
    found = finding("inside_layers", {"build_ups.planking": {"layers": wet}})
    assert found.status is Status.NOT_MET
    assert "wet cup" in found.remark


def test_only_the_sections_whose_layers_are_written_are_spoken_of():
    assert finding("inside_layers").remark.endswith(checks.LAYERS_KNOWN)


def test_every_reason_printed_is_one_sentence():
    for name in NAMES:
        words = getattr(checks, catalogue()[name].function).__doc__
        assert words.endswith("."), name
        assert words.count(". ") == 0, name


@pytest.mark.parametrize(
    ("name", "status"),
    [
        ("lantern_auk", "not met"),
        ("northern_quill", "not met"),
        ("barley_moth_a", "not applicable"),
    ],
)
def test_bare_flanges_of_metal_boats_drip(name, status):
    assert boat.finding_in(studied(name), "moisture.frames").status.value == status
