"""Dew point, surfaces and water inside build-ups, against PsychroLib, ISO 13788 and worked hull cases."""

import pytest

from dossier.physics.glaser import Month, Part, diffusion_rate, glaser_year, vapour_thickness
from dossier.physics.moisture import (
    dew_point,
    lowest_surface_temperature,
    saturation_pressure,
    surface_humidity,
    surface_temperature,
    temperature_factor,
    temperature_factor_of_surface,
    vapour_pressure,
)

ICE_POINT = 273.15
DAY = 86400.0


@pytest.mark.parametrize(
    ("celsius", "pascal"),
    [(-10, 259.9029), (0.01, 611.657), (10, 1227.995), (20, 2338.804), (30, 4246.03)],
)
def test_saturation_pressure_of_psychrolib(celsius, pascal):
    """PsychroLib 2.5.0, GetSatVapPres; the form of ISO 13788 lies within 0.3 %."""
    assert saturation_pressure(ICE_POINT + celsius) == pytest.approx(pascal, rel=0.003)


@pytest.mark.parametrize(
    ("celsius", "pascal"),
    [(-10, 259.3332), (-5, 401.181), (0, 610.5), (5, 871.8645), (10, 1227.31), (20, 2336.951)],
)
def test_saturation_pressure_by_the_form_of_iso_13788(celsius, pascal):
    """610.5·exp(17.269·t/(237.3 + t)), below 0 °C 610.5·exp(21.875·t/(265.5 + t))."""
    assert saturation_pressure(ICE_POINT + celsius) == pytest.approx(pascal, rel=1e-6)


@pytest.mark.parametrize(
    ("celsius", "percent", "dew"),
    [
        (20, 50, 9.272392),
        (20, 60, 12.00747),
        (18, 70, 12.45257),
        (22, 65, 15.12377),
        (10, 80, 6.713005),
        (5, 90, 3.498473),
        (25, 40, 10.47569),
        (20, 100, 20.0),
    ],
)
def test_dew_point_of_psychrolib(celsius, percent, dew):
    """PsychroLib 2.5.0, GetTDewPointFromRelHum."""
    pressure = vapour_pressure(percent / 100, ICE_POINT + celsius)
    assert dew_point(pressure) - ICE_POINT == pytest.approx(dew, abs=0.1)


@pytest.mark.parametrize(("celsius", "percent", "dew"), [(20, 60, 12.00393), (18, 70, 12.45036)])
def test_dew_point_by_the_form_of_iso_13788(celsius, percent, dew):
    """Inverse of 610.5·exp(17.269·t/(237.3 + t))."""
    pressure = vapour_pressure(percent / 100, ICE_POINT + celsius)
    assert dew_point(pressure) - ICE_POINT == pytest.approx(dew, rel=1e-6)


@pytest.mark.parametrize(
    ("celsius", "percent", "humidity_ratio"), [(20, 60, 8.734481e-3), (-8, 90, 1.717168e-3)]
)
def test_vapour_pressure_by_the_humidity_ratio_of_psychrolib(celsius, percent, humidity_ratio):
    """PsychroLib 2.5.0, GetHumRatioFromRelHum at 101325 Pa."""
    pressure = vapour_pressure(percent / 100, ICE_POINT + celsius)
    assert 0.621945 * pressure / (101325 - pressure) == pytest.approx(humidity_ratio, rel=0.005)


@pytest.mark.parametrize(
    ("transmittance", "celsius", "factor"), [(1.169, 10.7804, 0.708), (0.213, 18.811, 0.947)]
)
def test_surface_of_a_worked_check(transmittance, celsius, factor):
    """Worked check in Czech, public repository: R_si 0.25, 20.6 °C inside, −13 °C outside."""
    inside, outside = ICE_POINT + 20.6, ICE_POINT - 13
    surface = surface_temperature(transmittance, 0.25, inside, outside)
    assert surface - ICE_POINT == pytest.approx(celsius, abs=0.001)
    assert temperature_factor(transmittance, 0.25) == pytest.approx(factor, abs=0.0007)
    assert temperature_factor_of_surface(surface, inside, inside - outside) == pytest.approx(
        factor, abs=0.0007
    )


