"""A ring laid in rows: forward above, back below, the return as the lowest line and a riser at the left.

Where the forward row is too long the ring goes on in further rows, each against the direction of the last.
Lengths along a row are measured with its flow from the upright it starts at; heights from the first axis.
"""

from dataclasses import dataclass, field, replace

from dossier.rendering.drawings.cells import Cell, Look, boxes_of, flow_arrow, wire_of
from dossier.rendering.drawings.circuit import Branch, Item, Parallel, Run, Side, Unit
from dossier.rendering.drawings.groups import BAR, item_cell
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.ring import Sequence, Step
from dossier.rendering.drawings.riser import Riser, left_room, risen
from dossier.rendering.drawings.shapes import Shape
from dossier.rendering.drawings.strings import (
    CLEARANCE,
    Setting,
    Strand,
    Surroundings,
    drawn,
    in_columns,
    reach,
    strand,
)
from dossier.rendering.drawings.wires import Wire

EDGE = 1.2  # from the last box of a row to the upright pipe behind it
INNER = 9.0  # from the riser to the upright pipes inside it
LEAST_DROP = 9.0
LEAN = 5.0  # over this height the first row may reach out to the left over the riser
FAR = 999.0
NEAR_NEXT = 30  # from this place in its column on a knot stays with the unit behind it
ROOM_FOR_ARROW = 6.0


Tight = tuple[Strand, list[float], float]


@dataclass(frozen=True, slots=True)
class Layout:
    """Everything laid out about the first row's axis, with the room it takes."""

    cell: Cell
    box: Box

    @staticmethod
    def of(shapes: tuple[Shape, ...]) -> "Layout":
        """A layout whose room is that of its shapes."""
        boxes = boxes_of(shapes)
        return Layout(Cell(0.0, shapes, boxes), Box.around(list(boxes)) if boxes else Box(0, 0, 0, 0))

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """Everything to be drawn."""
        return tuple(self.cell.shapes())


@dataclass(frozen=True, slots=True)
class Row:
    """One row on its axis: its strand with places along it, and the uprights at its ends."""

    strand: Strand
    places: list[float]
    way: int
    start: float
    end: float
    is_open: tuple[bool, bool] = (False, False)

    @property
    def cell(self) -> Cell:
        """Everything on the row, its axis at height 0."""
        return drawn(self.strand, self.places, self.way, self._ends).moved(self.start, 0)

    @property
    def _ends(self) -> tuple[float, float]:
        first = self.places[0] if self.is_open[0] else 0.0
        if self.is_open[1]:
            return first, self.places[-1] + self.strand.knots[-1].cell.length
        return first, self.way * (self.end - self.start)


@dataclass(frozen=True, slots=True)
class Course:
    """Which row: its direction, the run that leaves it, whether it is the first or leads home."""

    way: int
    after: Run
    is_first: bool = False
    leads_home: bool = False


@dataclass(frozen=True)
class Rows:
    """Sets steps of a ring in rows of one width; cells once made are kept."""

    around: Surroundings
    look: Look
    width: float
    left: float = 0.0
    made: dict[tuple[int, Side | None, int], Cell] = field(default_factory=dict)

    def cell(self, item: Unit | Parallel, side: Side | None, setting: Setting) -> Cell:
        """The cell of an item, made once for each direction."""
        key = (id(item), side, setting.way)
        if key not in self.made:
            self.made[key] = item_cell(item, side, setting)
        return self.made[key]

    def natural(self, steps: list[Step], course: Course) -> Tight:
        """A row as tight as it goes: its strand, places, and where its far upright may stand."""
        items: list[Item] = [each for step in steps for each in step]
        setting = Setting(self.around, course.way, self.look)
        side = steps[0][0].side if steps else course.after.side
        line = strand(Branch((*items, course.after)), side or Side.SUPPLY, setting, self.cell)
        blocked: tuple[Box, ...] = (Box(-FAR, -FAR, EDGE, FAR),)
        if course.is_first:
            blocked = (Box(-FAR, -FAR, EDGE, LEAN), Box(-FAR, LEAN, -self.left, FAR))
        places = in_columns((line,), setting, EDGE, blocked)[0]
        if not places:
            return line, places, 0.0
        last = line.knots[-1].cell
        if last.foot and not course.leads_home:
            return line, places, places[-1] + last.length - BAR
        outlet = places[-1] + last.length
        return line, places, max(reach(line, places, course.way) + EDGE, outlet + self.look.lead)

    def row(self, steps: list[Step], course: Course, ends: tuple[float, float]) -> Row:
        """A row between two uprights, what room is left shared out between its units."""
        line, places, least = self.natural(steps, course)
        slack = max(0.0, course.way * (ends[1] - ends[0]) - least)
        return Row(line, _spread(line, places, slack, to_the_end=not course.leads_home), course.way, *ends)

    def cut(self, steps: list[Step], home: int, closing: Run) -> list[list[Step]] | None:
        """The steps in rows; None where one step alone is wider than a row."""
        out, back = steps[:home], steps[home:]
        goes_out = self._fits(out, Course(1, _entering(back, closing), is_first=True), self.width)
        if goes_out and self._fits(back, Course(-1, closing, leads_home=True), self.width):
            return [out, back] if back else [out]
        rows: list[list[Step]] = []
        rest = list(steps)
        while rest:
            way = -1 if len(rows) % 2 else 1
            count = len(rest)
            while count:
                after = _entering(rest[count:], closing) if count < len(rest) else closing
                home_here = way < 0 and count == len(rest)
                course = Course(way, after, is_first=not rows, leads_home=home_here)
                if self._fits(rest[:count], course, self.width - 2 * INNER):
                    break
                count -= 1
            if not count:
                return None
            rows.append(rest[:count])
            rest = rest[count:]
        return rows

    def _fits(self, steps: list[Step], course: Course, width: float) -> bool:
        return self.natural(steps, course)[2] <= width


