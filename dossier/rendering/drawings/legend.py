"""The legend: every line kind and every sign that stands on this sheet, and nothing else."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from dossier.rendering.drawings import wires
from dossier.rendering.drawings.cells import worst_mark
from dossier.rendering.drawings.joins import dot
from dossier.rendering.drawings.lettering import SEMIBOLD, SMALL, folded, leading
from dossier.rendering.drawings.placing import Place, shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Group, Shape, Text
from dossier.rendering.drawings.signs import WORDS as SIGN_WORDS
from dossier.rendering.drawings.signs import sign
from dossier.rendering.drawings.wires import HEADER, PENS, Wire

PITCH = 5.2
SAMPLE = 11.0  # length of a line sample, width kept for a sign
COLUMN = 40.0
HEADING = 4.6
TALLEST = 4.6  # a sign without lettering is drawn no taller than this
THINNEST = 0.25


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the legend: what is shown, about the middle of its sample, and what it means."""

    shapes: tuple[Shape, ...]
    lines: tuple[str, ...]
    height: float = PITCH


def entry_of(shapes: tuple[Shape, ...], text: str, height: float = PITCH) -> Entry:
    """An entry as high as its folded text asks for."""
    lines = folded(text, COLUMN - SAMPLE - 3.0, SMALL)
    return Entry(shapes, lines, max(height, PITCH + (len(lines) - 1) * leading(SMALL)))


def entries(
    kinds: Iterable[str], lines: Iterable[str], words: dict[str, str], *, joined: bool, worst: bool
) -> list[Entry]:
    """The entries of a sheet: line kinds in the order of their pens, signs in the order of their words."""
    seen_lines, seen_kinds = set(lines), set(kinds)
    half = SAMPLE / 2
    result = [
        entry_of(_line_sample(kind, half), words.get(kind, wires.WORDS[kind]))
        for kind in PENS
        if kind in seen_lines
    ]
    if joined:
        sample = (Wire(((-half, 0), (half, 0)), HEADER), dot((0, 0)))
        result.append(entry_of(sample, words.get("joined", "joined")))
    named = sorted((words.get(kind, SIGN_WORDS[kind]), kind) for kind in seen_kinds if kind in SIGN_WORDS)
    result += [sign_entry(kind, text) for text, kind in named]
    if worst:
        result.append(entry_of(tuple(worst_mark(0, 0)), words.get("worst", "worst branch")))
    return result


def _line_sample(kind: str, half: float) -> tuple[Shape, ...]:
    if kind != wires.TAP:
        return (Wire(((-half, 0), (half, 0)), kind),)
    letter = Text(0, -0.9, "C", SMALL, SEMIBOLD, "middle")
    return (Wire(((-half, 0), (-1.5, 0)), kind), letter, Wire(((1.5, 0), (half, 0)), kind))


def sign_entry(kind: str, text: str) -> Entry:
    """A sign about its middle; without lettering it is reduced to the height of a line of the legend."""
    unit_sign = sign(kind)
    x, y = unit_sign.box.middle
    placed = shifted(unit_sign.placed(Place(0, 0), f"legend {kind}"), -x, -y)
    if any(isinstance(part, Text) for part in placed.parts()):
        return entry_of((placed,), text, unit_sign.box.height + 1.2)
    scale = min(1.0, TALLEST / unit_sign.box.height, SAMPLE / unit_sign.box.width)
    return entry_of((_reduced(placed, scale),), text)


def _reduced(shape: Shape, scale: float) -> Group:
    """A sign drawn smaller about (0, 0), its lines thinner but none too thin to print."""
    parts: list[Shape] = []
    for part in shape.parts():
        if isinstance(part, Text):
            continue
        pen = replace(part.pen, width=max(THINNEST, part.pen.width * scale**0.5)) if part.pen else None
        steps = tuple((mark, tuple((x * scale, y * scale) for x, y in points)) for mark, points in part.steps)
        parts.append(replace(part, steps=steps, pen=pen))
    if not isinstance(shape, Group):
        raise TypeError("only signs are reduced")
    box = shape.box
    small = Box(box.left * scale, box.bottom * scale, box.right * scale, box.top * scale)
    return Group(shape.name, small, tuple(parts))


def shared_out(found: list[Entry], columns: list[Box], lines: int) -> list[list[Entry]] | None:
    """The entries in columns, the signs apart from the ``lines`` first entries if there is room for that."""
    if lines:
        apart, rest = in_columns(found[:lines], columns[:1]), in_columns(found[lines:], columns[1:])
        if apart is not None and rest is not None:
            return apart + rest
    return in_columns(found, columns)


def in_columns(found: list[Entry], columns: list[Box]) -> list[list[Entry]] | None:
    """The entries shared out to columns from the first on; None where they do not fit."""
    shares: list[list[Entry]] = [[] for _ in columns]
    n, room = 0, columns[0].height if columns else 0.0
    for entry in found:
        while n < len(columns) and entry.height > room:
            n += 1
            room = columns[n].height if n < len(columns) else 0.0
        if n == len(columns):
            return None
        shares[n].append(entry)
        room -= entry.height
    return shares


def drawn(shares: list[list[Entry]], columns: list[Box]) -> list[Shape]:
    """The entries in their columns, from the top."""
    shapes: list[Shape] = []
    for share, column in zip(shares, columns, strict=True):
        y = column.top
        x = column.left + SAMPLE / 2
        for entry in share:
            middle = y - entry.height / 2
            shapes += [shifted(shape, x, middle) for shape in entry.shapes]
            base = middle - 0.95 + (len(entry.lines) - 1) * leading(SMALL) / 2
            shapes += [
                Text(x + SAMPLE / 2 + 2.0, base - n * leading(SMALL), line, SMALL)
                for n, line in enumerate(entry.lines)
            ]
            y -= entry.height
    return shapes