@pytest.mark.parametrize(
    ("celsius", "percent", "surface", "factor"),
    [(20, 60, 15.43487, 0.8369598), (18, 70, 15.89369, 0.9189881)],
)
def test_surface_that_keeps_below_80_percent(celsius, percent, surface, factor):
    """Criterion of ISO 13788: p_sat(θ_si) = p_i/0.8; index asked for at −8 °C outside."""
    inside = ICE_POINT + celsius
    pressure = vapour_pressure(percent / 100, inside)
    lowest = lowest_surface_temperature(pressure, 0.8)
    assert lowest - ICE_POINT == pytest.approx(surface, rel=1e-6)
    assert surface_humidity(pressure, lowest) == pytest.approx(0.8)
    found = temperature_factor_of_surface(lowest, inside, inside - (ICE_POINT - 8))
    assert found == pytest.approx(factor, rel=1e-6)


def test_vapour_permeability_of_air():
    """ISO 13788:2012 as quoted on a public page: 2e-10 kg/(m·s·Pa)."""
    assert diffusion_rate(1.0, 0.0, 1.0) == 2e-10


ONE_COLD_DAY = (Month(ICE_POINT + 20, ICE_POINT - 8, 0.60, 0.90, 1.0),)
FILMS = (0.04, 0.13)
LINING = Part("plywood", 0.009 / 0.13, vapour_thickness(70.0, 0.009))
PLATE = Part("steel", 0.005 / 50, vapour_thickness(1e6, 0.005))
WOOL = Part("mineral_wool", 0.05 / 0.040, vapour_thickness(1.0, 0.05))


def test_vapour_thickness_from_the_lining_to_the_plating():
    """Arithmetic: 70 · 0.009 + 1 · 0.05 = 0.68 m."""
    assert LINING.vapour_thickness + WOOL.vapour_thickness == pytest.approx(0.68)


def test_water_on_cold_plating_behind_wool():
    """Arithmetic of Glaser's method: 27.23387 g/m2 a day on plating at −7.246 °C that lets nothing through.

    Steel of μ 1e6 lets a hair of it out: a tenth of a per mille.
    """
    year = glaser_year((PLATE, WOOL, LINING), ONE_COLD_DAY, FILMS)
    assert 1000 * year.peak == pytest.approx(27.23387, rel=1e-4)
    assert [(face.outer, face.inner) for face in year.faces] == [("steel", "mineral_wool")]


def test_a_vapour_barrier_keeps_all_but_a_seventieth_away():
    """The same with s_d 50 m behind the plywood: 0.3654111 g/m2 a day."""
    barrier = Part("barrier", 0.0, 50.0)
    year = glaser_year((PLATE, WOOL, barrier, LINING), ONE_COLD_DAY, FILMS)
    assert 1000 * year.peak == pytest.approx(0.3654111, rel=1e-3)


def test_water_between_planking_and_wool():
    """Arithmetic of Glaser's method, water leaving outward counted: 23.4321 g/m2 a day at −4.264 °C."""
    planking = Part("planking", 0.030 / 0.18, vapour_thickness(50.0, 0.030))
    wool = Part("mineral_wool", 0.040 / 0.035, vapour_thickness(1.0, 0.040))
    year = glaser_year((planking, wool, LINING), ONE_COLD_DAY, FILMS)
    assert 1000 * year.peak == pytest.approx(23.4321, rel=1e-5)


def test_one_winter_and_one_summer_month_by_hand():
    """Arithmetic: what a January brings on planking, and how long a July takes to dry it."""
    planking = Part("planking", 0.030 / 0.18, 1.5)
    parts = (planking, WOOL, LINING)
    january = Month(ICE_POINT + 20, ICE_POINT - 8, 0.60, 0.90, 30.0)
    july = Month(ICE_POINT + 20, ICE_POINT + 18, 0.60, 0.70, 30.0)
    total = 0.04 + 0.030 / 0.18 + 0.05 / 0.040 + 0.009 / 0.13 + 0.13

    def rate(month):
        share = (0.04 + 0.030 / 0.18) / total
        face = saturation_pressure(month.outside + share * (month.inside - month.outside))
        inward = month.humidity_inside * saturation_pressure(month.inside) - face
        outward = face - month.humidity_outside * saturation_pressure(month.outside)
        return 2e-10 * (inward / 0.68 - outward / 1.5)

    year = glaser_year(parts, (january, july), FILMS)
    brought = rate(january) * 30 * DAY
    assert rate(july) < 0
    assert year.water[0] == pytest.approx(brought, rel=1e-9)
    assert year.water[1] == pytest.approx(max(0.0, brought + rate(july) * 30 * DAY), abs=1e-12)
    assert year.peak == year.water[0]
    assert year.dries == (year.water[1] == 0.0)
