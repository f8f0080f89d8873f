"""Friction in pipes against Colebrook's root, worked problems and a general hydraulics library."""

import fluids
import numpy as np
import pytest

from dossier.physics.pipe import (
    friction_factor,
    friction_factor_rough,
    pipe_drop,
    relative_roughness,
    reynolds_number,
    velocity,
)

COLEBROOK = [
    (4000, 0, 0.03990701),
    (4000, 0.0001, 0.04000843),
    (4000, 0.001, 0.04091039),
    (4000, 0.005, 0.04471124),
    (4000, 0.02, 0.05695852),
    (6000, 0, 0.03550305),
    (6000, 0.0001, 0.03562439),
    (6000, 0.001, 0.0366962),
    (6000, 0.005, 0.04109061),
    (6000, 0.02, 0.05444855),
    (10000, 0, 0.03088295),
    (10000, 0.0001, 0.03103721),
    (10000, 0.001, 0.03238181),
    (10000, 0.005, 0.03762986),
    (10000, 0.02, 0.05227491),
    (30000, 0, 0.02348295),
    (30000, 0.0001, 0.02375323),
    (30000, 0.001, 0.02596973),
    (30000, 0.005, 0.03324454),
    (30000, 0.02, 0.04991019),
    (100000, 0, 0.01798977),
    (100000, 0.0001, 0.01851387),
    (100000, 0.001, 0.02217454),
    (100000, 0.005, 0.03130638),
    (100000, 0.02, 0.04902655),
    (1000000, 0, 0.01164504),
    (1000000, 0.0001, 0.01344144),
    (1000000, 0.001, 0.01994347),
    (1000000, 0.005, 0.03046503),
    (1000000, 0.02, 0.04867669),
]
"""Re, relative roughness, Darcy friction factor: root of Colebrook's equation by fluids 1.3.1."""

DROPS = [
    (0.019, 5, 10, 983.23899, 0.00046605881, 1150.241),
    (0.019, 5, 20, 983.23899, 0.00046605881, 4003.768),
    (0.019, 5, 30, 983.23899, 0.00046605881, 8393.842),
    (0.019, 5, 10, 1012.3035, 0.0013234369, 1506.583),
    (0.019, 5, 20, 1012.3035, 0.0013234369, 5088.912),
    (0.019, 5, 30, 1012.3035, 0.0013234369, 10467.87),
    (0.019, 5, 10, 1048.7938, 0.022115745, 5761.904),
    (0.019, 5, 20, 1048.7938, 0.022115745, 11523.81),
    (0.019, 5, 30, 1048.7938, 0.022115745, 17285.71),
    (0.012, 10, 3, 983.23899, 0.00046605881, 2475.435),
    (0.012, 10, 6, 983.23899, 0.00046605881, 8483.167),
    (0.012, 10, 9, 983.23899, 0.00046605881, 17629.16),
    (0.012, 10, 3, 1012.3035, 0.0013234369, 3324.744),
    (0.012, 10, 6, 1012.3035, 0.0013234369, 11035.22),
    (0.012, 10, 9, 1012.3035, 0.0013234369, 22484.25),
    (0.012, 10, 3, 1048.7938, 0.022115745, 21727.35),
    (0.012, 10, 6, 1048.7938, 0.022115745, 43454.69),
    (0.012, 10, 9, 1048.7938, 0.022115745, 65182.04),
    (0.016, 10, 8, 983.23899, 0.00046605881, 3536.169),
    (0.016, 10, 14, 983.23899, 0.00046605881, 9676.057),
    (0.016, 10, 8, 1012.3035, 0.0013234369, 4627.835),
    (0.016, 10, 14, 1012.3035, 0.0013234369, 12348.32),
    (0.016, 10, 8, 1048.7938, 0.022115745, 18332.45),
    (0.016, 10, 14, 1048.7938, 0.022115745, 32081.79),
]
"""Bore, length, l/min, density, viscosity, drop: fluids 1.3.1, wall 0.007 mm rough (SI but for the flow)."""


def drop_of(flow, bore, length, roughness, density, viscosity):  # noqa: PLR0913, PLR0917 - a pipe has six
    speed = velocity(flow, bore)
    friction = friction_factor(
        reynolds_number(speed, bore, density, viscosity), relative_roughness(roughness, bore)
    )
    return pipe_drop(friction, length, bore, density, speed)


@pytest.mark.parametrize(("reynolds", "expected"), [(10, 6.4), (500, 0.128), (1000, 0.064), (2000, 0.032)])
def test_laminar_flow_has_64_over_reynolds(reynolds, expected):
    """Hagen-Poiseuille, identity."""
    assert friction_factor(reynolds, 0.001) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(("reynolds", "roughness", "expected"), COLEBROOK)
def test_turbulent_flow_follows_colebrook(reynolds, roughness, expected):
    """Root of Colebrook's equation by fluids 1.3.1, printed to 7 digits; asked for: half a per cent."""
    assert friction_factor(reynolds, roughness) == pytest.approx(expected, rel=2e-6)


def test_whole_turbulent_range_lies_within_a_millionth_of_the_library():
    """Root of Colebrook's equation by fluids, over Re 4e3 to 1e8 and relative roughness 0 to 0.05."""
    for roughness in (0.0, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 0.05):
        for reynolds in np.geomspace(4e3, 1e8, 40):
            with np.errstate(over="ignore"):
                root = fluids.friction.Colebrook(float(reynolds), roughness)
            assert friction_factor(reynolds, roughness) == pytest.approx(root, rel=1e-6)


