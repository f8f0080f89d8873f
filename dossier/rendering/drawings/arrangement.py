"""What the arrangement is drawn from: spaces, parts with the room kept free round them, the exhaust's way.

Places in metres aboard. ``arrangement_fit`` plans the views and their scales, ``arrangement_view`` draws one,
``arrangement_sheet`` brings them on sheets.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from math import prod
from typing import TypeAlias

from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.space import Cuboid, Place3, from_above, looking_to_port

Flat: TypeAlias = Callable[[Place3], Point]

SIDES = {
    "aft": (0, -1),
    "fore": (0, 1),
    "starboard": (1, -1),
    "port": (1, 1),
    "bottom": (2, -1),
    "top": (2, 1),
}
"""Axis and direction of each side of a part."""


class Way(str, Enum):
    """How a view looks at the boat."""

    PLAN = "plan"
    ELEVATION = "elevation"
    """From starboard, forward to the right."""

    @property
    def flat(self) -> Flat:
        """Projection of the view."""
        return from_above if self is Way.PLAN else looking_to_port

    @property
    def axes(self) -> tuple[int, int]:
        """The axes aboard that run to the right and up in the view."""
        return (0, 1) if self is Way.PLAN else (0, 2)


@dataclass(frozen=True, slots=True)
class Service:
    """Room kept free on one side of a part, in metres and in words; ``short`` says how much is missing."""

    side: str
    depth: float
    text: str
    short: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A part in its place, with the room kept free round it."""

    box: Cuboid
    services: tuple[Service, ...] = ()

    @property
    def tag(self) -> str:
        """Its tag or name."""
        return self.box.name

    def envelope(self, service: Service) -> Cuboid:
        """The room before one side, as deep as it is asked for."""
        axis, way = SIDES[service.side]
        low, high = list(self.box.low), list(self.box.high)
        if way > 0:
            low[axis], high[axis] = high[axis], high[axis] + service.depth
        else:
            low[axis], high[axis] = low[axis] - service.depth, low[axis]
        return Cuboid(self.tag, (low[0], low[1], low[2]), (high[0], high[1], high[2]))

    @property
    def reach(self) -> Cuboid:
        """The part with all its envelopes."""
        boxes = [self.box, *(self.envelope(service) for service in self.services)]
        low = tuple(min(box.low[axis] for box in boxes) for axis in range(3))
        high = tuple(max(box.high[axis] for box in boxes) for axis in range(3))
        return Cuboid(self.tag, (low[0], low[1], low[2]), (high[0], high[1], high[2]))


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Everything that is shown: spaces and parts, the exhaust from burner to outlet, pipes with a route."""

    spaces: tuple[Cuboid, ...]
    parts: tuple[Part, ...]
    exhaust: tuple[Place3, ...] = ()
    pipes: tuple[tuple[Place3, ...], ...] = ()

    def parts_in(self, space: Cuboid) -> tuple[Part, ...]:
        """Parts whose middle lies in a space and in none that is smaller."""
        return tuple(part for part in self.parts if self._space_of(part) is space)

    def _space_of(self, part: Part) -> Cuboid | None:
        holding = [space for space in self.spaces if space.holds(middle(part.box))]
        return min(holding, key=_size, default=None)


def _size(box: Cuboid) -> float:
    return prod(high - low for low, high in zip(box.low, box.high, strict=True))


def middle(box: Cuboid) -> Place3:
    """Middle of a box."""
    x, y, z = ((low + high) / 2 for low, high in zip(box.low, box.high, strict=True))
    return x, y, z


def seen(box: Cuboid, way: Way) -> Box:
    """A box as a view shows it, in metres."""
    return Box(*way.flat(box.low), *way.flat(box.high))
