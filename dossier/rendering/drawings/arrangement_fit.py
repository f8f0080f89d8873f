"""Which views an arrangement takes and at what scale: the whole boat, and spaces in detail where it helps."""

from dataclasses import dataclass

from dossier.rendering.drawings.arrangement import Arrangement, Part, Way, seen
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.scales import Window
from dossier.rendering.drawings.space import Cuboid

SCALES = (5, 10, 20, 25, 50, 75, 100, 200)
EDGE = 7.0  # millimetres kept round what is drawn, for lettering
HEADING = 6.0
FOOT = 9.0  # for scale bar and arrow
GUTTER = 8.0
ROUND = 0.2  # metres shown round the parts of a detail


@dataclass(frozen=True, slots=True)
class View:
    """One view: which parts it shows, its frame on the sheet, its window; ``space`` if it is a detail."""

    way: Way
    parts: tuple[Part, ...]
    frame: Box
    window: Window
    space: Cuboid | None = None

    @property
    def is_detail(self) -> bool:
        """Whether one space is shown, not the whole boat."""
        return self.space is not None


@dataclass(frozen=True, slots=True)
class Leaf:
    """The views of one sheet, all at one scale."""

    views: tuple[View, ...]

    @property
    def ratio(self) -> int:
        """One to so many."""
        return self.views[0].window.ratio


def leaves(arrangement: Arrangement, room: Box) -> tuple[Leaf, ...]:
    """The whole boat in plan and elevation, then each space with service room where that shows it larger."""
    whole = whole_boat(arrangement, room)
    details: list[Leaf] = []
    for space in arrangement.spaces:
        details += _details(space, arrangement.parts_in(space), room, whole[0].ratio)
    return (*whole, *details)


def _details(space: Cuboid, parts: tuple[Part, ...], room: Box, coarsest: int) -> list[Leaf]:
    """A space with all its parts, else with those that need service room, else one sheet for each of these.

    None where no sheet would show them larger than one to ``coarsest``.
    """
    served = tuple(part for part in parts if part.services)
    for shares in ((parts,), (served,), tuple((part,) for part in served)):
        made = [_detail(space, share, parts, room) for share in shares if served]
        if made and all(leaf.ratio < coarsest for leaf in made):
            return made
    return []


def whole_boat(arrangement: Arrangement, room: Box) -> tuple[Leaf, ...]:
    """Plan over elevation on one sheet, or on one each if they are then drawn larger."""
    plan, side = (_extent(arrangement, way) for way in (Way.PLAN, Way.ELEVATION))
    together = _ratio(max(plan.width, side.width), (plan.height, side.height), room)
    apart = max(_ratio(each.width, (each.height,), room) for each in (plan, side))
    parts = arrangement.parts
    if together <= apart:
        over, under = _stacked(room, plan.height * 1000 / together, side.height * 1000 / together)
        return (
            Leaf(
                (
                    View(Way.PLAN, parts, over, _window(together, plan, over)),
                    View(Way.ELEVATION, parts, under, _window(together, side, under)),
                )
            ),
        )
    frame = Box(room.left, room.bottom + FOOT, room.right, room.top - HEADING)
    return tuple(
        Leaf((View(way, parts, frame, _window(apart, extent, frame)),))
        for way, extent in ((Way.PLAN, plan), (Way.ELEVATION, side))
    )


def _extent(arrangement: Arrangement, way: Way) -> Box:
    """All that is drawn of the whole boat, in metres."""
    boxes = [seen(space, way) for space in arrangement.spaces]
    boxes += [seen(part.reach, way) for part in arrangement.parts]
    points = [way.flat(p) for line in (arrangement.exhaust, *arrangement.pipes) for p in line]
    if way is Way.ELEVATION:
        points.append((boxes[0].left, 0.0))
    return Box.around([*boxes, *(Box(x, y, x, y) for x, y in points)])


def _ratio(width: float, heights: tuple[float, ...], room: Box) -> int:
    """The largest standard scale at which views one over the other fit; the smallest where none does."""
    lost = FOOT + (HEADING + 2 * EDGE) * len(heights) + GUTTER * (len(heights) - 1)
    across, up = room.width - 2 * EDGE, room.height - lost
    fits = (r for r in SCALES if width * 1000 / r <= across and sum(heights) * 1000 / r <= up)
    return next(fits, SCALES[-1])


def _stacked(room: Box, first: float, second: float) -> tuple[Box, Box]:
    """Frames of two views one over the other, sharing what is left over."""
    spare = room.height - FOOT - 2 * HEADING - GUTTER - 4 * EDGE - first - second
    over = Box(room.left, room.top - HEADING - first - 2 * EDGE - spare / 2, room.right, room.top - HEADING)
    under = Box(room.left, room.bottom + FOOT, room.right, over.bottom - GUTTER - HEADING)
    return over, under


def _window(ratio: int, extent: Box, frame: Box) -> Window:
    """The extent in the middle of its frame."""
    unit, middle = 1000.0 / ratio, frame.middle
    return Window(ratio, (middle[0] - extent.middle[0] * unit, middle[1] - extent.middle[1] * unit))


def _detail(space: Cuboid, shown: tuple[Part, ...], parts: tuple[Part, ...], room: Box) -> Leaf:
    """One space, as far as the parts shown reach: plan beside elevation."""
    extents = [_around(space, shown, way) for way in (Way.PLAN, Way.ELEVATION)]
    across = room.width - GUTTER - 4 * EDGE
    up = room.height - FOOT - HEADING - 2 * EDGE
    wide, high = sum(e.width for e in extents), max(e.height for e in extents)
    fits = [r for r in SCALES if wide * 1000 / r <= across and high * 1000 / r <= up]
    ratio = fits[0] if fits else SCALES[-1]
    share = (across - wide * 1000 / ratio) / 2
    left, views = room.left, []
    for way, extent in zip((Way.PLAN, Way.ELEVATION), extents, strict=True):
        right = left + extent.width * 1000 / ratio + 2 * EDGE + share
        frame = Box(left, room.bottom + FOOT, right, room.top - HEADING)
        views.append(View(way, parts, frame, _window(ratio, extent, frame), space))
        left = right + GUTTER
    return Leaf(tuple(views))


def _around(space: Cuboid, parts: tuple[Part, ...], way: Way) -> Box:
    """The parts with their service room and a little more, no further than the walls unless a part does."""
    reach = Box.around([seen(part.reach, way) for part in parts])
    more, walls = reach.grown(ROUND), seen(space, way)
    return Box(
        min(reach.left, max(more.left, walls.left)),
        min(reach.bottom, max(more.bottom, walls.bottom)),
        max(reach.right, min(more.right, walls.right)),
        max(reach.top, min(more.top, walls.top)),
    )
