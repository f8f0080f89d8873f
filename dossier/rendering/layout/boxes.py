"""Draws the boxes that people write in."""

from dossier.rendering import fonts
from dossier.rendering.blocks import Blank
from dossier.rendering.layout.measures import FRAME, MM, Style
from dossier.rendering.layout.pen import Pen

BOX_HEIGHT = 8.0 * MM
BOX_GAP = 0.6 * MM
"""Between a box and the rows above and below it."""
LEAST = 6.5  # points, of the small line in a box


def write_blank(  # noqa: PLR0913, PLR0917 - which, where, how large
    pen: Pen, blank: Blank, x: float, top: float, width: float, small: Style
) -> None:
    """Draw an empty box, its unit at the lower right, what is known already at the left."""
    pen.frame(x, top - BOX_HEIGHT, width, BOX_HEIGHT, FRAME if blank.marked else 0.25 * MM)
    unit = fonts.cut(fonts.shown(blank.unit), fonts.REGULAR, small.size, width / 2)
    wide = fonts.width(unit, fonts.REGULAR, small.size)
    pen.words(x + width - wide - 1.2 * MM, top - BOX_HEIGHT + 1.9 * MM, unit, fonts.REGULAR, small.size)
    size = small.size * 1.15
    entered = fonts.cut(fonts.shown(blank.entered), fonts.STRONG, size, width - wide - 4 * MM)
    lift = 1.4 * MM if blank.below else 0.0
    pen.words(x + 1.4 * MM, top - BOX_HEIGHT / 2 - size * 0.33 + lift, entered, fonts.STRONG, size)
    if blank.below:
        below = fonts.cut(fonts.shown(blank.below), fonts.REGULAR, LEAST, width - 2.4 * MM)
        pen.words(x + 1.4 * MM, top - BOX_HEIGHT + 1.3 * MM, below, fonts.REGULAR, LEAST)
    if not blank.entered:
        pen.field(blank.field, (x, top - BOX_HEIGHT, width - wide - 2 * MM, BOX_HEIGHT), unit=blank.unit)