def _entering(steps: list[Step], closing: Run) -> Run:
    """The run that leads on to the next steps, without its lettering."""
    return Run((steps[0][0] if steps else closing).side)


def _spread(line: Strand, places: list[float], slack: float, *, to_the_end: bool) -> list[float]:
    """Places moved on so that the slack lies evenly between the units; a manifold goes to the far end."""
    units = sum(not knot.passes for knot in line.knots)
    ends_in_bar = to_the_end and bool(line.knots) and line.knots[-1].cell.foot is not None
    share = slack / (units if ends_in_bar else units + 1) if units else slack / 2
    spread: list[float] = []
    passed = 0
    for knot, place in zip(line.knots, places, strict=True):
        if not knot.passes:
            passed += 1
        behind = passed + (knot.passes and knot.key[2] >= NEAR_NEXT and passed < units)
        spread.append(place + share * (passed + 0.5 if knot.labelled else behind))
    return spread


def laid(
    sequence: Sequence, around: Surroundings, look: Look, width: float, *, with_riser: bool
) -> Layout | None:
    """The sequence no wider than ``width``; None where that cannot be.

    ``with_riser`` sets the pump that ends the way home, and what joins before it, on the riser.
    """
    steps = list(sequence.steps)
    rising = steps.pop() if with_riser else None
    riser = Riser(rising, around, look)
    left = left_room(riser) if with_riser else 0.0
    rows = Rows(around, look, width - left - (0.0 if sequence.is_open else BAR), left)
    closing = rising[0] if rising else (sequence.steps[0][0] if sequence.steps else Run())
    home = len(sequence.steps) - sequence.back
    parts = rows.cut(steps, len(steps) if sequence.is_open else home, closing)
    if parts is None:
        return None
    if not sequence.is_open and len(parts) % 2:
        parts.append([])
    set_rows = _set(rows, parts, sequence, closing if rising else Run(closing.side))
    cells = _stacked([row.cell for row in set_rows], look)
    levels = [cell.offset[1] for cell in cells]
    shapes = _uprights(set_rows, levels)
    boxes = [box for cell in cells for box in cell.boxes] + list(boxes_of(tuple(shapes)))
    if not sequence.is_open:
        beyond = sequence.steps[0][0].side if sequence.steps else None
        rise = risen(riser, tuple(boxes), levels[-1], beyond)
        if rise is None:
            return None
        shapes += rise
        boxes += boxes_of(tuple(rise))
    return Layout(Cell(0.0, tuple(shapes), tuple(boxes), within=tuple(cells)), Box.around(boxes))


def fits_riser(sequence: Sequence) -> bool:
    """Whether the way home ends in a pump that may stand on the riser."""
    last = sequence.steps[-1][1] if sequence.steps else None
    return not sequence.is_open and sequence.back > 0 and isinstance(last, Unit) and last.kind == "pump"


def _set(rows: Rows, parts: list[list[Step]], sequence: Sequence, closing: Run) -> list[Row]:
    """Each row between its uprights."""
    result: list[Row] = []
    here = 0.0
    for n, steps in enumerate(parts):
        way = -1 if n % 2 else 1
        last = n == len(parts) - 1
        following = [step for part in parts[n + 1 :] for step in part]
        after = closing if last else _entering(following, closing)
        course = Course(way, after, is_first=n == 0, leads_home=last and not sequence.is_open)
        if last and sequence.is_open:
            there = here + way * rows.natural(steps, course)[2]
        elif way > 0:
            there = rows.width
        else:
            there = 0.0 if last else INNER
        row = rows.row(steps, course, (here, there))
        result.append(replace(row, is_open=(sequence.is_open and n == 0, sequence.is_open and last)))
        here = there
    return result


def _stacked(rows: list[Cell], look: Look) -> list[Cell]:
    """Each row on its height, clear of everything above it."""
    placed: list[Cell] = []
    taken: list[Box] = []
    for row in rows:
        level = 0.0
        if placed:
            needed = [
                other.bottom - box.top - look.gap - CLEARANCE
                for box in row.boxes
                for other in taken
                if box.left < other.right + CLEARANCE and other.left < box.right + CLEARANCE
            ]
            level = min([placed[-1].offset[1] - LEAST_DROP, *needed])
        placed.append(row.moved(0, level))
        taken += placed[-1].boxes
    return placed


def _uprights(rows: list[Row], levels: list[float]) -> list[Shape]:
    """The pipes that lead from one row down to the next."""
    shapes: list[Shape] = []
    for n, row in enumerate(rows[:-1]):
        side = row.strand.sides[-1]
        last = row.strand.knots[-1].cell if row.strand.knots else None
        foot = levels[n] + last.foot[1] if last and last.foot else levels[n]
        shapes.append(Wire(((row.end, foot), (row.end, levels[n + 1])), wire_of(side)))
        if foot - levels[n + 1] > ROOM_FOR_ARROW:
            shapes.append(flow_arrow(row.end, (foot + levels[n + 1]) / 2, 270, side))
    return shapes
