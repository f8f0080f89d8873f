"""Lines of the schematic by what they carry, and the gap where one passes under another."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from dossier.rendering.drawings import pens
from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.shapes import Path, Pen, Polyline, Text

SUPPLY = "supply"
RETURN = "return"
STILL = "still"
EXHAUST = "exhaust"
FUEL = "fuel"
TAP = "tap"
HEADER = "header"
ENGINE = "engine"
ELECTRIC = "electric"

PENS: dict[str, Pen] = {
    SUPPLY: pens.SUPPLY,
    RETURN: pens.RETURN,
    STILL: pens.STILL,
    EXHAUST: pens.EXHAUST,
    HEADER: pens.HEADER,
    ENGINE: pens.ENGINE,
    FUEL: pens.FUEL,
    TAP: pens.TAP,
    ELECTRIC: pens.ELECTRIC,
}
WORDS: dict[str, str] = {
    SUPPLY: "supply",
    RETURN: "return",
    STILL: "standing water",
    EXHAUST: "exhaust, hot",
    HEADER: "header, no flow",
    ENGINE: "engine coolant",
    FUEL: "fuel",
    TAP: "tap: C cold, H hot, M mixed",
    ELECTRIC: "electric",
}
RANKS: dict[str, int] = {
    EXHAUST: 7,
    SUPPLY: 6,
    RETURN: 6,
    STILL: 6,
    HEADER: 5,
    ENGINE: 4,
    ELECTRIC: 2,
    FUEL: 1,
    TAP: 1,
}
LINK_RANK = 3
GAP = 0.8  # millimetres left open on each side of the line that goes on


@dataclass(frozen=True, slots=True)
class Wire:
    """A line from point to point; of two that cross, the lower rank is broken."""

    points: tuple[Point, ...]
    kind: str
    rank: int = 0

    @property
    def standing(self) -> int:
        """Its rank: its own, else that of its kind."""
        return self.rank or RANKS[self.kind]

    def moved(self, dx: float, dy: float) -> "Wire":
        """The same line elsewhere."""
        return Wire(tuple((x + dx, y + dy) for x, y in self.points), self.kind, self.rank)

    def parts(self) -> "Iterator[Path | Text]":
        """Outlines after its pen."""
        yield from Polyline(self.points, PENS[self.kind]).parts()


def broken(wires: tuple[Wire, ...]) -> tuple[Wire, ...]:
    """The lines with gaps where they cross one of higher rank (of equal rank: one drawn earlier)."""
    result: list[Wire] = []
    for n, wire in enumerate(wires):
        above = [
            other
            for m, other in enumerate(wires)
            if other.standing > wire.standing or (other.standing == wire.standing and m < n)
        ]
        result += _cut(wire, above)
    return tuple(result)


def _cut(wire: Wire, above: list[Wire]) -> list[Wire]:
    pieces: list[Wire] = []
    run: list[Point] = [wire.points[0]]
    for a, b in pairwise(wire.points):
        for low, high in _gaps(a, b, above):
            run.append(low)
            pieces.append(Wire(tuple(run), wire.kind, wire.rank))
            run = [high]
        run.append(b)
    pieces.append(Wire(tuple(run), wire.kind, wire.rank))
    return pieces


def _gaps(a: Point, b: Point, above: list[Wire]) -> list[tuple[Point, Point]]:
    along = 0 if a[1] == b[1] else 1
    sign = 1 if b[along] > a[along] else -1
    places = sorted(
        {
            sign * crossing[along]
            for other in above
            for c, d in pairwise(other.points)
            if (crossing := crossing_of((a, b), (c, d))) is not None
        }
    )
    gaps = []
    for place in places:
        low, high = [a[0], a[1]], [a[0], a[1]]
        low[along], high[along] = sign * (place - GAP), sign * (place + GAP)
        gaps.append(((low[0], low[1]), (high[0], high[1])))
    return gaps


def crossing_of(one: tuple[Point, Point], other: tuple[Point, Point]) -> Point | None:
    """Where an upright and a level piece cross inside both of them; ends that only touch do not cross."""
    (a, b), (c, d) = one, other
    if a[0] == b[0] and c[1] == d[1]:
        (a, b), (c, d) = (c, d), (a, b)
    if a[1] != b[1] or c[0] != d[0]:
        return None
    x, y = c[0], a[1]
    within = min(a[0], b[0]) + GAP < x < max(a[0], b[0]) - GAP
    level = min(c[1], d[1]) + GAP < y < max(c[1], d[1]) - GAP
    return (x, y) if within and level else None
