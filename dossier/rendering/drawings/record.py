"""What a drawing holds, as boxes and straight pieces: the ground on which drawings are tested.

``misfits`` names every label that meets a label, a sign or a line, and everything outside its frame.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol, runtime_checkable

from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import Drawing, Group, Path, Shape, Text

TOUCH = 0.05  # millimetres: boxes that only touch are no fault


@dataclass(frozen=True, slots=True)
class Placed:
    """A label or a sign, where it stands."""

    name: str
    box: Box
    ground: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight piece of a line that stands outside every sign."""

    start: Point
    end: Point
    width: float


@dataclass(frozen=True, slots=True)
class Recording:
    """Labels, signs, line pieces and patterned areas of a drawing, with its size in millimetres."""

    size: tuple[float, float]
    labels: tuple[Placed, ...]
    signs: tuple[Placed, ...]
    pieces: tuple[Piece, ...]
    patterns: tuple[Box, ...] = ()

    def label(self, text: str) -> Placed:
        """The first label with this text."""
        return next(label for label in self.labels if label.name == text)

    def sign(self, name: str) -> Placed:
        """The first sign with this name."""
        return next(sign for sign in self.signs if sign.name == name)

    @property
    def texts(self) -> tuple[str, ...]:
        """Every text, in drawing order."""
        return tuple(label.name for label in self.labels)


@runtime_checkable
class Patterned(Protocol):
    """A hatched area: where it is, whether lettering on it needs a ground, and its frame."""

    box: Box

    @property
    def is_dense(self) -> bool:
        """Whether there is a pattern in it at all."""
        ...

    @property
    def outline(self) -> Shape:
        """What bounds it."""
        ...

    def parts(self) -> Iterator[Path | Text]:
        """As every shape."""
        ...


def record(drawing: Drawing) -> Recording:
    """Labels, signs and lines of a drawing."""
    labels: list[Placed] = []
    signs: list[Placed] = []
    pieces: list[Piece] = []
    patterns: list[Box] = []
    for shape in drawing.shapes:
        if isinstance(shape, Group):
            signs.append(Placed(shape.name, shape.box))
        elif isinstance(shape, Patterned):
            patterns += [shape.box] if shape.is_dense else []
            _take(shape.outline, labels, pieces)
        else:
            _take(shape, labels, pieces)
    return Recording(drawing.size, tuple(labels), tuple(signs), tuple(pieces), tuple(patterns))


def _take(shape: Shape, labels: list[Placed], pieces: list[Piece]) -> None:
    for part in shape.parts():
        if isinstance(part, Text):
            labels.append(Placed(part.text, part.box, part.ground))
        else:
            width = part.pen.width if part.pen else 0.0
            pieces += [Piece(a, b, width) for a, b in chords(part)]


def chords(path: Path) -> Iterator[tuple[Point, Point]]:
    """The straight pieces of an outline; a curve becomes eight of them."""
    first = here = (0.0, 0.0)
    for mark, points in path.steps:
        if mark == "M":
            first = here = points[0]
        elif mark == "C":
            for n in range(1, 9):
                there = _on_curve((here, *points), n / 8)
                before = _on_curve((here, *points), (n - 1) / 8)
                yield before, there
            here = points[-1]
        else:
            there = first if mark == "Z" else points[0]
            if there != here:
                yield here, there
            here = there


def _on_curve(p: tuple[Point, ...], t: float) -> Point:
    s = 1 - t
    a, b, c, d = s**3, 3 * s * s * t, 3 * s * t * t, t**3
    return (
        a * p[0][0] + b * p[1][0] + c * p[2][0] + d * p[3][0],
        a * p[0][1] + b * p[1][1] + c * p[2][1] + d * p[3][1],
    )


def crosses(start: Point, end: Point, box: Box) -> bool:
    """Whether a straight piece runs through the inside of a box."""
    low, high = 0.0, 1.0
    for a, b, least, most in (
        (start[0], end[0], box.left, box.right),
        (start[1], end[1], box.bottom, box.top),
    ):
        if a == b:
            if not least < a < most:
                return False
            continue
        t0, t1 = sorted(((least - a) / (b - a), (most - a) / (b - a)))
        low, high = max(low, t0), min(high, t1)
        if low >= high:
            return False
    return True


def cuts(piece: Piece, box: Box) -> bool:
    """Whether a piece of line with its width runs through a box."""
    half = piece.width / 2
    (x0, y0), (x1, y1) = piece.start, piece.end
    if (max(x1, x0)) + half <= box.left or (min(x1, x0)) - half >= box.right:
        return False
    if (max(y1, y0)) + half <= box.bottom or (min(y1, y0)) - half >= box.top:
        return False
    return crosses(piece.start, piece.end, box.grown(half))


def misfits(drawing: Drawing, frame: Box | None = None) -> tuple[str, ...]:
    """Everything that stands on something else or outside the frame, in words; empty if all is well.

    Lettering on a white ground may stand on hatching, never on another line.
    """
    seen = record(drawing)
    frame = (frame or Box(0, 0, *seen.size)).grown(TOUCH)
    return (*_boxes_that_meet(seen), *_lines_through(seen), *_outside(seen, frame))


def _boxes_that_meet(seen: Recording) -> Iterator[str]:
    placed = sorted(
        [("label", p, p.box.grown(-TOUCH)) for p in seen.labels]
        + [("sign", p, p.box.grown(-TOUCH)) for p in seen.signs],
        key=lambda each: each[2].left,
    )
    for n, (kind, one, box) in enumerate(placed):
        for other_kind, other, other_box in placed[n + 1 :]:
            if other_box.left >= box.right:
                break
            if box.meets(other_box):
                yield f"{kind} {one.name!r} meets {other_kind} {other.name!r}"


def _lines_through(seen: Recording) -> Iterator[str]:
    for label in seen.labels:
        inner = label.box.grown(-TOUCH)
        if any(cuts(piece, inner) for piece in seen.pieces):
            yield f"a line runs through label {label.name!r}"
        if not label.ground and any(inner.meets(box) for box in seen.patterns):
            yield f"label {label.name!r} stands on hatching"


def _outside(seen: Recording, frame: Box) -> Iterator[str]:
    for placed in (*seen.labels, *seen.signs):
        if not frame.holds(placed.box):
            yield f"{placed.name!r} stands outside the frame"
    for piece in seen.pieces:
        (x0, y0), (x1, y1) = piece.start, piece.end
        if not frame.holds(Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))):
            yield f"a line from {piece.start} to {piece.end} leaves the frame"
