"""Fittings, tees and valves against Crane TP-410, worked problems and a general hydraulics library."""

from math import pi

import fluids
import numpy as np
import pytest

from dossier.data.fittings import fitting_loss
from dossier.data.pipes import roughness_of
from dossier.physics.fittings import (
    equivalent_length,
    fitting_drop,
    loss_factor,
    loss_factor_of_bend,
    loss_factor_of_contraction,
    loss_factor_of_expansion,
    loss_factor_of_length,
    unit_drop,
)
from dossier.physics.pipe import friction_factor_rough, velocity
from dossier.physics.tees import converging_branch, converging_run, diverging_branch, diverging_run
from dossier.physics.valves import kv_needed, kv_of_loss_factor, loss_factor_of_kv, valve_drop


@pytest.mark.parametrize(
    ("name", "multiple"),
    [
        ("elbow_90_threaded", 30),
        ("elbow_45_threaded", 16),
        ("return_bend", 50),
        ("gate_valve", 8),
        ("globe_valve", 340),
        ("angle_valve", 150),
        ("ball_valve", 3),
        ("butterfly_valve", 45),
        ("swing_check_valve", 100),
        ("bend_1", 20),
        ("bend_1.5", 14),
        ("bend_2", 12),
        ("mitre_bend_90", 60),
    ],
)
def test_multiple_of_crane(name, multiple):
    """Crane TP-410, appendix A, as confirmed by fluids or open solutions."""
    assert fitting_loss(name).multiple == multiple


@pytest.mark.parametrize(("name", "multiple"), [("tee_run", 20), ("tee_branch", 60)])
def test_multiple_of_crane_from_memory(name, multiple):
    """Crane TP-410, appendix A, from memory."""
    assert fitting_loss(name).multiple == multiple


@pytest.mark.parametrize(("name", "loss"), [("entrance_flush", 0.5), ("entrance_inward", 0.78), ("exit", 1)])
def test_loss_factor_of_crane(name, loss):
    """Crane TP-410, appendix A; same in fluids."""
    assert fitting_loss(name).loss == loss


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("bend_1", 20),
        ("bend_1.5", 14.06042),
        ("bend_2", 11.88486),
        ("bend_3", 12.12123),
        ("bend_4", 13.9365),
        ("bend_6", 17.11813),
        ("bend_8", 23.9133),
        ("bend_10", 30.03187),
        ("bend_14", 37.99965),
        ("bend_20", 50),
    ],
)
def test_bends_of_crane_against_the_library(name, expected):
    """By fluids 1.3.1: bend_rounded(method='Crane') over its f_T, a smooth fit of the table."""
    assert fitting_loss(name).multiple == pytest.approx(expected, abs=0.3)


def test_valve_of_crane_7_2():
    """Crane TP-410M, worked problem 7.2: Kv 500 in 154 mm is K = 3.6, L/D = 240, L = 37 m at f_T = 0.015."""
    loss = loss_factor_of_kv(500, 0.154)
    assert loss == pytest.approx(3.6, abs=0.05)
    assert loss / 0.015 == pytest.approx(240, abs=0.5)
    assert equivalent_length(3.6, 0.154, 0.015) == pytest.approx(37, abs=0.06)


def test_angle_valve_of_crane_7_3():
    """Crane TP-410M, worked problem 7.3: 150 · 0.0165 = 2.475, Kv 240.2 in 97.2 mm."""
    loss = loss_factor(fitting_loss("angle_valve").multiple, 0.0165)
    assert loss == pytest.approx(2.475, abs=0.001)
    assert kv_of_loss_factor(loss, 0.0972) == pytest.approx(240.2, abs=0.2)


def test_coil_of_crane_7_11():
    """Crane TP-410M, worked problem 7.11: 9 m straight, seven 180° bends; 19.6 kPa by rounded tables."""
    rough = friction_factor_rough(roughness_of("fitting_steel") / 0.02664)
    bend = loss_factor_of_bend(pi, loss_factor(fitting_loss("bend_4").multiple, rough), 4, rough)
    loss = loss_factor_of_length(9, 0.02664, 0.024) + 7 * bend
    assert fitting_drop(loss, 971.8, velocity(1e-3, 0.02664)) == pytest.approx(19609, rel=0.06)


