"""The valve plan as a matrix: a row for each part, a column for each mode, in each cell a mark and words.

A ring stands for open, a filled disc for shut, a half-filled one for set; what moves by itself has a T. So
the plan reads at arm's length and on a bad copy.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from dossier.rendering.drawings.legend import Entry, entry_of
from dossier.rendering.drawings.lettering import (
    CAPITALS,
    LEAST,
    REGULAR,
    SEMIBOLD,
    SMALL,
    ascent,
    folded,
    leading,
)
from dossier.rendering.drawings.pens import MIDDLE, NARROW, OUTLINE
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import laid_round
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Circle,
    Drawing,
    Group,
    Line,
    Path,
    Polygon,
    Shape,
    Text,
)
from dossier.rendering.drawings.sheet import Form

OPEN, SHUT, SET, BY_ITSELF, UNKNOWN, RUNS, OFF = (
    "open",
    "shut",
    "set",
    "by itself",
    "not known",
    "runs",
    "off",
)
RADIUS = 1.7
ROW, HEAD = 8.6, 12.5
TAG, NAME = 26.0, 48.0  # widths of the first two columns
LEAST_COLUMN = 30.0
PADDING = 1.6


@dataclass(frozen=True, slots=True)
class Cell:
    """How a part stands in a mode: the kind of mark, and words beside it."""

    mark: str
    said: str


@dataclass(frozen=True, slots=True)
class Row:
    """One part: tag, what it is and where, and a cell for each mode."""

    tag: str
    name: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Matrix:
    """All modes and all parts."""

    modes: tuple[str, ...]
    rows: tuple[Row, ...]


def valve_matrix(matrix: Matrix, form: Form, words: dict[str, str]) -> tuple[Drawing, ...]:
    """As many sheets as modes and parts need; ``words`` name the marks and two heads."""
    furniture = laid_round(form, list(_legend(matrix, words)))
    free = furniture.free
    across = max(1, int((free.width - TAG - NAME) // LEAST_COLUMN))
    down = max(1, int((free.height - HEAD) // ROW))
    return tuple(
        furniture.drawing(_grid(_part(matrix, first, top, (across, down)), free, words), form.title)
        for top, first in product(range(0, len(matrix.rows), down), range(0, len(matrix.modes), across))
    )


def _part(matrix: Matrix, first: int, top: int, size: tuple[int, int]) -> Matrix:
    """The modes and parts of one sheet."""
    across, down = size
    rows = tuple(
        Row(row.tag, row.name, row.cells[first : first + across]) for row in matrix.rows[top : top + down]
    )
    return Matrix(matrix.modes[first : first + across], rows)


def _legend(matrix: Matrix, words: dict[str, str]) -> Iterator[Entry]:
    """Every mark that stands on the sheets."""
    seen = {cell.mark for row in matrix.rows for cell in row.cells}
    for kinds in ((OPEN, RUNS), (SHUT, OFF), (SET,), (BY_ITSELF,), (UNKNOWN,)):
        here = [kind for kind in kinds if kind in seen]
        if here:
            yield entry_of((mark(here[0]),), ", ".join(words[kind] for kind in here))


def mark(kind: str) -> Group:
    """A mark about (0, 0)."""
    box = Box(-RADIUS, -RADIUS, RADIUS, RADIUS)
    shapes: list[Shape] = [Circle(0, 0, RADIUS, OUTLINE, BLACK if kind in {SHUT, OFF} else WHITE)]
    if kind == SET:
        k, r = 0.5523 * RADIUS, RADIUS
        half = (
            ("M", ((0.0, r),)),
            ("C", ((-k, r), (-r, k), (-r, 0.0))),
            ("C", ((-r, -k), (-k, -r), (0.0, -r))),
            ("Z", ()),
        )
        shapes.append(Path(half, None, BLACK))
    if kind in {BY_ITSELF, UNKNOWN}:
        shapes.append(Text(0, -0.9, "T" if kind == BY_ITSELF else "?", LEAST, SEMIBOLD, "middle"))
    if kind in {RUNS, OFF}:
        ink = WHITE if kind == OFF else BLACK
        shapes.append(Polygon(((-0.6, 0.9), (-0.6, -0.9), (0.95, 0.0)), None, ink))
    return Group(f"mark {kind}", box, tuple(shapes))


def _grid(matrix: Matrix, free: Box, words: dict[str, str]) -> list[Shape]:
    """Heads, rows and rules."""
    column = min((free.width - TAG - NAME) / len(matrix.modes), 60.0)
    edges = [free.left, free.left + TAG, free.left + TAG + NAME]
    edges += [edges[-1] + column * (n + 1) for n in range(len(matrix.modes))]
    heads = (words["part"], words["name"], *matrix.modes)
    folds = [
        folded(head, right - left - 2 * PADDING, SMALL, SEMIBOLD, 3)
        for left, right, head in zip(edges, edges[1:], heads, strict=False)
    ]
    head_height = HEAD - (3 - max(len(lines) for lines in folds)) * leading(SMALL)
    foot = free.top - head_height - ROW * len(matrix.rows)
    shapes: list[Shape] = [Line((free.left, free.top), (edges[-1], free.top), OUTLINE)]
    for left, lines in zip(edges, folds, strict=False):
        first = free.top - PADDING - ascent(SMALL)
        shapes += [
            Text(left + PADDING, first - n * leading(SMALL), line, SMALL, SEMIBOLD)
            for n, line in enumerate(lines)
        ]
    for n, row in enumerate(matrix.rows):
        y = free.top - head_height - n * ROW
        shapes.append(Line((free.left, y), (edges[-1], y), MIDDLE if n == 0 else NARROW))
        shapes += _row(row, edges, y)
    shapes += [Line((x, free.top), (x, foot), NARROW) for x in edges[2:-1]]
    return [*shapes, Line((free.left, foot), (edges[-1], foot), OUTLINE)]


def _row(row: Row, edges: list[float], top: float) -> list[Shape]:
    middle = top - ROW / 2
    tag = folded(row.tag, TAG - 2 * PADDING, CAPITALS, SEMIBOLD, 1)
    shapes: list[Shape] = [Text(edges[0] + PADDING, middle - 1.3, line, CAPITALS, SEMIBOLD) for line in tag]
    shapes += _lines(row.name, edges[1] + PADDING, middle, NAME - 2 * PADDING, REGULAR)
    for left, right, cell in zip(edges[2:-1], edges[3:], row.cells, strict=True):
        x = left + PADDING + RADIUS
        shapes.append(shifted(mark(cell.mark), x, middle))
        weight = SEMIBOLD if cell.mark in {SHUT, OFF} else REGULAR
        at = x + RADIUS + PADDING
        shapes += _lines(cell.said, at, middle, right - at - PADDING, weight)
    return shapes


def _lines(text: str, x: float, middle: float, width: float, weight: str) -> list[Shape]:
    """Up to two lines about a height."""
    lines = folded(text, width, SMALL, weight)
    first = middle - ascent(SMALL) / 2 + (len(lines) - 1) * leading(SMALL) / 2
    return [Text(x, first - n * leading(SMALL), line, SMALL, weight) for n, line in enumerate(lines)]