@pytest.mark.parametrize("roughness", [0.0, 1e-4, 1e-3, 1e-2, 0.05])
def test_drop_rises_without_a_step_through_the_transition(roughness):
    """Cubic of Dunlop (EPANET 2.2 User Manual): values and slopes meet at Re 2000 and 4000."""
    reynolds = np.linspace(1500, 5000, 7001)
    drop = friction_factor(reynolds, np.full_like(reynolds, roughness)) * reynolds**2
    rise = np.diff(drop)
    assert (rise > 0).all()
    assert np.abs(np.diff(rise)).max() < 0.002 * rise.max()


def test_reynolds_number_of_crane_7_1():
    """Crane TP-410M, worked problem 7.1: 200 l/min of water at 30 °C in 52.5 mm (properties IAPWS-95)."""
    speed = velocity(0.2 / 60, 0.0525)
    assert reynolds_number(speed, 0.0525, 995.65, 7.972e-4) == pytest.approx(100600, rel=0.01)


def test_friction_factor_of_crane_7_1():
    """Crane TP-410M, worked problem 7.1: smooth pipe, read to three digits."""
    assert friction_factor(100600, 0.0) == pytest.approx(0.0179, abs=0.00025)


def test_fuel_oil_of_crane_7_13():
    """Crane TP-410M, worked problem 7.13: 66.5 kPa with a friction factor rounded to 0.0230."""
    flow, length = 2 * 3.785411784e-3, 100 * 0.3048
    drop = drop_of(flow, 0.0525, length, 0.0018 * 0.0254, 814.27, 2.7e-6 * 814.27)
    assert drop == pytest.approx(66500, rel=0.015)


def test_reynolds_number_of_maurer_4_3():
    """Maurer, Hydraulics and Water Resources: Examples Using R, example 4.3."""
    speed = velocity(0.416, 0.5)
    assert reynolds_number(speed, 0.5, 1000, 1.023053e-3) == pytest.approx(1035465, rel=1e-4)


def test_friction_factor_of_maurer_4_3():
    """Maurer, example 4.3."""
    assert friction_factor(1035465, 0.046e-3 / 0.5) == pytest.approx(0.0133, abs=5e-5)


def test_head_loss_of_maurer_4_3():
    """Maurer, example 4.3: 0.61 m (the print says feet by mistake)."""
    drop = drop_of(0.416, 0.5, 100, 0.046e-3, 1000, 1.023053e-3)
    assert drop / (1000 * 9.81) == pytest.approx(0.61, abs=0.006)


def test_flow_of_maurer_4_4_loses_its_head():
    """Maurer, example 4.4: 0.413 m³/s, to half a litre, lose 0.6 m."""
    low, high = (
        drop_of(flow, 0.5, 100, 0.046e-3, 1000, 1.023e-3) / (1000 * 9.81) for flow in (0.4124, 0.4136)
    )
    assert low < 0.6 < high


def test_bore_of_maurer_4_5_loses_its_head():
    """Maurer, example 4.5: 0.501 m, printed to a millimetre."""
    wide, narrow = (
        drop_of(0.416, bore, 100, 0.046e-3, 1000, 1.023e-3) / (1000 * 9.81) for bore in (0.5025, 0.4995)
    )
    assert wide < 0.6 < narrow


@pytest.mark.parametrize(
    ("bore", "expected"),
    [
        (0.0158, 0.02554449),
        (0.0209, 0.02369715),
        (0.0266, 0.02226074),
        (0.0351, 0.02076484),
        (0.0409, 0.02000347),
        (0.0525, 0.01884741),
    ],
)
def test_friction_factor_of_rough_steel(bore, expected):
    """By fluids 1.3.1, ft_Crane: commercial steel, 0.0457 mm; the library fits a table by another form."""
    assert friction_factor_rough(4.57e-5 / bore) == pytest.approx(expected, abs=0.0012)


@pytest.mark.parametrize("case", DROPS)
def test_drop_of_hose_and_pex(case):
    """Darcy-Weisbach by fluids 1.3.1: hose and PEX with water and propylene glycol, hot and cold."""
    bore, length, litres, density, viscosity, expected = case
    drop = drop_of(litres / 60000, bore, length, 7e-6, density, viscosity)
    assert drop == pytest.approx(expected, rel=2e-6)


def test_drop_against_the_flow_is_negative():
    """Identity: the law is odd."""
    forth, back = (drop_of(sign * 1e-4, 0.012, 4, 7e-6, 985, 4.7e-4) for sign in (1, -1))
    assert forth > 0
    assert back == -forth


@pytest.mark.parametrize(("reynolds", "expected"), [(2300, 0.0308401), (3000, 0.04297466)])
@pytest.mark.xfail(
    strict=True, reason="Churchill blends laminar and turbulent flow otherwise: no two transitions agree"
)
def test_transition_agrees_with_churchill(reynolds, expected):
    """By fluids 1.3.1, Churchill 1977, smooth pipe."""
    assert friction_factor(reynolds, 0.0) == pytest.approx(expected, rel=0.01)
