"""Does every part fit where it stands, with room to work at it, above the bilge water?

Parts are boxes along the boat's axes, as the layout gives them. How near hot parts come to fuel and battery
is asked in ``hot_parts``, how high the header hangs in ``header_margins``.
"""

from collections.abc import Iterable, Mapping, Sequence
from math import degrees, isnan, prod
from typing import TYPE_CHECKING, Annotated, Any

from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.physics.attitude import heeled_head, offset
from dossier.physics.box_fields import BoxField
from dossier.physics.boxes import (
    Box,
    Side,
    free_space,
    is_inside,
    least_distance,
    least_height,
    margin_inside,
)
from dossier.physics.route import Point
from dossier.sizing.header_margins import header_margins
from dossier.sizing.hot_parts import HotParts, hot_parts

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Does every part fit where it stands?"
DRAWN_TO = 1e-3
"""How exactly parts are drawn (m): less is no clash."""
ABOVE_BILGE = ("burner", "pump")
"""Kinds that bilge water must not reach."""


@dataclass(frozen=True)
class SideSpace:
    """Free space before one side; ``free`` is None where nothing bounds it, ``asked`` where nobody asks."""

    side: str
    asked: Annotated[Real | None, q("s_a", "m", "space asked for")]
    free: Annotated[Real | None, q("s", "m", "free space; negative where boxes clash")]


@dataclass(frozen=True)
class FloodingHeight:
    """Lowest edge of a part over the flooding level at one angle of heel."""

    angle: Annotated[Real, q("φ", "rad", "angle of heel, 0 upright")]
    height: Annotated[Real, q("z", "m", "lowest edge over the flooding level")]


@dataclass(frozen=True)
class PlacedPart:
    """One part of the layout; ``spaces`` are the sides it names, ``sides`` all six."""

    tag: str
    kind: str
    box: Box
    compartment: str
    spaces: tuple[SideSpace, ...]
    sides: tuple[SideSpace, ...]
    service: Annotated[
        Real | None,
        q(
            "s",
            "m",
            "least free space on a named side; negative where envelopes clash",
            name="clearance.service.{tag}",
        ),
    ]
    inside: Annotated[
        Real | None, q("s", "m", "box to the walls of its compartment", name="clearance.inside.{tag}")
    ]
    heights: tuple[FloodingHeight, ...]
    flooding: Annotated[
        Real | None,
        q("z", "m", "lowest edge over the flooding level, heeled", name="clearance.flooding.{tag}"),
    ]


@dataclass(frozen=True)
class Placement:
    """All parts of the layout, what is near the hot ones, and pairs that reach into each other."""

    parts: Mapping[str, PlacedPart]
    hot: HotParts
    clashes: tuple[tuple[str, str], ...] = ()

    @property
    def hot_to_fuel(self) -> Real | None:
        """Least distance of burner or exhaust to tank, filter and line (m)."""
        return self.hot.to_fuel

    @property
    def hot_to_battery(self) -> Real | None:
        """Least distance of burner or exhaust to a battery (m)."""
        return self.hot.to_battery

    def of_kind(self, *kinds: str) -> tuple[PlacedPart, ...]:
        """Parts of these kinds, in the order of the file."""
        return tuple(part for part in self.parts.values() if part.kind in kinds)


def boxes_of(project: "Project") -> dict[str, Box]:
    """Boxes of all parts whose corner and size the layout gives, by tag or name."""
    places = (project.layout.places or {}) if project.layout else {}
    return {
        name: Box.of_size(
            (place.at.x, place.at.y, place.at.z), (place.size.long, place.size.wide, place.size.high)
        )
        for name, place in places.items()
        if place.at is not None and place.size is not None
    }


def compartments_of(project: "Project") -> dict[str, Box]:
    """Boxes of all compartments whose corners the layout gives."""
    written = (project.layout.compartments or {}) if project.layout else {}
    return {
        name: Box(
            (compartment.from_.x, compartment.from_.y, compartment.from_.z),
            (compartment.to.x, compartment.to.y, compartment.to.z),
        )
        for name, compartment in written.items()
        if compartment.from_ is not None and compartment.to is not None
    }


def middle_of(box: Box) -> tuple[float, float, float]:
    """Middle of a box, as plain numbers."""
    x, y, z = ((float(low) + float(high)) / 2 for low, high in zip(box.low, box.high, strict=True))
    return x, y, z


def compartment_of(box: Box, compartments: Mapping[str, Box]) -> str:
    """Name of the smallest compartment that holds the middle of a box; empty where none does."""
    middle = middle_of(box)
    holding = {name: room for name, room in compartments.items() if is_inside(middle, room)}
    return min(holding, key=lambda name: _volume(holding[name]), default="")


