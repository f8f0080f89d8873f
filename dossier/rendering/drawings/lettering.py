"""How wide a text is, and how it folds: the lettering of the drawings."""

import re
from functools import lru_cache

from dossier.rendering import fonts

CAPITALS = 10.7  # points: capitals 2.5 mm high in this face, tags and found figures
SMALL = 7.7  # points: capitals 1.8 mm high, data and notes
LEAST = 7.1  # points, 2.5 mm: floor of everything drawn, labels of the title block

POINT = 25.4 / 72  # millimetres in a point

REGULAR = "regular"
SEMIBOLD = "semibold"
BOLD = "bold"
ITALIC = "italic"

FACES = {
    REGULAR: fonts.REGULAR,
    SEMIBOLD: fonts.STRONG,
    BOLD: fonts.HEAVY,
    ITALIC: fonts.ITALIC,
}

BLANKS = re.compile(r"[ \t\r\n\f\v]+")
FOLDS = frozenset("/_.-–·,;")


def face(weight: str) -> str:
    """Name of the embedded font for a weight, registered."""
    fonts.font(FACES[weight])
    return FACES[weight]


def printed(text: str) -> str:
    """A text as it is drawn: what the face cannot show appears as its code."""
    return fonts.shown(text)


@lru_cache(maxsize=20000)
def text_width(text: str, size: float, weight: str = REGULAR) -> float:
    """Width of a text in millimetres as it is drawn; ``size`` in points."""
    return fonts.width(printed(text), FACES[weight], size) * POINT


def ascent(size: float) -> float:
    """Height of capitals and ascenders above the baseline in millimetres."""
    return 0.71 * size * POINT


def descent(size: float) -> float:
    """Depth of descenders below the baseline in millimetres."""
    return 0.2 * size * POINT


def leading(size: float) -> float:
    """Distance of two baselines in millimetres."""
    return 1.24 * size * POINT


def folded(text: str, width: float, size: float, weight: str = REGULAR, most: int = 2) -> tuple[str, ...]:
    """Lines of a text no wider than ``width`` millimetres, ``most`` of them; the rest becomes an ellipsis.

    Folds at blanks (not between a figure and its unit), then behind / _ . - and the like, and within a word
    only when nothing else helps.
    """
    lines: list[str] = []
    rest = BLANKS.sub(" ", text).strip()
    while rest:
        if text_width(rest, size, weight) <= width:
            lines.append(rest)
            break
        if len(lines) == most - 1:
            lines.append(_shortened(rest, width, size, weight))
            break
        cut = _cut(rest, width, size, weight)
        lines.append(rest[:cut].rstrip())
        rest = rest[cut:].lstrip()
    return tuple(lines)


def _cut(text: str, width: float, size: float, weight: str) -> int:
    """How many characters go on this line."""
    fits = 1
    while fits < len(text) and text_width(text[: fits + 1].rstrip(), size, weight) <= width:
        fits += 1
    for place in range(fits, 0, -1):
        if text[place : place + 1] == " " or text[place - 1] == " ":
            return place
    for place in range(fits, 1, -1):
        if text[place - 1] in FOLDS:
            return place
    return fits


def _shortened(text: str, width: float, size: float, weight: str) -> str:
    """The text with an ellipsis where it stops."""
    kept = text
    while kept and text_width(kept.rstrip() + "…", size, weight) > width:
        kept = kept[:-1]
    return kept.rstrip() + "…"
