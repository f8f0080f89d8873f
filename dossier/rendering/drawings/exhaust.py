"""What the exhaust drawings are made from: the route and everything near it, in metres aboard.

Lengths and places are numbers; what was found and what is allowed come as texts ready for the page, for the
drawing measures nothing that is printed. ``exhaust_elevation`` and ``exhaust_plan`` draw the figures,
``exhaust_sheet`` both on one sheet.
"""

from dataclasses import dataclass

from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.space import STARBOARD, Cuboid, Place3

SIDE = "side"
TRANSOM = "transom"
DECK = "deck"


@dataclass(frozen=True, slots=True)
class Height:
    """A height over the water: what was found and its limit, in words."""

    found: str
    limit: str = ""


@dataclass(frozen=True, slots=True)
class Condition:
    """The boat upright or heeled, with the heights found so."""

    name: str
    note: str = ""
    angle: float = 0.0
    side: str = STARBOARD
    loop: Height | None = None
    outlet: Height | None = None


@dataclass(frozen=True, slots=True)
class Mark:
    """A point on the route that is named: a passage, a drain, a joint."""

    at: Place3
    text: str


@dataclass(frozen=True, slots=True)
class Opening:
    """Something gas may enter by, or fuel leave by, with its distance from the outlet and the limit."""

    name: str
    at: Place3
    found: str
    limit: str = ""
    is_fuel: bool = False


@dataclass(frozen=True, slots=True)
class ExhaustRoute:
    """An exhaust from burner to outlet.

    ``points`` are the corners of the pipe's axis; ``bore`` and ``lagging`` its measures. ``shell`` is the
    line of the hull abreast the outlet, as seen in the elevation (across to port, up), where it is known.
    """

    points: tuple[Place3, ...]
    bore: float
    burner: Cuboid
    lagging: float = 0.0
    lagging_text: str = ""
    fitting: str = ""
    passages: tuple[Mark, ...] = ()
    drains: tuple[Mark, ...] = ()
    openings: tuple[Opening, ...] = ()
    compartments: tuple[Cuboid, ...] = ()
    shell: tuple[Point, ...] = ()
    face: str = ""

    @property
    def outlet(self) -> Place3:
        """Where the gas leaves."""
        return self.points[-1]

    @property
    def led_through(self) -> str:
        """Which part of the shell the outlet lies in: as said, else by the direction of the last leg."""
        if self.face or len(self.points) == 1:
            return self.face or SIDE
        dx, dy, dz = (abs(b - a) for a, b in zip(self.points[-2], self.points[-1], strict=True))
        if dz > max(dx, dy) and self.points[-1][2] > self.points[-2][2]:
            return DECK
        return TRANSOM if dx > dy else SIDE

    @property
    def is_seen_from_the_side(self) -> bool:
        """Whether the elevation looks to port instead of forward: where the pipe runs mainly fore and aft."""
        across = sum(abs(b[1] - a[1]) for a, b in zip(self.points, self.points[1:], strict=False))
        fore = sum(abs(b[0] - a[0]) for a, b in zip(self.points, self.points[1:], strict=False))
        if self.led_through == DECK:
            return fore > across
        return self.led_through == TRANSOM
