"""What the system weighs, and how it leans and trims the boat: statics, worked out beside each case."""

from math import degrees
from pathlib import Path

import pytest

from dossier.notation import NotAssessed, named_results
from dossier.project import load
from dossier.sizing.masses import masses

BOAT = """
format: 1
document: {number: T-1, revision: A, date: 2026-11-20}
vessel: {length: 12 m, moment_per_degree: 1.1 kN*m, moment_per_cm_trim: 0.9 kN*m}
components:
  B1: {kind: burner, output: {max: 9 kW}, mass: 19 kg, fixing: bolted}
  T1: {kind: buffer, volume: 30 l, mass: 10 kg}
  E1: {kind: engine, mass: 400 kg}
circuit: {coolant: {base: water}, ring: [{unit: B1}, {unit: T1}]}
layout:
  places:
    B1: {at: [1.6 m, -1.5 m, 0.1 m], size: [0.5 m, 0.3 m, 0.3 m]}
    T1: {at: [8.0 m, 0.8 m, 0.0 m], size: [0.4 m, 0.4 m, 0.6 m]}
"""
CONTENT = {"B1": 0.001, "T1": 0.030, "ring_1": 0.002}
WATER = 0.9997
"""Water at 10 °C, kg/l (IAPWS)."""


def project(folder: Path, *changes):
    text = BOAT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    file = folder / "boat.yaml"
    file.write_text(text, encoding="utf-8")
    return load(file)


def test_the_system_weighs_its_parts_and_what_is_in_them(tmp_path):
    found = masses(project(tmp_path), CONTENT)
    assert found.dry == 29  # the engine is none of its parts
    assert found.filled == pytest.approx(29 + 33 * WATER, rel=1e-4)
    by_tag = {part.tag: part for part in found.parts}
    assert by_tag["T1"].filled == pytest.approx(10 + 30 * WATER, rel=1e-4)
    assert (by_tag["B1"].x, by_tag["B1"].y, by_tag["B1"].z) == pytest.approx((1.85, -1.35, 0.25))


def test_the_filled_system_leans_and_trims_her(tmp_path):
    burner, buffer = 19 + WATER, 10 + 30 * WATER
    found = masses(project(tmp_path), CONTENT)
    to_port = 9.80665 * (buffer * 1.0 - burner * 1.35)
    assert found.to_side == pytest.approx(to_port, rel=1e-4)
    assert degrees(found.list) == pytest.approx(abs(to_port) / 1100, rel=1e-4)
    forward = 9.80665 * (buffer * (8.2 - 6) + burner * (1.85 - 6))
    assert found.to_end == pytest.approx(forward, rel=1e-3)
    assert found.trim == pytest.approx(abs(forward) / 900 / 100 / 12, rel=1e-3)


def test_glycol_is_heavier_than_water(tmp_path):
    """40 % propylene glycol by volume at 10 °C: 1.041 kg/l (ASHRAE Fundamentals 2001, from memory)."""
    glycol = ("{base: water}", "{base: propylene glycol, share: 40 %}")
    found = masses(project(tmp_path, glycol), CONTENT)
    assert found.filled == pytest.approx(29 + 33 * 1.041, rel=2e-3)


def test_a_heater_full_of_tap_water_is_heavy(tmp_path):
    heater = ("  E1:", "  W1: {kind: water_heater, volume: 60 l, mass: 20 kg}\n  E1:")
    found = masses(project(tmp_path, heater), CONTENT | {"W1": 0.001})
    assert found.filled == pytest.approx(49 + 94 * WATER, rel=1e-4)


def test_parts_without_mass_or_place_are_named(tmp_path):
    found = masses(project(tmp_path, (", mass: 10 kg", "")), CONTENT)
    assert found.unweighed == ("components.T1.mass",)
    without = project(tmp_path, ("    T1: {at: [8.0 m, 0.8 m, 0.0 m], size: [0.4 m, 0.4 m, 0.6 m]}\n", ""))
    assert masses(without, CONTENT).unplaced == ("layout.places.T1",)
    nothing = project(tmp_path, (", mass: 10 kg", ""), (", mass: 19 kg", ""))
    assert masses(nothing, CONTENT) == NotAssessed(
        "What does the system weigh?", ("components.B1.mass", "components.T1.mass")
    )


def test_without_the_content_nothing_counts_as_filled(tmp_path):
    found = masses(project(tmp_path), None)
    assert (found.dry, found.filled) == (29, None)


def test_without_the_boats_moments_she_neither_leans_nor_trims(tmp_path):
    boat = project(tmp_path, (", moment_per_degree: 1.1 kN*m, moment_per_cm_trim: 0.9 kN*m", ""))
    names = {result.name for result in named_results(masses(boat, CONTENT))}
    assert names == {"mass.dry", "mass.filled"}
