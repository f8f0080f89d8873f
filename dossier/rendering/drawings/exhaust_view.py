"""One condition of the boat, upright or heeled, projected for the elevation of the exhaust."""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from dossier.rendering.drawings.exhaust import DECK, Condition, ExhaustRoute
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.space import (
    Place3,
    heeled,
    looking_forward,
    looking_to_port,
    lower_edge,
    outline,
)

BELOW = 0.2  # metres of shell shown under the water or the outlet, whichever is lower
ABOVE = 0.12  # metres of shell shown over the lagging
DECK_REACH = 0.35
SMALLEST = 1e-6


@dataclass(frozen=True)
class View:
    """A route in one condition: points in metres across and up from the water."""

    route: ExhaustRoute
    condition: Condition

    def seen(self, at: Place3) -> Point:
        """A point aboard as this view shows it."""
        return self._flat(heeled(at, self.condition.angle, self.condition.side))

    def _flat(self, at: Place3) -> Point:
        return looking_to_port(at) if self.is_from_the_side else looking_forward(at)

    @cached_property
    def is_from_the_side(self) -> bool:
        """Whether the view looks to port."""
        return self.route.is_seen_from_the_side

    @cached_property
    def pipe(self) -> tuple[Point, ...]:
        """The axis of the pipe."""
        return tuple(self.seen(p) for p in self.route.points)

    @cached_property
    def burner(self) -> tuple[Point, ...]:
        """The outline of the burner."""
        return outline(self.seen(p) for p in self.route.burner.corners)

    @cached_property
    def out(self) -> int:
        """1 where the outlet looks to the right of the view, -1 to the left."""
        points = [self._flat(p) for p in self.route.points]
        for a, b in reversed(list(pairwise(points))):
            if abs(b[0] - a[0]) > SMALLEST:
                return 1 if b[0] > a[0] else -1
        return 1 if points[-1][0] >= 0 else -1

    @cached_property
    def rim(self) -> Point:
        """The lower edge of the outlet."""
        turned = [heeled(p, self.condition.angle, self.condition.side) for p in self.route.points[-2:]]
        return self._flat(lower_edge(turned[0], turned[-1], self.route.bore))

    @cached_property
    def highest(self) -> Point:
        """The highest point of the axis."""
        return max(self.pipe, key=lambda p: p[1])

    @cached_property
    def shell(self) -> tuple[Point, ...]:
        """The shell at the outlet, no further down than a little under what matters."""
        floor = min([0.0, self.rim[1], *(p[1] for p in (*self.burner, *self.pipe))]) - BELOW
        line = self._whole_shell
        clipped: list[Point] = [p for p in line[:1] if p[1] >= floor]
        for (x0, z0), (x1, z1) in pairwise(line):
            if (z0 < floor) != (z1 < floor):
                clipped.append((x0 + (x1 - x0) * (floor - z0) / (z1 - z0), floor))
            if z1 >= floor:
                clipped.append((x1, z1))
        return tuple(clipped)

    @cached_property
    def _whole_shell(self) -> tuple[Point, ...]:
        """As given, else an upright line through the outlet, or the deck."""
        x, y, z = self.route.outlet
        from_the_side = self.is_from_the_side
        if self.route.shell and not from_the_side:
            return tuple(self.seen((x, across, up)) for across, up in self.route.shell)
        if self.route.led_through == DECK:
            reach = DECK_REACH + self.route.lagging
            along = (reach, 0.0) if from_the_side else (0.0, reach)
            return tuple(self.seen((x + s * along[0], y + s * along[1], z)) for s in (-1, 1))
        top = max(p[2] for p in self.route.points) + self.route.bore / 2 + self.route.lagging + ABOVE
        return self.seen((x, y, top)), self.seen((x, y, min(0.0, z) - 2 * BELOW))

    @cached_property
    def shell_at_water(self) -> float | None:
        """Where the shell meets the water; None where it does not, as for an outlet through the deck."""
        for (x0, z0), (x1, z1) in pairwise(self.shell):
            if min(z0, z1) <= 0 <= max(z0, z1) and z0 != z1:
                return x0 + (x1 - x0) * (0 - z0) / (z1 - z0)
        return None

    @cached_property
    def extent(self) -> Box:
        """Everything drawn, the water included, in metres."""
        thick = self.route.bore / 2 + self.route.lagging
        pipe = Box.around([Box(x, y, x, y) for x, y in self.pipe]).grown(thick)
        others = [Box(x, y, x, y) for x, y in (*self.burner, *self.shell)]
        return Box.around([pipe, *others, Box(pipe.left, 0.0, pipe.right, 0.0)])
