"""Shapes drawn on a reportlab canvas: text stays text in the embedded face."""

from typing import Any

from dossier.rendering.drawings.dashes import is_straight, runs
from dossier.rendering.drawings.lettering import POINT, face, printed
from dossier.rendering.drawings.shapes import WHITE, Drawing, Path, Pen, Text


def paint(drawing: Drawing, canvas: Any, corner: tuple[float, float]) -> None:
    """Draw everything with the lower left corner at ``corner`` (points)."""
    canvas.saveState()
    canvas.translate(*corner)
    canvas.setLineCap(0)
    canvas.setLineJoin(0)
    for part in drawing.parts():
        if isinstance(part, Text):
            _letter(part, canvas)
        else:
            _outline(part, canvas)
    canvas.restoreState()


def _ink(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[n : n + 2], 16) / 255 for n in (0, 2, 4))
    return red, green, blue


def _letter(text: Text, canvas: Any) -> None:
    if text.ground:
        box = text.box.grown(0.5)
        canvas.setFillColorRGB(*_ink(WHITE))
        sides = (box.left, box.bottom, box.width, box.height)
        canvas.rect(*(side / POINT for side in sides), stroke=0, fill=1)
    canvas.setFillColorRGB(*_ink(text.ink))
    canvas.setFont(face(text.weight), text.size)
    canvas.drawString(text.left / POINT, text.y / POINT, printed(text.text))


def _outline(path: Path, canvas: Any) -> None:
    pen = path.pen
    if pen:
        canvas.setLineWidth(pen.width / POINT)
        canvas.setStrokeColorRGB(*_ink(pen.ink))
    if path.fill:
        canvas.setFillColorRGB(*_ink(path.fill))
    if pen and pen.dashes and is_straight(path):
        if path.fill:
            _trace(path, canvas, None)
        _dashed(path, pen, canvas)
        return
    if pen:
        canvas.setDash([d / POINT for d in pen.dashes])
    _trace(path, canvas, pen)


def _trace(path: Path, canvas: Any, pen: Pen | None) -> None:
    outline = canvas.beginPath()
    for mark, points in path.steps:
        numbers = [n / POINT for p in points for n in p]
        {"M": outline.moveTo, "L": outline.lineTo, "C": outline.curveTo, "Z": outline.close}[mark](*numbers)
    canvas.drawPath(outline, stroke=int(pen is not None), fill=int(path.fill is not None))


def _dashed(path: Path, pen: Pen, canvas: Any) -> None:
    for (x0, y0), (x1, y1), dashes in runs(path, pen):
        canvas.setDash([d / POINT for d in dashes])
        canvas.line(x0 / POINT, y0 / POINT, x1 / POINT, y1 / POINT)
    canvas.setDash([])
