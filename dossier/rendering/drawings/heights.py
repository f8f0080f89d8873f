"""What the drawing of header and heights is made from: the header, every wet point, the boat heeled.

Places in metres aboard; what was found and what is allowed come as texts. ``heights_view`` draws one
condition of the boat, ``heights_sheet`` all of them with the table of margins.
"""

from dataclasses import dataclass

from dossier.rendering.drawings.space import STARBOARD, Cuboid, Place3


@dataclass(frozen=True, slots=True)
class Wet:
    """A point that must stay under the header: its name, its height in words, where it is."""

    name: str
    said: str
    at: Place3


@dataclass(frozen=True, slots=True)
class Stance:
    """The boat upright or heeled: which point counts then, the header's height over it, and the limit."""

    name: str
    note: str = ""
    angle: float = 0.0
    side: str = STARBOARD
    over: str = ""
    found: str = ""
    limit: str = ""


@dataclass(frozen=True, slots=True)
class Heights:
    """Header, wet points, parts of the ring that have a place, and the conditions that are drawn.

    ``levels`` are marks in the header as shares of its height, with their words. ``rows`` is the table of all
    conditions: condition, point, margin, limit.
    """

    header: Cuboid
    said: str
    points: tuple[Wet, ...]
    stances: tuple[Stance, ...]
    parts: tuple[Cuboid, ...] = ()
    levels: tuple[tuple[float, str], ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()

    @property
    def foot(self) -> Place3:
        """Middle of the header's bottom: the point that counts."""
        (x0, y0, z0), (x1, y1, _) = self.header.low, self.header.high
        return (x0 + x1) / 2, (y0 + y1) / 2, z0

    def point(self, name: str) -> Wet | None:
        """The wet point of a name."""
        return next((point for point in self.points if point.name == name), None)
