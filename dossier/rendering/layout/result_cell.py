"""The cell that bears grade and result of a check, as shapes and words in a border of its own kind."""

from dataclasses import dataclass

from dossier.rendering.layout.item import write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.marks import GRADE_WIDTH, SIZE, severity_blocks, status_mark
from dossier.rendering.layout.measures import FRAME, MM, Style
from dossier.rendering.layout.pen import WHITE, Pen
from dossier.rendering.layout.setting import Setting
from dossier.rendering.text import heavy, italic, strong

CELL_WIDTH, CELL_HEIGHT, CELL_TALL = 25.2 * MM, 9.2 * MM, 12.9 * MM
FLAT_WIDTH, FLAT_HEIGHT, FLAT_GAP = 27.2 * MM, 4.9 * MM, 0.9 * MM
WORD_X = 7.4 * MM
HATCH_WIDTH, HATCH_LINE, HATCH_PITCH = 0.95 * MM, 0.22 * MM, 1.2 * MM


def result_frame(  # noqa: PLR0913, PLR0917 - which, where, how high
    pen: Pen, severity: str, status: str, x: float, bottom: float, height: float
) -> None:
    """The border of a result cell: its shape tells the result on a copy without colour or grey."""
    wide = CELL_WIDTH
    if status == "not met" and severity == "danger":
        pen.box(x, bottom, wide, height, filled=True)
    elif status == "not met":
        pen.frame(x, bottom, wide, height, FRAME)
    elif status == "not assessed":
        _hatched(pen, x, bottom, wide, height)
    elif status == "accepted deviation":
        pen.frame(x, bottom, wide, height, 0.2 * MM)
        inset = 0.8 * MM
        pen.frame(x + inset, bottom + inset, wide - 2 * inset, height - 2 * inset, 0.2 * MM)
    elif status == "met":
        pen.frame(x, bottom, wide, height, 0.2 * MM)


def _hatched(pen: Pen, x: float, bottom: float, wide: float, height: float) -> None:
    """A frame of slanting lines between two thin ones."""
    b = HATCH_WIDTH
    inner = (x + b, bottom + b, wide - 2 * b, height - 2 * b)
    outline = (
        f"{x:.2f} {bottom:.2f} {wide:.2f} {height:.2f} re " + " ".join(f"{s:.2f}" for s in inner) + " re"
    )
    with pen.clipped(outline):
        at = x - height
        while at < x + wide:
            pen.rule(at, bottom, at + height, bottom + height, HATCH_LINE)
            at += HATCH_PITCH * 1.15
    pen.frame(x, bottom, wide, height, HATCH_LINE)
    pen.box(*inner, line=HATCH_LINE)


@dataclass(slots=True)
class ResultCell:
    """Grade and result of one check in its border."""

    severity: str
    status: str
    grade: Lines
    result: Lines

    @property
    def _low(self) -> bool:
        return len(self.result.lines) <= 1

    @property
    def height(self) -> float:
        """9.2 mm; more where the result takes two lines."""
        return CELL_HEIGHT if self._low else CELL_TALL

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw border, blocks, mark and words."""
        black = self.severity == "danger" and self.status == "not met"
        result_frame(pen, self.severity, self.status, x, top - self.height, self.height)
        first = top - 1.0 * MM if self._low else top - 1.2 * MM
        if black:
            with pen.inked(WHITE):
                self._write(pen, x, first, on_black=True)
        else:
            self._write(pen, x, first, on_black=False)

    def _write(self, pen: Pen, x: float, top: float, *, on_black: bool) -> None:
        leading = self.grade.style.leading
        middle = top - leading / 2
        severity_blocks(pen, self.severity, x + 1.35 * MM, middle - 0.95 * MM)
        left = x + 1.35 * MM + (GRADE_WIDTH - SIZE) / 2 + 0.2 * MM
        write(pen, self.grade, x + WORD_X, top)
        write(pen, self.result, x + WORD_X, top - leading)
        status_mark(pen, self.status, left, middle - leading - SIZE / 2, on_black=on_black)


@dataclass(slots=True)
class FlatCell(ResultCell):
    """The same in one line, for what is met."""

    @property
    def height(self) -> float:
        """4.9 mm."""
        return FLAT_HEIGHT

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw border, blocks, grade, mark, result."""
        pen.frame(x, top - FLAT_HEIGHT, FLAT_WIDTH, FLAT_HEIGHT, 0.2 * MM)
        first = top - (FLAT_HEIGHT - self.grade.style.leading) / 2
        middle = top - FLAT_HEIGHT / 2
        severity_blocks(pen, self.severity, x + FLAT_GAP, middle - 0.95 * MM)
        left = x + 2 * FLAT_GAP + GRADE_WIDTH
        write(pen, self.grade, left, first)
        mark = x + FLAT_WIDTH - 1.5 * FLAT_GAP - self.result.width - SIZE
        status_mark(pen, self.status, mark, middle - SIZE / 2, on_black=False)
        write(pen, self.result, mark + SIZE + 0.5 * FLAT_GAP, first)


def flat_cell(setting: Setting, severity: str, status: str) -> ResultCell:
    """A cell of one line where the words leave room for it, else one of two."""
    severity, status = str.__str__(severity), str.__str__(status)
    grade, result = (
        setting.fold(strong(setting.said(said)), setting.scale.small, FLAT_WIDTH)
        for said in (severity, status)
    )
    if GRADE_WIDTH + grade.width + SIZE + result.width + 5 * FLAT_GAP > FLAT_WIDTH:
        return result_cell(setting, severity, status)
    return FlatCell(severity, status, grade, result)


def result_cell(setting: Setting, severity: str, status: str) -> ResultCell:
    """The cell of a check's grade and result."""
    severity, status = str.__str__(severity), str.__str__(status)
    style = Style(setting.scale.table.size, 3.7 * MM)
    black = severity == "danger" and status == "not met"
    face = italic if status == "not assessed" else heavy if black else strong
    width = CELL_WIDTH - WORD_X - 0.6 * MM
    return ResultCell(
        severity,
        status,
        setting.fold(face(setting.said(severity)), style, width),
        setting.fold(face(setting.said(status)), style, width),
    )
