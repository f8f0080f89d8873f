"""Temperatures along a frame: from the plate through web and flange to the lining over it."""

import numpy as np
import pytest

from dossier.data.surface_resistances import HeatFlow
from dossier.physics.build_up import Frame, build_up
from dossier.physics.envelope import Layer
from dossier.physics.frames import (
    flange_temperature,
    plate_temperature,
    strip_temperatures,
    surface_over_flange,
    temperatures_along_frame,
)

INSIDE, OUTSIDE = 293.15, 263.15
LAYERS = (Layer("steel", 0.006, 50.0), Layer("wool", 0.05, 0.04), Layer("plywood", 0.009, 0.13))
COVER = (Layer("plywood", 0.009, 0.13),)
FINS = build_up(LAYERS, HeatFlow.HORIZONTAL, 0.021, 0.13, Frame(50.0, 0.5, 0.006, 0.05, 0.05, COVER)).fins
FLANGE = flange_temperature(FINS.frame, FINS.flange, INSIDE, OUTSIDE)
PLATE = plate_temperature(FINS.frame, FINS.plate, INSIDE, OUTSIDE)


def test_one_heat_flow_passes_flange_web_and_plate():
    heat = FINS.frame * (INSIDE - OUTSIDE)
    assert FINS.flange * (INSIDE - FLANGE) == pytest.approx(heat)
    assert FINS.web * (FLANGE - PLATE) == pytest.approx(heat)
    assert FINS.plate * (PLATE - OUTSIDE) == pytest.approx(heat)


def test_the_lining_over_a_bare_flange_is_the_flange():
    assert surface_over_flange(0.13, 0.13, INSIDE, FLANGE) == pytest.approx(FLANGE)


def test_the_line_along_a_frame_rises_from_outside_to_inside():
    line = temperatures_along_frame(INSIDE, OUTSIDE, PLATE, FLANGE, FINS.cover)
    assert line.shape == (5,)
    assert np.all(np.diff(line) > 0)
    assert line[[0, 1, 2, -1]] == pytest.approx([OUTSIDE, PLATE, FLANGE, INSIDE])
    assert line[-2] == pytest.approx(surface_over_flange(0.13, FINS.cover_resistance, INSIDE, FLANGE))


def test_the_line_along_a_frame_of_samples_has_their_axis_first():
    outside = np.array([OUTSIDE, 273.15])
    flange = flange_temperature(FINS.frame, FINS.flange, INSIDE, outside)
    plate = plate_temperature(FINS.frame, FINS.plate, INSIDE, outside)
    line = temperatures_along_frame(INSIDE, outside, plate, flange, FINS.cover)
    assert line.shape == (2, 5)
    assert line[0] == pytest.approx(temperatures_along_frame(INSIDE, OUTSIDE, PLATE, FLANGE, FINS.cover))


def test_the_plate_cools_away_from_the_web():
    line = strip_temperatures(PLATE, OUTSIDE, 1 / 0.021, 50.0, 0.006, 0.25)
    assert line.temperatures[0] == pytest.approx(PLATE)
    assert np.all(np.diff(line.temperatures) < 0)
    assert line.temperatures[-1] == pytest.approx(OUTSIDE, abs=0.2)
    assert line.distances[-1] == 0.25