def test_branch_of_crane_7_35_draws():
    """Crane TP-410M, worked problem 7.35: branch 100 joins run 300, equal bores: K = −0.0422."""
    assert converging_branch(0.25, 1.0) == pytest.approx(-0.0422, abs=0.001)


def test_run_of_crane_7_35():
    """Crane TP-410M, worked problem 7.35: K = 0.325."""
    assert converging_run(0.25) == pytest.approx(0.325, abs=0.001)


@pytest.mark.parametrize("ratio", [0.5, 0.6, 0.7, 0.9, 1.0])
@pytest.mark.parametrize("share", [0.1, 0.35, 0.45, 0.7])
def test_tees_against_the_library(share, ratio):
    """By fluids: K_branch_converging_Crane and its sisters, 90°."""
    given = {"D_run": 1.0, "D_branch": ratio, "Q_run": 1 - share, "Q_branch": share, "angle": 90.0}
    library = fluids.fittings
    assert converging_branch(share, ratio) == pytest.approx(library.K_branch_converging_Crane(**given))
    assert converging_run(share) == pytest.approx(library.K_run_converging_Crane(**given))
    assert diverging_branch(share, ratio) == pytest.approx(library.K_branch_diverging_Crane(**given))
    assert diverging_run(share, ratio) == pytest.approx(library.K_run_diverging_Crane(**given))


def test_sudden_contraction_against_the_library():
    """By fluids 1.3.1, contraction_sharp (Rennels): 20 to 12 mm."""
    assert loss_factor_of_contraction(0.012, 0.020) == pytest.approx(0.4385938, rel=1e-6)


def test_sudden_expansion():
    """Borda-Carnot, identity: 12 to 20 mm."""
    assert loss_factor_of_expansion(0.012, 0.020) == pytest.approx(0.4096, rel=1e-6)


@pytest.mark.parametrize(
    ("kv", "litres", "density", "expected"),
    [
        (1.6, 9, 988, 11253.94),
        (2.5, 12, 988, 8194.867),
        (0.63, 5, 1030, 23356.01),
        (10, 30, 1030, 3337.2),
    ],
)
def test_drop_of_a_valve_by_its_flow_factor(kv, litres, density, expected):
    """Definition of Kv: Δp/bar = (Q/Kv)² · ρ/1000."""
    assert valve_drop(litres / 60000, kv, density) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(("kv", "bore", "expected"), [(1.6, 12, 12.96), (2.5, 16, 16.77722), (10, 20, 2.56)])
def test_loss_factor_of_a_flow_factor(kv, bore, expected):
    """By fluids 1.3.1, Kv_to_K, which rounds its constant to 1.6e9."""
    assert loss_factor_of_kv(kv, bore / 1000) == pytest.approx(expected, rel=0.002)


def test_flow_factor_that_takes_up_a_surplus():
    """Definition of Kv: 12 kPa at 5 l/min of 988 kg/m³."""
    assert kv_needed(5 / 60000, 12000, 988) == pytest.approx(0.8608136, rel=1e-6)


def test_unit_of_n_one_is_laminar():
    """Hagen-Poiseuille: at n = 1 the drop doubles with flow and with viscosity."""
    rated = (1e-4, 6000.0, 1000.0, 1e-3, 1.0)
    assert unit_drop(2e-4, 1000.0, 3e-3, *rated) == pytest.approx(36000)


def test_unit_of_n_one_fifth_is_between():
    """Blasius: smooth turbulent pipe has an exponent near 0.25; 2^1.8 · 3^0.2 at n = 0.2."""
    rated = (1e-4, 6000.0, 1000.0, 1e-3, 0.2)
    assert unit_drop(2e-4, 1000.0, 3e-3, *rated) == pytest.approx(6000 * 2**1.8 * 3**0.2)


def test_unit_of_the_square_law_follows_the_density():
    """Similarity: at n = 0 the drop follows density and the square of the flow, whatever the viscosity."""
    flow = np.array([-2e-4, 0.0, 1e-4])
    drop = unit_drop(flow, 1050.0, 9e-3, 1e-4, 6000.0, 1000.0, 1e-3, 0.0)
    assert drop == pytest.approx(np.array([-4, 0, 1]) * 6300)