def _volume(box: Box) -> float:
    return prod(float(high) - float(low) for low, high in zip(box.low, box.high, strict=True))


def placement(project: "Project", exhaust_route: Sequence[Point] | None) -> Placement | NotAssessed:
    """Free space, fit and height of every placed part; ``exhaust_route`` holds the points of its axis."""
    boxes = boxes_of(project)
    runs = exhaust_route and project.fuel and project.fuel.line and project.fuel.line.route
    if not boxes and not runs:
        return NotAssessed(QUESTION, ("layout.places",))
    compartments = compartments_of(project)
    kinds = {tag: component.kind for tag, component in (project.components or {}).items()}
    rooms = {tag: compartment_of(box, compartments) for tag, box in boxes.items()}
    in_order = list(boxes.values())
    field = BoxField.of(in_order)
    free = field.free_spaces([compartments.get(name) for name in rooms.values()])
    parts = {}
    for row, tag in enumerate(boxes):
        spaces = zip(free.space[row].tolist(), free.nearest[row].tolist(), strict=True)
        bounds = [(space, in_order[at] if at >= 0 else None) for space, at in spaces]
        parts[tag] = _placed(project, tag, kinds.get(tag, ""), boxes[tag], bounds, rooms[tag], compartments)
    tags = list(boxes)
    pairs = tuple((tags[one], tags[other]) for one, other in field.clashes(DRAWN_TO))
    return Placement(parts, hot_parts(project, boxes, kinds, exhaust_route), pairs)


def _placed(  # noqa: PLR0913, PLR0917 - the part, what bounds its sides, and where it stands
    project: "Project",
    tag: str,
    kind: str,
    box: Box,
    bounds: Sequence[tuple[float, Box | None]],
    name: str,
    compartments: Mapping[str, Box],
) -> PlacedPart:
    """One part; ``bounds`` holds the free space before each side and the obstacle that bounds it."""
    room = compartments.get(name)
    asked = _asked(project, tag)
    sides = tuple(
        SideSpace(side.value, asked.get(side), _free(box, side, bound, room, traced=side in asked))
        for side, bound in zip(Side, bounds, strict=True)
    )
    named = tuple(space for space in sides if space.asked is not None)
    bounded = [space.free for space in named if space.free is not None]
    heights = tuple(_heights(project, box)) if kind in ABOVE_BILGE else ()
    return PlacedPart(
        tag,
        kind,
        box,
        name,
        named,
        sides,
        least_distance(*bounded) if bounded else None,
        margin_inside(box, room) if room is not None else None,
        heights,
        least_height(*(height.height for height in heights)) if heights else None,
    )


def _free(
    box: Box, side: Side, bound: tuple[float, Box | None], room: Box | None, *, traced: bool
) -> Real | None:
    """Free space before a side, with its working where somebody asks for the space."""
    space, nearest = bound
    if traced:
        return free_space(box, side, [nearest] if nearest is not None else [], room)
    return None if isnan(space) else space


def _asked(project: "Project", tag: str) -> dict[Side, Real]:
    """Space to keep free, by side, as the layout states it."""
    places: Mapping[str, Any] = (project.layout.places or {}) if project.layout else {}
    keep_free = places[tag].keep_free
    if keep_free is None:
        return {}
    stated = {side: getattr(keep_free, side.value, None) for side in Side}
    return {side: depth for side, depth in stated.items() if depth is not None}


def heel_angles(project: "Project") -> tuple[Real, ...]:
    """Angles of heel to check at; none where the boat cannot list or the file is silent."""
    vessel: Any = project.vessel
    return tuple(vessel.heel_angles or ()) if vessel is not None else ()


def in_degrees(angle: Real) -> str:
    """An angle as its name bears it: ``10``, ``2.5``."""
    return f"{round(degrees(float(angle)), 3):g}"


def _heights(project: "Project", box: Box) -> Iterable[FloodingHeight]:
    """Heights over the bilge water upright and heeled; its alarm is taken to sit amidships."""
    level = project.layout.flooding_level if project.layout else None
    if level is None:
        return
    head = offset(level, box.low[2])
    yield FloodingHeight(0.0, head)
    for angle in heel_angles(project):
        edges = (heeled_head(head, y, angle) for y in (box.low[1], box.high[1]))
        yield FloodingHeight(angle, least_height(*edges))


__all__ = [
    "FloodingHeight",
    "PlacedPart",
    "Placement",
    "SideSpace",
    "boxes_of",
    "compartment_of",
    "compartments_of",
    "header_margins",
    "heel_angles",
    "in_degrees",
    "middle_of",
    "placement",
]
