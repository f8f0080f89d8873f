"""How much of the plan of an exhaust is drawn at which scale, and what is only listed."""

from dataclasses import dataclass

from dossier.rendering.drawings.exhaust import ExhaustRoute, Opening
from dossier.rendering.drawings.lettering import SMALL, folded, leading, text_width
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.scales import Window
from dossier.rendering.drawings.space import distance, from_above

SCALES = (5, 10, 20, 25, 40, 50, 100)
SMALLEST_WISHED = 50  # openings that ask for a smaller scale are listed, not drawn
EDGE = 9.0  # millimetres kept round what is drawn, for lettering
FOOT = 9.0
LEAST = 45.0  # height of the smallest plan
COLUMN = 40.0
FAR_LINES = 20
FULL = 0.6  # of the width: so high a plan is drawn if there is room, for what surrounds the route


@dataclass(frozen=True, slots=True)
class Words:
    """The few words of the plan."""

    outlet: str = "outlet"
    shell: str = "hull side"
    transom: str = "transom"
    centreline: str = "centreline"
    forward: str = "FWD"
    not_drawn: str = "not drawn"


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan fitted to its room: what is drawn, what is only listed, at what scale."""

    route: ExhaustRoute
    drawn: tuple[Opening, ...]
    far: tuple[Opening, ...]
    window: Window
    frame: Box
    list_height: float
    numbered: bool

    @property
    def listed(self) -> tuple[str, ...]:
        """What stands in the list under the plan: the openings that bear a number."""
        return _listed(self.drawn) if self.numbered else ()


def fitted(route: ExhaustRoute, room: Point, *, numbered: bool) -> Plan:
    """The openings that are drawn at the largest scale that shows them, the farthest left out first."""
    ordered = tuple(sorted(route.openings, key=lambda opening: distance(opening.at, route.outlet)))
    for count in range(len(ordered), -1, -1):
        drawn, far = ordered[:count], ordered[count:]
        list_height = _list_height(drawn if numbered else (), far, room[0])
        foot = FOOT + list_height
        extent = _extent(route, drawn)
        across, up = extent.width * 1000, extent.height * 1000
        fits = [r for r in SCALES if across / r <= room[0] - 2 * EDGE and up / r <= room[1] - foot - 2 * EDGE]
        if not count or (fits and fits[0] <= SMALLEST_WISHED):
            break
    ratio = fits[0] if fits else SCALES[-1]
    height = min(room[1], max(LEAST, FULL * room[0], up / ratio + 2 * EDGE) + foot)
    unit, middle = 1000.0 / ratio, (room[0] / 2, foot + (height - foot) / 2)
    origin = (middle[0] - extent.middle[0] * unit, middle[1] - extent.middle[1] * unit)
    frame = Box(0.0, foot, room[0], height)
    return Plan(route, drawn, far, Window(ratio, origin), frame, list_height, numbered)


def _extent(route: ExhaustRoute, openings: tuple[Opening, ...]) -> Box:
    """Everything that is drawn whatever happens, in metres."""
    places = [*route.points, *route.burner.corners, *(opening.at for opening in openings)]
    flat = [from_above(p) for p in places]
    return Box.around([Box(x, y, x, y) for x, y in flat]).grown(route.bore / 2 + route.lagging)


def _listed(openings: tuple[Opening, ...]) -> tuple[str, ...]:
    return tuple(f"{n} {said(each)}" for n, each in enumerate(openings, 1))


def _list_height(listed: tuple[Opening, ...], far: tuple[Opening, ...], width: float) -> float:
    """Height of the list under the plan."""
    columns, _ = list_columns(_listed(listed), width)
    rows = len(far_lines(far, width, Words())) + -(-len(listed) // columns)
    return rows * leading(SMALL) + 1.0


def list_columns(listed: tuple[str, ...], width: float) -> tuple[int, float]:
    """How many columns a list takes and how wide each is: as wide as its longest line, if that fits."""
    longest = max((text_width(line, SMALL) for line in listed), default=0.0) + 4.0
    columns = max(1, int((width - 2.0) // max(longest, COLUMN)))
    return columns, (width - 2.0) / columns


def far_lines(far: tuple[Opening, ...], width: float, words: Words) -> tuple[str, ...]:
    """What is not drawn, run on in lines."""
    if not far:
        return ()
    text = f"{words.not_drawn}: " + "; ".join(said(each) for each in far)
    return folded(text, width - 4.0, SMALL, most=FAR_LINES)


def said(opening: Opening) -> str:
    """An opening with its distance, as it stands in a list."""
    return f"{opening.name} {opening.found}".strip()
