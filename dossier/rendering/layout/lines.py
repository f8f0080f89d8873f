"""Sets text into lines: words of any face, with indices, links and drawn signs, folded to a width."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import chain

from dossier.rendering import fonts
from dossier.rendering.layout.marks import sign_width
from dossier.rendering.layout.measures import Style
from dossier.rendering.text import Face, Markup, Run, Text

FONTS = {
    Face.REGULAR: fonts.REGULAR,
    Face.STRONG: fonts.STRONG,
    Face.HEAVY: fonts.HEAVY,
    Face.ITALIC: fonts.ITALIC,
}
BREAK = "break"
INDEX_SIZE = 0.72
SIGN_GAP = 2.4  # points between a sign and the word behind it, besides the blank
RISES = {-1: -0.17, 1: 0.34}

_BLANKS = re.compile(r"( +)")
_HYPHENS = re.compile(r"(?<=[^\W\d_²³]{3}[-/–])(?=[^\W\d_²³]{3})")
_SOFT = re.compile(r"(?<=[/_.\-@:,;()\[\]=&?+·])")


@dataclass(slots=True)
class Piece:
    """A stretch of one line in one font: ``x`` from the start of the line, ``rise`` above its baseline."""

    text: str
    font: str
    size: float
    rise: float
    width: float
    x: float = 0.0
    link: str = ""
    target: str = ""
    sign: str = ""


@dataclass(frozen=True, slots=True)
class Lines:
    """Text set in lines."""

    style: Style
    lines: tuple[tuple[Piece, ...], ...]

    @property
    def height(self) -> float:
        """Height of all lines."""
        return len(self.lines) * self.style.leading

    @property
    def width(self) -> float:
        """Width of the longest line."""
        return max((line[-1].x + line[-1].width for line in self.lines if line), default=0.0)

    def part(self, first: int, last: int | None = None) -> "Lines":
        """Some of the lines."""
        return Lines(self.style, self.lines[first:last])

    def targets(self) -> Iterator[tuple[str, float]]:
        """Places in the text and how far below the top they stand."""
        for number, line in enumerate(self.lines):
            for piece in line:
                if piece.target:
                    yield piece.target, number * self.style.leading


Resolve = Callable[[Run], Run]


def _pieces(runs: tuple[Run, ...], style: Style, resolve: Resolve) -> Iterator[Piece]:
    for raw in runs:
        run = resolve(raw) if raw.refers is not None else raw
        if run.own:
            fonts.require(run.text, "our own words")
        face = run.face if run.face is not Face.REGULAR else style.face
        size = style.size * INDEX_SIZE if run.rise else style.size
        rise = RISES.get(run.rise, 0.0) * style.size
        name = FONTS[face]
        if run.sign:
            width = sign_width(run.sign, style.size)
            yield Piece(fonts.shown(run.text), name, size, rise, width, 0.0, run.link, run.target, run.sign)
        else:
            yield Piece(fonts.shown(run.text), name, size, rise, 0.0, 0.0, run.link, run.target)


Atom = list[Piece]


def _like(piece: Piece, text: str, target: str = "") -> Piece:
    width = fonts.width(text, piece.font, piece.size)
    return Piece(text, piece.font, piece.size, piece.rise, width, 0.0, piece.link, target)


def _atoms(pieces: Iterator[Piece]) -> Iterator[tuple[Atom, str]]:
    """What may not be broken, each with what follows it: a blank, or nothing where a hyphen ends it."""
    atom: Atom = []
    for piece in pieces:
        if piece.sign or not piece.text:
            atom.append(piece)
            continue
        target = piece.target
        for chunk in _BLANKS.split(piece.text):
            if not chunk:
                continue
            if chunk[0] == " ":
                if atom:
                    yield atom, " "
                atom = []
                continue
            *firsts, last = _HYPHENS.split(chunk) if "-" in chunk or "/" in chunk or "–" in chunk else [chunk]
            for part in firsts:
                atom.append(_like(piece, part, target))
                yield atom, ""
                atom, target = [], ""
            atom.append(_like(piece, last, target))
            target = ""
    if atom:
        yield atom, ""


def _long(atom: Atom, width: float) -> Iterator[Atom]:
    """Break what is wider than a line: behind / _ . - and the like, else anywhere."""
    line: Atom = []
    used = 0.0
    for piece in atom:
        if piece.sign or used + piece.width <= width:
            line.append(piece)
            used += piece.width
            continue
        target = piece.target
        for soft in _SOFT.split(piece.text):
            rest = soft
            while rest:
                long = fonts.width(rest, piece.font, piece.size)
                if used + long <= width:
                    line.append(_like(piece, rest, target))
                    used += long
                    rest, target = "", ""
                elif line and used > width / 3:
                    yield line
                    line, used = [], 0.0
                else:
                    count = _fitting(rest, piece, width - used)
                    line.append(_like(piece, rest[:count], target))
                    rest, target = rest[count:], ""
                    if rest:
                        yield line
                        line, used = [], 0.0
                    else:
                        used += line[-1].width
    if line:
        yield line


def _fitting(text: str, piece: Piece, width: float) -> int:
    """How many characters fit, at least one."""
    used = 0.0
    for count, c in enumerate(text):
        used += fonts.width(c, piece.font, piece.size)
        if used > width:
            return max(1, count)
    return len(text)


def _append(line: list[Piece], piece: Piece, gap: str) -> None:
    """Put a piece at the end of a line, after a blank if there is one; like pieces run together."""
    if line:
        last = line[-1]
        plain = not (last.sign or piece.sign or piece.target)
        if plain and last.font == piece.font and last.rise == piece.rise and last.link == piece.link:
            last.text += gap + piece.text
            last.width += piece.width + (fonts.width(gap, last.font, last.size) if gap else 0.0)
            return
        if gap:
            if last.sign:
                last.width += fonts.width(gap, piece.font, piece.size) + SIGN_GAP
            else:
                last.text += gap
                last.width += fonts.width(gap, last.font, last.size)
                if piece.sign:
                    last.width += SIGN_GAP / 2
        piece.x = last.x + last.width
    line.append(piece)


def _one_line(pieces: list[Piece], width: float) -> tuple[Piece, ...] | None:
    """Words without signs that fit on one line; None where they must be folded one by one."""
    line: list[Piece] = []
    gap = ""
    for piece in pieces:
        words = piece.text.strip(" ")
        if piece.sign or not words or "  " in piece.text:
            return None
        if piece.text[0] == " ":
            if gap or not line:
                return None
            gap = " "
        _append(line, _like(piece, words, piece.target), gap)
        if line[-1].x + line[-1].width > width:
            return None
        gap = " " if piece.text[-1] == " " else ""
    return tuple(line) or None


def fold(text: Text, style: Style, width: float, resolve: Resolve) -> Lines:
    """Set a text into lines no wider than ``width``; a word wider than that is broken."""
    if isinstance(text, str):
        plain = fonts.shown(text).strip(" ")
        if not plain:
            return Lines(style, ((),))
        name = FONTS[style.face]
        run = fonts.width(plain, name, style.size)
        if run <= width and "  " not in plain:
            return Lines(style, ((Piece(plain, name, style.size, 0.0, run),),))
        runs: tuple[Run, ...] = (Run(plain),)
    else:
        runs = text.runs
    stretches = [_folded(stretch, style, width, resolve) for stretch in _stretches(runs)]
    return Lines(style, tuple(line for stretch in stretches for line in stretch))


def _stretches(runs: tuple[Run, ...]) -> Iterator[tuple[Run, ...]]:
    """Runs between the ends of lines that the text asks for."""
    start = 0
    for number, run in enumerate(runs):
        if run.sign == BREAK:
            yield runs[start:number]
            start = number + 1
    yield runs[start:]


def _folded(
    runs: tuple[Run, ...], style: Style, width: float, resolve: Resolve
) -> Iterator[tuple[Piece, ...]]:
    """Lines of one stretch."""
    pieces = list(_pieces(runs, style, resolve))
    short = _one_line(pieces, width)
    if short is not None:
        yield short
        return
    line: list[Piece] = []
    used, gap = 0.0, ""
    for whole, after in _atoms(iter(pieces)):
        wide = sum([piece.width for piece in whole])
        space = fonts.width(gap, whole[0].font, whole[0].size) if gap else 0.0
        if line and used + space + wide > width:
            yield tuple(line)
            line, used, space, gap = [], 0.0, 0.0, ""
        parts = [whole] if wide <= width else list(_long(whole, width))
        for number, part in enumerate(parts):
            if number:
                yield tuple(line)
                line, used = [], 0.0
            for piece in part:
                if piece.sign == "line":
                    piece.width = max(piece.width, width - used - space)
                _append(line, piece, gap)
                gap = ""
            used = line[-1].x + line[-1].width if line else 0.0
        gap = after
    yield tuple(line)


def natural_width(text: Text, style: Style, resolve: Resolve) -> float:
    """Width of a text on one line."""
    return fold(text, style, 1e6, resolve).width


def longest_word(text: Text, style: Style, resolve: Resolve) -> float:
    """Width of the widest part that should not be broken."""
    runs = text.runs if isinstance(text, Markup) else (Run(text),)
    atoms = chain.from_iterable(_atoms(_pieces(part, style, resolve)) for part in _stretches(runs))
    return max((sum(piece.width for piece in atom) for atom, _ in atoms), default=0.0)
