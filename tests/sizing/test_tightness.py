"""The circuit is tested over its working pressure, never below 1 bar and never above its weakest part."""

from types import SimpleNamespace

import pytest

from dossier.notation import NotAssessed, Traced
from dossier.sizing.tightness import raised_pressure, tightness_test


def study_of(highest, *, sealed=False, final=None, components=None):
    modes = {"heating": SimpleNamespace(highest=highest)}
    project = SimpleNamespace(components=components or {}, pipes=lambda: iter(()))
    return SimpleNamespace(
        pressures=SimpleNamespace(modes=modes, sealed=sealed),
        expansion=SimpleNamespace(final=final),
        project=project,
    )


def part(kind, **marks):
    return SimpleNamespace(kind=kind, **{"pressure_rating": None, "final": None, **marks})


def test_the_test_pressure_is_1_3_times_the_working_pressure():
    """EN 14336, factor from memory: 2.5 bar of working pressure are tested at 3.25 bar."""
    assert raised_pressure(1.3, 2.5e5) == pytest.approx(3.25e5)
    assert tightness_test(study_of(2.5e5)).pressure == pytest.approx(3.25e5)


def test_an_open_ring_is_tested_at_1_bar_at_least():
    """Common practice, no source."""
    assert tightness_test(study_of(0.35e5)).pressure == pytest.approx(1.0e5)


def test_a_sealed_ring_counts_the_final_pressure_its_vessel_is_made_for():
    vessel = {"T2": part("membrane_vessel", final=2.5e5)}
    found = tightness_test(study_of(1.2e5, sealed=True, final=1.8e5, components=vessel))
    assert found.working == pytest.approx(2.5e5)
    assert found.pressure == pytest.approx(3.25e5)


def test_the_weakest_part_holds_the_pressure_down_and_is_named():
    found = tightness_test(study_of(2.5e5, components={"F1": part("fan_coil", pressure_rating=3.0e5)}))
    assert found.pressure == pytest.approx(3.0e5)
    assert found.weakest == "F1"


def test_header_and_safety_valve_are_shut_off_and_hold_nothing_down():
    weak = {"T2": part("header_tank", pressure_rating=0.3e5)}
    assert tightness_test(study_of(2.5e5, components=weak)).pressure == pytest.approx(3.25e5)


def test_a_traced_pressure_leaves_its_working():
    found = tightness_test(study_of(Traced(2.5e5, None)))
    assert isinstance(found.pressure, Traced)


def test_without_pressures_there_is_no_test_pressure_but_the_keys_it_waits_for():
    silent = SimpleNamespace(pressures=NotAssessed("where", ("layout.places.T2",)))
    found = tightness_test(silent)
    assert isinstance(found, NotAssessed)
    assert found.needs == ("layout.places.T2",)
