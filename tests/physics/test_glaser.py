"""Water in build-ups over a year: where it sits, when it goes, and what keeps it out."""

from itertools import pairwise

import numpy as np
import pytest

from dossier.physics.glaser import Month, Part, condensing_rates, glaser_year, parted

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
OUTSIDE = (2.1, 2.4, 4.8, 8.0, 12.1, 15.3, 17.2, 17.0, 14.0, 10.2, 6.1, 3.2)
YEAR = tuple(Month(293.15, 273.15 + t, 0.60, 0.85, days) for t, days in zip(OUTSIDE, DAYS, strict=True))
FILMS = (0.04, 0.13)
PLATE, PLANK = Part("steel", 1e-4, 6000.0), Part("planking", 0.17, 1.5)
WOOL, FOAM = Part("mineral_wool", 1.25, 0.05), Part("sprayed_foam", 1.8, 3.0)
LINING, FOIL = Part("plywood", 0.07, 0.63), Part("foil", 0.0, 50.0)


def test_wool_on_steel_gathers_water_for_ever():
    year = glaser_year((PLATE, WOOL, LINING), YEAR, FILMS)
    assert not year.dries
    assert year.peak > 1
    assert [(face.outer, face.inner) for face in year.faces] == [("steel", "mineral_wool")]


def test_planking_dries_in_summer():
    year = glaser_year((PLANK, WOOL, LINING), YEAR, FILMS)
    assert year.dries
    assert year.peak == max(year.water) == year.water[3]
    assert year.water[7] == 0


def test_a_foil_keeps_most_of_the_water_out():
    bare, tight = (glaser_year((PLATE, WOOL, *inner), YEAR, FILMS) for inner in ((LINING,), (FOIL, LINING)))
    assert tight.peak < bare.peak / 50


def test_a_warm_boat_in_a_warm_year_stays_dry():
    summer = tuple(Month(293.15, 290.15, 0.50, 0.60, 30) for _ in range(12))
    year = glaser_year((PLANK, WOOL, LINING), summer, FILMS)
    assert year.peak == 0
    assert year.dries
    assert year.faces == ()


def test_the_months_may_begin_anywhere():
    """The year begins with the first month that condenses, wherever the list begins."""
    turned = YEAR[5:] + YEAR[:5]
    first = glaser_year((PLANK, WOOL, LINING), YEAR, FILMS)
    second = glaser_year((PLANK, WOOL, LINING), turned, FILMS)
    assert second.water == pytest.approx(first.water[5:] + first.water[:5])


def test_water_is_told_face_by_face_and_together():
    year = glaser_year((PLANK, FOAM, WOOL, LINING), YEAR, FILMS)
    assert year.faces
    assert np.sum([face.water for face in year.faces], axis=0) == pytest.approx(year.water)


def test_thick_insulation_is_parted_without_losing_any():
    finer = parted((PLATE, FOAM, LINING))
    assert max(part.resistance for part in finer) <= 0.25
    assert sum(part.resistance for part in finer) == pytest.approx(1e-4 + 1.8 + 0.07)
    assert sum(part.vapour_thickness for part in finer) == pytest.approx(6000 + 3 + 0.63)


def test_a_bare_plate_has_no_face_within():
    assert glaser_year((PLATE,), YEAR, FILMS).peak == 0


def test_the_string_lies_under_the_saturation_line_and_bends_only_where_it_touches():
    places = np.array([0.0, 1.0, 2.0, 3.0, 4.0])
    limits = np.array([300.0, 500.0, 450.0, 950.0, 1400.0])
    rates = condensing_rates(places, limits, [])
    assert rates[[0, 1, 3, 4]] == pytest.approx(0)
    assert rates[2] == pytest.approx(2e-10 * ((1400 - 450) / 2 - (450 - 300) / 2))


def test_a_wet_face_above_the_string_dries():
    places, limits = np.array([0.0, 1.0, 2.0]), np.array([300.0, 900.0, 1000.0])
    assert condensing_rates(places, limits, [])[1] == 0
    assert condensing_rates(places, limits, [1])[1] == pytest.approx(2e-10 * (100 - 600))


def test_water_never_goes_below_nothing_and_months_follow_each_other():
    year = glaser_year((PLANK, FOAM, WOOL, LINING), YEAR, FILMS)
    assert min(year.water) >= 0
    assert any(later < earlier for earlier, later in pairwise(year.water))
