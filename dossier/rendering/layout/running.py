"""Draws the head and foot that every sheet bears, so that a loose sheet still says what it belongs to."""

from collections.abc import Sequence

from dossier.rendering.blocks import Outer
from dossier.rendering.layout.flow import Page
from dossier.rendering.layout.item import write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import LEAF_BINDING, MM, Style
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.setting import Setting
from dossier.rendering.text import Markup, Text, italic, strong, text

SPACE = 5 * MM
LEAST_MIDDLE = 12 * MM
RULE = 0.14 * MM


def shortened(words: Text, style: Style, width: float, setting: Setting) -> Lines:
    """A text on one line, cut with an ellipsis where it is too long."""
    lines = setting.fold(words, style, 1e5)
    if lines.width <= width:
        return lines
    plain = str(words)
    low, high = 0, len(plain)
    while low < high:
        middle = (low + high + 1) // 2
        fits = setting.fold(plain[:middle].rstrip() + "…", style, 1e5).width <= width
        low, high = (middle, high) if fits else (low, middle - 1)
    return setting.fold(plain[:low].rstrip() + "…", style, 1e5)


def _three(
    setting: Setting, lefts: Sequence[Text], middle: Text, rights: Sequence[Text], width: float
) -> tuple[Lines, Lines, Lines]:
    """Left, middle and right of a line: the first forms that fit beside one another."""
    style = setting.scale.running
    for left, right in zip(lefts, rights, strict=True):
        parts = [setting.fold(words, style, 1e5) for words in (left, middle, right)]
        if sum(part.width for part in parts) + 2 * SPACE <= width:
            return parts[0], parts[1], parts[2]
    last = shortened(rights[-1], style, width * 0.4, setting)
    first = shortened(lefts[-1], style, (width - last.width - SPACE) * 0.6, setting)
    free = width - first.width - last.width - 2 * SPACE
    between = middle if free > LEAST_MIDDLE else ""
    return first, shortened(between, style, max(free, LEAST_MIDDLE), setting), last


def _write_three(pen: Pen, parts: tuple[Lines, Lines, Lines], x: float, y: float, width: float) -> None:
    left, middle, right = parts
    top = y + left.style.base
    write(pen, left, x, top)
    write(pen, right, x, top, width, "right")
    low, high = x + left.width + SPACE, x + width - right.width - SPACE - middle.width
    centred = x + (width - middle.width) / 2
    write(pen, middle, min(max(centred, low), high) if low <= high else low, top)


def running_head(pen: Pen, page: Page, setting: Setting) -> None:
    """Boat and title, section, number with revision and status."""
    sheet, imprint = page.sheet, setting.imprint
    setting.sheet = sheet
    width = sheet.width - sheet.left - sheet.right
    number = {"number": imprint.number, "revision": imprint.revision, "status": imprint.status}
    long, short = setting.label("revision", **number), setting.label("revision_short", **number)
    boat = strong(imprint.boat)
    titled = text(boat, "\u00a0\u00a0 ", imprint.title)
    section = page.entry.running if page.entry is not None else ""
    parts = _three(setting, (titled, titled, boat, boat), section, (long, short, long, short), width)
    y = sheet.height - sheet.head
    with pen.artifact():
        _write_three(pen, parts, sheet.left, y, width)
        pen.rule(sheet.left, y - 1.7 * MM, sheet.left + width, y - 1.7 * MM, RULE)


def running_foot(pen: Pen, page: Page, number: int, setting: Setting) -> None:
    """Edition and date, the sentence of the imprint, sheet n of N."""
    sheet, imprint = page.sheet, setting.imprint
    setting.sheet = sheet
    style, width = setting.scale.running, sheet.width - sheet.left - sheet.right
    edition = setting.label("edition", edition=imprint.edition, date=imprint.date or imprint.undated)
    count = setting.label("sheet", sheet=str(number), sheets=str(setting.sheets))
    foot = italic(imprint.foot)
    y = sheet.foot
    parts = [setting.fold(words, style, 1e5) for words in (edition, foot, count)]
    with pen.artifact():
        if sum(part.width for part in parts) + 2 * SPACE > width:
            line = shortened(foot, style, width, setting)
            write(pen, line, sheet.left, y + style.leading + style.base)
            foot = Markup()
        y_rule = y + style.leading if imprint.foot and not foot else y
        _write_three(
            pen, _three(setting, (edition, edition), foot, (count, count), width), sheet.left, y, width
        )
        pen.rule(sheet.left, y_rule + 3.6 * MM, sheet.left + width, y_rule + 3.6 * MM, RULE)


def notes_column(pen: Pen, page: Page, setting: Setting) -> None:
    """The ruled-off column for pencil, beside the text column."""
    sheet = page.sheet
    if sheet.outer is not Outer.NOTES:
        return
    x = sheet.outer_x - 4 * MM
    lines = setting.fold(italic(setting.label("notes")), setting.scale.table, sheet.outer_width)
    for number, (top, bottom) in enumerate(page.beside, 1):
        ends = sheet.bottom + 2 * MM if page.runs_on and number == len(page.beside) else sheet.height - bottom
        with pen.artifact():
            pen.rule(x, sheet.height - top, x, ends, HAIR)
            if sheet.height - top - ends > LEAST_NOTES:
                write(pen, lines, x + 3 * MM, sheet.height - top)


HAIR = 0.2 * MM
LEAST_NOTES = 12 * MM
"""Height from which a stretch for pencil is named."""
HOLES, HOLE = (0.33, 0.67), 2.5 * MM
DOCUMENT_LINE = Style(12, 14)


def leaf_marks(pen: Pen, page: Page, setting: Setting) -> None:
    """Marks of the holes, and at the foot which document the leaf belongs to."""
    sheet, imprint = page.sheet, setting.imprint
    width = sheet.width - sheet.left - sheet.right
    words = text(imprint.number, " · ", imprint.revision, " · ", imprint.boat)
    line = shortened(words, DOCUMENT_LINE, width, setting)
    with pen.artifact():
        for share in HOLES:
            pen.circle(LEAF_BINDING / 2, sheet.height * (1 - share), HOLE, line=0.35, dash="1.6 1.6")
        write(pen, line, sheet.left, sheet.foot + line.height, width, "right")
