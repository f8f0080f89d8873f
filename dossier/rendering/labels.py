"""Finds places for the words of a chart: none on a curve, none on another, none outside.

Each label has some places it may stand; it takes the first that is free, and if none is, the one that meets
least.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from dossier.rendering import fonts
from dossier.rendering.layout.measures import MM

if TYPE_CHECKING:
    from dossier.rendering.charts import Line, LineChart

LABEL = 8.0
LEFT, RIGHT, BOTTOM, TOP = 10.5 * MM, 4.0 * MM, 9.0 * MM, 9.5 * MM
HIGH, DEEP = 6.4, 1.8  # of a label above and below its baseline, in points
AIR, NEAR, EDGE = 1.6, 3.0, 2.0

Box = tuple[float, float, float, float]
Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Label:
    """Words with the place of their baseline's start, in points from the chart's lower left corner."""

    words: str
    x: float
    y: float
    bold: bool = False

    @property
    def box(self) -> Box:
        """What the words cover: left, bottom, right, top."""
        return (
            self.x - AIR,
            self.y - DEEP - AIR,
            self.x + wide(self.words, bold=self.bold) + AIR,
            self.y + HIGH + AIR,
        )


def wide(words: str, *, bold: bool) -> float:
    """Width of a label."""
    return fonts.width(fonts.shown(words), fonts.STRONG if bold else fonts.REGULAR, LABEL)


def _meets(box: Box, other: Box) -> bool:
    return box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3]


class _Pieces:
    """The straight pieces of a curve: where each starts, how far it goes, and the box round it."""

    def __init__(self, path: Sequence[Place]) -> None:
        points = np.array(path, dtype=float).reshape(-1, 2)
        self.start, self.step = points[:-1], np.diff(points, axis=0)
        self.least = np.minimum(points[:-1], points[1:])
        self.most = np.maximum(points[:-1], points[1:])


def _crossings(box: Box, pieces: _Pieces) -> int:
    """How many straight pieces of a curve run through a box (clipping after Liang and Barsky)."""
    near = ((pieces.least <= box[2:]) & (pieces.most >= box[:2])).all(axis=1)
    start, step = pieces.start[near], pieces.step[near]
    if not len(step):
        return 0
    low, high = np.zeros(len(step)), np.ones(len(step))
    beside = np.zeros(len(step), dtype=bool)
    for p, q in (
        (-step[:, 0], start[:, 0] - box[0]),
        (step[:, 0], box[2] - start[:, 0]),
        (-step[:, 1], start[:, 1] - box[1]),
        (step[:, 1], box[3] - start[:, 1]),
    ):
        at = np.divide(q, p, out=np.zeros(len(step)), where=p != 0)
        low = np.where(p < 0, np.maximum(low, at), low)
        high = np.where(p > 0, np.minimum(high, at), high)
        beside |= (p == 0) & (q < 0)
    return int(np.count_nonzero(~beside & (low <= high)))


OVER_WORDS = 60.0
"""What it counts against a place that other words stand there."""


class _Placer:
    """What stands on the chart already."""

    def __init__(self, paths: Sequence[Sequence[Place]], size: Place) -> None:
        self.paths, self.size = paths, size
        self.pieces = [_Pieces(path) for path in paths]
        self.labels: list[Label] = []
        self.dots: list[Box] = []
        self.floor = -float("inf")
        """Names of curves stay above it: below the axis stand its figures."""

    def _met(self, label: Label, own: Sequence[Place] | None) -> float:
        """How much a label would cover."""
        box = label.box
        met = OVER_WORDS * sum(_meets(box, other.box) for other in self.labels)
        met += 4.0 * sum(_meets(box, dot) for dot in self.dots)
        if min(box[:2]) < -EDGE or box[2] > self.size[0] + EDGE or box[3] > self.size[1] + EDGE:
            met += 20.0
        if box[1] < self.floor:
            met += 20.0
        wider = (box[0] - NEAR, box[1] - NEAR, box[2] + NEAR, box[3] + NEAR)
        for path, pieces in zip(self.paths, self.pieces, strict=True):
            met += _crossings(box if path is own or own is None else wider, pieces)
        return met

    def put(
        self,
        words: str,
        places: Iterable[Place],
        *,
        bold: bool = False,
        own: Sequence[Place] | None = None,
    ) -> None:
        """Take the first free of the places, else the one that covers least.

        The name of a curve keeps away from other curves, so that nobody takes it for theirs.
        """
        best, least = None, float("inf")
        for x, y in places:
            label = Label(words, x, y, bold)
            met = self._met(label, own)
            if met < least:
                best, least = label, met
            if met == 0:
                break
        if best is not None:
            self.labels.append(best)


def _visible(path: Sequence[Place], area: Box) -> list[Place]:
    """The part of a curve that is drawn: cut off at the top and the foot of the chart."""
    low, high = area[1] - 1, area[1] + area[3] + 1
    seen: list[Place] = []
    for start, end in pairwise(path):
        if min(start[1], end[1]) > high or max(start[1], end[1]) < low:
            continue
        seen += [(x, min(max(y, low), high)) for x, y in (start, end)]
    return seen


def _along(line: "Line", path: Sequence[Place], area: Box) -> Iterator[Place]:
    """Places beside a curve: above the chart where it leaves it, at its end, then back along it."""
    length = wide(line.label, bold=line.bold)
    left, bottom, width, height = area
    top = bottom + height
    inside = [n for n, (x, y) in enumerate(path) if left <= x <= left + width and bottom - 1 <= y <= top + 1]
    if not inside:
        return
    last = inside[-1]
    if last + 1 < len(path) and path[last + 1][1] > top:
        (x0, y0), (x1, y1) = path[last], path[last + 1]
        x = x0 + (x1 - x0) * (top - y0) / (y1 - y0) if y1 > y0 else x0
        for shift in (-0.5, -0.8, -0.2, -1.0, 0.0):
            yield x + shift * length, top + 7
    x, y = path[last]
    yield x + 4, y - 2.6
    for part in range(19, 3, -1):
        x, y = path[inside[int((len(inside) - 1) * part / 20)]]
        for off_x, off_y in (
            (6, 3),
            (-length - 6, -9),
            (-length - 6, 4),
            (6, -9),
            (-length / 2, 8),
            (-length / 2, -13),
        ):
            yield x + off_x, y + off_y


def _round(words: str, x: float, y: float) -> Iterator[Place]:
    """Places round a point."""
    length = wide(words, bold=True)
    for far in (6.0, 9.0):
        for across, up in (
            (-0.7, 0.9),
            (0.9, -0.9),
            (0.9, 0.7),
            (-0.9, -0.9),
            (0, 1.1),
            (1.1, 0),
            (0, -1.2),
            (-1.2, 0),
        ):
            yield (
                x + far * across - (length if across < 0 else 0 if across else length / 2),
                y + far * up - 2.6,
            )


def place_labels(chart: "LineChart", paths: Sequence[Sequence[Place]], area: Box) -> list[Label]:
    """All labels of a chart; ``paths`` are its curves and then its points, in points of the sheet."""
    left, bottom, width, height = area
    curves = [_visible(path, area) for path in paths[: len(chart.lines)]]
    placer = _Placer(curves, (chart.width, chart.height))
    placer.put(chart.y_title, [(0.0, bottom + height + TOP - LABEL)])
    placer.put(chart.x_title, [(left + width - wide(chart.x_title, bold=False), 2.0)])
    dots = [path[0] for path in paths[len(chart.lines) :]]
    placer.dots = [(x - 4, y - 4, x + 4, y + 4) for x, y in dots]
    x_range, y_range = chart.ranges()
    for level in chart.levels_within():
        length = wide(level.label, bold=False)
        if level.upright:
            x = left + (level.at - x_range[0]) / (x_range[1] - x_range[0]) * width
            places = [
                (x + 2, 2.0),
                (x - length, 2.0),
                (x + 2, bottom + height + 4),
                (x + 3, bottom + height - 9),
            ]
        else:
            y = bottom + (level.at - y_range[0]) / (y_range[1] - y_range[0]) * height
            places = [(left + 3 + width * n / 12, y + off) for off in (3, -9) for n in range(10)]
        placer.put(level.label, places)
    placer.floor = bottom
    for point, (x, y) in zip(chart.points, dots, strict=True):
        placer.put(point.label, _round(point.label, x, y), bold=True)
    for line, path, curve in zip(chart.lines, paths, curves, strict=False):
        placer.put(line.label, _along(line, path, area), bold=line.bold, own=curve)
    return placer.labels
