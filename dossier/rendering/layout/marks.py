"""Marks of results and grades, drawn as lines and areas so that they survive a photocopy.

A mark never stands alone: its word is beside it. All are drawn 2.9 mm high, on the baseline of their word.
"""

from dossier.notation import PageFault
from dossier.rendering import fonts
from dossier.rendering.layout.measures import MM
from dossier.rendering.layout.pen import BLACK, WHITE, Pen
from dossier.rendering.patterns import Pattern, fill

SIZE = 2.9 * MM
BLOCK_WIDTH, BLOCK_HEIGHT, BLOCK_PITCH = 1.1 * MM, 1.9 * MM, 1.75 * MM
BLOCKS = {"danger": 3, "fault": 2, "attention": 1}
GRADE_WIDTH = 2 * BLOCK_PITCH + BLOCK_WIDTH
SWATCH = (5.6 * MM, 3.5 * MM)
BLANK = 20 * MM
STATUSES = ("met", "not met", "not assessed", "not applicable", "accepted deviation")


def _middle(y: float, size: float) -> float:
    """Middle of the capitals of a line whose baseline is at y."""
    return y + size * fonts.CAPITALS / 2


def severity_blocks(pen: Pen, severity: str, x: float, y: float) -> None:
    """Three, two or one full blocks out of three, standing on y."""
    full = BLOCKS[severity]
    for number in range(3):
        left = x + number * BLOCK_PITCH
        if number < full:
            pen.box(left, y, BLOCK_WIDTH, BLOCK_HEIGHT, filled=True)
        else:
            pen.frame(left, y, BLOCK_WIDTH, BLOCK_HEIGHT, 0.14 * MM)


def _met(pen: Pen, x: float, y: float) -> None:
    pen.circle(x + SIZE / 2, y + SIZE / 2, SIZE / 2 - 0.15 * MM, line=0.3 * MM)
    tick = [(0.27, 0.52), (0.43, 0.34), (0.72, 0.68)]
    pen.path([(x + SIZE * across, y + SIZE * up) for across, up in tick], 0.38 * MM)


def _cross(pen: Pen, x: float, y: float) -> None:
    low, high = 0.29 * SIZE, 0.71 * SIZE
    for rise in ((low, high), (high, low)):
        pen.path([(x + low, y + rise[0]), (x + high, y + rise[1])], 0.42 * MM)


def _not_met(pen: Pen, x: float, y: float) -> None:
    pen.box(x, y, SIZE, SIZE, filled=True)
    with pen.inked(WHITE):
        _cross(pen, x, y)


def _not_met_reversed(pen: Pen, x: float, y: float) -> None:
    with pen.inked(WHITE):
        pen.box(x, y, SIZE, SIZE, filled=True)
    with pen.inked(BLACK):
        _cross(pen, x, y)


def _not_assessed(pen: Pen, x: float, y: float) -> None:
    pen.circle(x + SIZE / 2, y + SIZE / 2, SIZE / 2 - 0.15 * MM, line=0.3 * MM, dash="1.9 1.25")
    size = 6.6
    with pen.artifact():
        wide = fonts.width("?", fonts.STRONG, size)
        pen.words(x + SIZE / 2 - wide / 2, y + SIZE / 2 - size * 0.33, "?", fonts.STRONG, size)


def _accepted(pen: Pen, x: float, y: float) -> None:
    pen.frame(x, y, SIZE, SIZE, 0.25 * MM)
    inset = 0.65 * MM
    pen.frame(x + inset, y + inset, SIZE - 2 * inset, SIZE - 2 * inset, 0.25 * MM)


def _not_applicable(pen: Pen, x: float, y: float) -> None:
    pen.box(x + 0.3 * MM, y + SIZE / 2 - 0.18 * MM, SIZE - 0.6 * MM, 0.36 * MM, filled=True)


_MARKS = {
    "met": _met,
    "not met": _not_met,
    "not assessed": _not_assessed,
    "accepted deviation": _accepted,
    "not applicable": _not_applicable,
}


def status_mark(pen: Pen, status: str, x: float, y: float, *, on_black: bool = False) -> None:
    """The mark of a result, its lower left corner at (x, y)."""
    if on_black and status == "not met":
        _not_met_reversed(pen, x, y)
    else:
        _MARKS[status](pen, x, y)


def numbered(pen: Pen, number: str, x: float, y: float, radius: float) -> None:
    """A white number on a black dot about (x, y)."""
    pen.circle(x, y, radius, filled=True)
    size = radius * 1.75
    wide = fonts.width(number, fonts.HEAVY, size)
    with pen.inked(WHITE):
        pen.words(x - wide / 2, y - size * fonts.CAPITALS / 2, number, fonts.HEAVY, size)


_WIDTHS = {
    **{f"status {status}": SIZE for status in _MARKS},
    **{f"severity {severity}": GRADE_WIDTH for severity in BLOCKS},
    **{f"pattern {pattern.value}": SWATCH[0] for pattern in Pattern},
    "tick": 4.0 * MM,
    "line": 22 * MM,
    "blank": BLANK,
    "break": 0.0,
}


def sign_width(sign: str, size: float) -> float:
    """Width of a sign in a line, the gap behind it included; raises PageFault for one nobody knows."""
    kind, _, what = sign.partition(" ")
    if kind == "boxed":
        return fonts.width(fonts.shown(what), fonts.STRONG, size * 0.92) + 2.1 * MM
    if kind == "dot":
        return size * 1.25
    if sign == "gap":
        return size * 1.1
    if sign not in _WIDTHS:
        raise PageFault(f"there is no sign {sign!r}")
    return _WIDTHS[sign]


def draw_sign(  # noqa: PLR0913, PLR0917 - which, where, how large
    pen: Pen, sign: str, x: float, y: float, size: float, width: float
) -> None:
    """Draw a sign in a line whose baseline is at y."""
    kind, _, what = sign.partition(" ")
    middle = _middle(y, size)
    if kind == "status":
        status_mark(pen, what, x, middle - SIZE / 2)
    elif kind == "severity":
        severity_blocks(pen, what, x, middle - BLOCK_HEIGHT / 2)
    elif kind == "boxed":
        letter, high = fonts.shown(what), size * 0.66 + 1.5 * MM
        pen.frame(x + 0.3 * MM, middle - high / 2, width - 0.6 * MM, high, 0.2 * MM)
        wide = fonts.width(letter, fonts.STRONG, size * 0.92)
        pen.words(x + (width - wide) / 2, y + size * 0.03, letter, fonts.STRONG, size * 0.92)
    elif kind == "dot":
        numbered(pen, fonts.shown(what), x + width / 2, middle, size * 0.575)
    elif sign == "tick":
        pen.frame(x, middle - 2 * MM, 4 * MM, 4 * MM, 0.25 * MM)
    elif kind == "pattern":
        area = (x + 0.2 * MM, middle - SWATCH[1] / 2, SWATCH[0] - 0.4 * MM, SWATCH[1])
        pen.freely(lambda canvas: fill(canvas, Pattern(what), area))
    elif sign == "blank":
        pen.frame(x + 0.3 * MM, middle - size * 0.55, BLANK - 0.6 * MM, size * 1.1, 0.25 * MM)
    elif sign == "line":
        pen.rule(x + 0.5 * MM, y - 0.6 * MM, x + width, y - 0.6 * MM, 0.2 * MM)
