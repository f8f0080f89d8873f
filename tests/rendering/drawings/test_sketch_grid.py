"""Squared paper has true squares, and says what is up and forward."""

from itertools import pairwise

from dossier.rendering.drawings.shapes import Path, Text
from dossier.rendering.drawings.sketch_grid import sketch_grid


def test_squares_are_five_millimetres_on_paper():
    drawing = sketch_grid((8, 4), "Side", "forward", "scale", ("water", 2))
    upright = [
        p.steps for p in drawing.parts() if isinstance(p, Path) and p.steps[0][1][0][0] == p.steps[1][1][0][0]
    ]
    places = sorted({steps[0][1][0][0] for steps in upright if len(steps) == 2})
    assert [b - a for a, b in pairwise(places)] == [5.0] * 8
    assert drawing.size[0] == 40.0


def test_the_waterline_and_the_bow_are_named():
    written = [
        part.text
        for part in sketch_grid((8, 4), "Side", "forward", "scale", ("water", 2)).parts()
        if isinstance(part, Text)
    ]
    assert {"Side", "forward", "water", "scale"} <= set(written)
