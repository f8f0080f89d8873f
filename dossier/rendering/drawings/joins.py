"""Vessels, headers and safety valves that join a run at a right angle."""

from dossier.rendering.drawings.cells import Cell, Look, cell_of, lettered_down, lettering_of, tag_text
from dossier.rendering.drawings.circuit import Join
from dossier.rendering.drawings.lettering import (
    REGULAR,
    SMALL,
    ascent,
    descent,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import NARROW
from dossier.rendering.drawings.placing import Place, shifted
from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.shapes import Arrow, Circle, Line, Shape, Text
from dossier.rendering.drawings.signs import sign
from dossier.rendering.drawings.wires import HEADER, Wire

DOT = 0.75
CLEAR = 8.0  # height of a stub over the lettering of its run


def dot(at: Point) -> Circle:
    """The mark of a connection."""
    return Circle(*at, DOT, None, "000000")


def joined_above(join: Join, look: Look) -> Cell:
    """A join on a level run, standing up from it."""
    notes = _notes(join, look)
    height = CLEAR + max(0.0, len(notes) * leading(SMALL) - 2.0)
    shapes: list[Shape] = [dot((0, 0)), Wire(((0, 0), (0, height)), HEADER)]
    shapes += lettered_down(notes, 1.2, height - 0.8, "start")
    shapes += _standing(join, (0, height), look)
    return cell_of(0.0, shapes)


def joined_left(join: Join, look: Look, rise: float = 0.0) -> Cell:
    """A join on the riser at the left of the sheet: across to the left, then up by ``rise`` at least."""
    notes = _notes(join, look)
    inner = max([text_width(line, SMALL, weight) for line, weight in notes] or [0.0])
    reach = max(inner + 4.0, _right_reach(join, look) + 5.0)
    height = max(9.0, len(notes) * leading(SMALL) + 9.0, rise)
    shapes: list[Shape] = [dot((0, 0)), Wire(((0, 0), (-reach, 0), (-reach, height)), HEADER)]
    shapes += lettered_down(notes, 1.6 - reach, height - 4.0, "start")
    shapes += _standing(join, (-reach, height), look)
    return cell_of(0.0, shapes)


def _notes(join: Join, look: Look) -> list[tuple[str, str]]:
    """What stands beside the line of a join: the data of a header with levels, then the notes."""
    width = min(look.name, 26.0)
    lines = lettering_of(join.unit, look) if join.levels else []
    return lines + [(line, REGULAR) for note in join.notes for line in folded(note, width, SMALL, most=3)]


def _right_reach(join: Join, look: Look) -> float:
    """How far the vessel and its lettering reach right of its line."""
    return max(box.right for box in cell_of(0.0, _standing(join, (0.0, 0.0), look)).boxes)


def _standing(join: Join, foot: Point, look: Look) -> list[Shape]:
    """The vessel on the end of its line."""
    unit_sign = sign(join.unit.kind)
    name = join.unit.tag or join.unit.kind
    if "join" not in dict(unit_sign.ports):
        placed = unit_sign.placed(Place(0, -unit_sign.port("in")[0], quarters=1), name)
    else:
        placed = unit_sign.placed(Place(0, 0), name)
    right, top = placed.box.right + 1.0, placed.box.top
    shapes: list[Shape] = [placed]
    if join.levels:
        shapes += _levels(join.levels, placed.box.right)
        y = top + 0.7 + descent(look.tag)
        x = 1.6 if join.vent else placed.box.left
        shapes += tag_text(join.unit.tag, x, y, "start", look)
        top = y + ascent(look.tag)
    else:
        base = top - ascent(look.tag)
        shapes += tag_text(join.unit.tag, right, base, "start", look)
        under = base - descent(look.tag) - 0.2 if join.unit.tag else top
        shapes += lettered_down(lettering_of(join.unit, look), right, under, "start")
    if join.vent:
        shapes += _vent(join.vent, placed.box.top, top)
    return [shifted(shape, *foot) for shape in shapes]


def _levels(levels: tuple[str, ...], edge: float) -> list[Shape]:
    """Ticks with words at the wall of a header: the first is the highest."""
    heights = (9.0, 4.8, 1.4)
    shapes: list[Shape] = []
    for word, y in zip(levels, heights, strict=False):
        shapes += [Line((edge, y), (edge + 2.0, y), NARROW), Text(edge + 2.8, y - 0.9, word, SMALL)]
    return shapes


def _vent(word: str, tank_top: float, top: float) -> list[Shape]:
    """The open vent over a header."""
    level = max(top + 1.4, tank_top + 6.0)
    return [
        Wire(((0, tank_top), (0, level), (-4.0, level)), HEADER),
        Arrow(-6.2, level, 180, 2.4, 1.7),
        Text(1.6, level - 0.9, word, SMALL, REGULAR),
    ]
