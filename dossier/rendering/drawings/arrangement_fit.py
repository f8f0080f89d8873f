"""Which views an arrangement takes and at what scale: the whole boat, and spaces in detail where it helps."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf

from dossier.rendering.drawings.arrangement import Arrangement, Part, Way, seen
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.scales import Window
from dossier.rendering.drawings.space import Cuboid

SCALES = (5, 10, 20, 25, 50, 75, 100, 200)
EDGE = 7.0  # millimetres kept round what is drawn, for lettering
HEADING = 6.0
FOOT = 9.0  # for scale bar and arrow
GUTTER = 8.0
ENOUGH = 25
"""One to so many shows service rooms well; details need not be larger to share a sheet."""
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


@dataclass(frozen=True, slots=True)
class Detail:
    """A space to show larger, as far as some of its parts reach, and its scale on a sheet of its own."""

    space: Cuboid
    extents: Mapping[Way, Box]
    parts: tuple[Part, ...]
    ratio: int


Row = Sequence[tuple[Detail, Way]]
"""Views side by side."""


def leaves(arrangement: Arrangement, room: Box) -> tuple[Leaf, ...]:
    """The whole boat in plan and elevation, then each space with service room where that shows it larger.

    Details share a sheet where they keep their scale, or one that is large enough.
    """
    whole = whole_boat(arrangement, room)
    groups: list[list[Detail]] = []
    for space in arrangement.spaces:
        for detail in _details(space, arrangement.parts_in(space), room, whole[0].ratio):
            if groups and _shared_scale([*groups[-1], detail], room) < whole[0].ratio:
                groups[-1].append(detail)
            else:
                groups.append([detail])
    return (*whole, *(_leaf(group, room) for group in groups))


def _details(space: Cuboid, parts: tuple[Part, ...], room: Box, coarsest: int) -> list[Detail]:
    """A space with all its parts, else with those that need service room, else each of these by itself.

    None where no sheet would show them larger than one to ``coarsest``.
    """
    served = tuple(part for part in parts if part.services)
    for shares in ((parts,), (served,), tuple((part,) for part in served)):
        made = [_detail(space, share, parts, room) for share in shares if served]
        if made and all(detail.ratio < coarsest for detail in made):
            return made
    return []


def _detail(space: Cuboid, shown: tuple[Part, ...], parts: tuple[Part, ...], room: Box) -> Detail:
    """One space, as far as the parts shown reach."""
    alone = Detail(space, {way: _around(space, shown, way) for way in Way}, parts, SCALES[-1])
    fits = (r for r in SCALES if any(_holds(room, rows, r) for rows in _laid_out([alone])))
    return replace(alone, ratio=next(fits, SCALES[-1]))


def _laid_out(details: Sequence[Detail]) -> list[list[Row]]:
    """Ways to lay details out: each plan beside its elevation; one alone also with its plan above."""
    beside: list[Row] = [[(detail, way) for way in Way] for detail in details]
    if len(details) > 1:
        return [beside]
    return [beside, [[(details[0], way)] for way in Way]]


def _shared_scale(details: Sequence[Detail], room: Box) -> float:
    """The scale at which details share a sheet; infinite where that is too small."""
    own = max(detail.ratio for detail in details)
    fits = (
        r
        for r in SCALES
        if (r == own or own < r <= ENOUGH) and any(_holds(room, rows, r) for rows in _laid_out(details))
    )
    return next(fits, inf)


def _holds(room: Box, rows: Sequence[Row], ratio: int) -> bool:
    """Whether a sheet holds rows of views at a scale."""
    unit = 1000 / ratio
    across = all(_wide(row) * unit <= _room_across(room, len(row)) for row in rows)
    return across and sum(_high(row) for row in rows) * unit <= _room_up(room, len(rows))


def _wide(row: Row) -> float:
    return sum(detail.extents[way].width for detail, way in row)


def _high(row: Row) -> float:
    return max(detail.extents[way].height for detail, way in row)


def _room_across(room: Box, views: int) -> float:
    """Width for what is drawn in a row."""
    return room.width - 2 * EDGE * views - GUTTER * (views - 1)


def _room_up(room: Box, rows: int) -> float:
    """Height for what is drawn, below headings and above the foot."""
    return room.height - FOOT - (HEADING + 2 * EDGE) * rows - GUTTER * (rows - 1)


def _leaf(details: Sequence[Detail], room: Box) -> Leaf:
    """Details in rows that share what height is left over."""
    shared = _shared_scale(details, room)
    ratio = details[0].ratio if shared == inf else int(shared)
    ways = _laid_out(details)
    rows = next((rows for rows in ways if _holds(room, rows, ratio)), ways[0])
    unit = 1000 / ratio
    spare = max(0.0, _room_up(room, len(rows)) - sum(map(_high, rows)) * unit) / len(rows)
    views: list[View] = []
    top = room.top
    for row in rows:
        bottom = top - HEADING - 2 * EDGE - _high(row) * unit - spare
        bottom = room.bottom + FOOT if row is rows[-1] else bottom
        views += _row(row, ratio, Box(room.left, bottom, room.right, top))
        top = bottom - GUTTER
    return Leaf(tuple(views))


def _row(row: Row, ratio: int, room: Box) -> list[View]:
    """Views side by side, sharing what width is left over."""
    unit = 1000 / ratio
    share = (_room_across(room, len(row)) - _wide(row) * unit) / len(row)
    left, views = room.left, []
    for detail, way in row:
        extent = detail.extents[way]
        right = left + extent.width * unit + 2 * EDGE + share
        frame = Box(left, room.bottom, right, room.top - HEADING)
        views.append(View(way, detail.parts, frame, _window(ratio, extent, frame), detail.space))
        left = right + GUTTER
    return views


def whole_boat(arrangement: Arrangement, room: Box) -> tuple[Leaf, ...]:
    """Plan over elevation on one sheet, or on one each if they are then drawn larger."""
    plan, side = _in_line(*(_extent(arrangement, way) for way in (Way.PLAN, Way.ELEVATION)))
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


def _in_line(plan: Box, side: Box) -> tuple[Box, Box]:
    """Both extents, widened to the same length, so that each part stands below itself."""
    left, right = min(plan.left, side.left), max(plan.right, side.right)
    return Box(left, plan.bottom, right, plan.top), Box(left, side.bottom, right, side.top)


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
