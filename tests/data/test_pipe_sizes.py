"""Pipe sizes by the names people type, against the geometry and the series rule of the standards."""

from math import ceil

import pytest

from dossier.data.fittings import fitting_losses
from dossier.data.pipes import pipe_size, pipe_sizes, roughness_of


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("hose 22", "hose 22"),
        ("Hose 19 mm", "hose 19"),
        ("pex 16x2", "pex 16x2.0"),
        ("PEX 16 × 2.0", "pex 16x2.0"),
        ("pe-x 20x2.0", "pex 20x2.0"),
        ("copper 15x1.0", "copper 15x1"),
        ("steel 26.9x2.6", "steel 26.9x2.6"),
    ],
)
def test_name_is_read_as_people_type_it(typed, name):
    assert pipe_size(typed).name == name


@pytest.mark.parametrize("typed", ["hose 21", "pex", "16x2.0", "pex 16x2.0x3", "lead 15x2", ""])
def test_name_of_no_size_is_refused(typed):
    with pytest.raises(KeyError):
        pipe_size(typed)


@pytest.mark.parametrize("size", pipe_sizes().values(), ids=lambda size: size.name)
def test_bore_and_walls_make_up_the_outside(size):
    """Geometry; every row has its source, and a wall no rougher than a twentieth of its bore."""
    assert size.bore + 2 * size.wall == pytest.approx(size.outside, abs=1e-9)
    assert size.material in {"hose", "plastic", "copper", "steel"}
    assert 0 < size.roughness < size.bore / 20
    assert size.source


@pytest.mark.parametrize(
    ("name", "bore"), [("pex 16x2.0", 12), ("pex 20x2.0", 16), ("pex 25x2.3", 20.4), ("hose 19", 19)]
)
def test_bore_in_millimetres(name, bore):
    """Geometry; a hose is named by its bore."""
    assert pipe_size(name).bore * 1000 == pytest.approx(bore)


@pytest.mark.parametrize(("outside", "series"), [(d, s) for d in (16, 20, 25, 32) for s in (5, 3.2)])
def test_wall_of_the_standard_series(outside, series):
    """ISO 4065, applied in EN ISO 15875-2, from memory: d/(2S + 1), rounded up to 0.1 mm (by up to 0.1)."""
    wall = ceil(round(10 * outside / (2 * series + 1), 6)) / 10
    walls = [size.wall * 1000 for size in pipe_sizes().values() if size.name.startswith(f"pex {outside}x")]
    assert min(abs(found - wall) for found in walls) <= 0.1 + 1e-9


def test_pipe_given_by_its_bore_alone_has_the_roughness_of_its_material():
    assert roughness_of("copper") == pipe_size("copper 15x1").roughness
    assert roughness_of("steel") == pipe_size("steel 21.3x2.6").roughness
    assert roughness_of("hose") == pipe_size("hose 22").roughness
    assert roughness_of("plastic") == pipe_size("pex 16x2.0").roughness
    with pytest.raises(KeyError):
        roughness_of("bamboo")


def test_every_fitting_has_either_a_multiple_or_a_loss_factor_and_a_source():
    for fitting in fitting_losses().values():
        assert (fitting.multiple is None) != (fitting.loss is None)
        assert fitting.meaning
        assert fitting.source
