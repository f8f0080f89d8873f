"""The pressure along the index circuit as a figure: what pump and parts do, where the tags stand."""

import pytest

from dossier.rendering.sections.index_figure import index_figure
from dossier.sizing.index_profile import ProfilePoint


def profile(*parts):
    points, gone, pressure = [], 0.0, 0.0
    for tag, length, drop in parts:
        points.append(ProfilePoint(tag, "pipe" if length else "unit", gone, length, pressure, drop))
        gone, pressure = gone + length, pressure - drop
    return points


@pytest.fixture
def figure(draft):
    def drawn(*parts):
        return index_figure(draft("puddle_wren"), profile(*parts), "saloon")

    return drawn


def test_the_line_rises_at_the_pump_falls_along_each_pipe_and_in_a_step_at_each_part(figure):
    chart = figure(("P1", 0, -20e3), ("ring_1", 4.0, 6e3), ("F1", 0, 9e3), ("ring_2", 6.0, 5e3)).drawing
    (line,) = chart.lines
    course = list(dict.fromkeys(zip(line.x, line.y, strict=True)))
    assert course == [(0, 0), (0, 20), (4, 14), (4, 5), (10, 0)]


def test_a_pump_and_a_part_that_takes_much_bear_their_tags_pipes_and_small_parts_do_not(figure):
    chart = figure(("P1", 0, -20e3), ("M1", 0, 0.1e3), ("ring_1", 4.0, 12e3), ("F1", 0, 7.9e3)).drawing
    assert [(point.label, point.full) for point in chart.points] == [("P1", True), ("F1", False)]


def test_a_circuit_without_length_has_no_figure(figure):
    assert figure(("P1", 0, -20e3), ("B1", 0, 20e3)) is None
