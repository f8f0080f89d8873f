"""Shapes written as SVG, in millimetres, with text as text."""

from xml.sax.saxutils import escape, quoteattr

from dossier.rendering.drawings.dashes import is_straight, runs
from dossier.rendering.drawings.lettering import BOLD, ITALIC, POINT, REGULAR, SEMIBOLD, printed
from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.shapes import WHITE, Drawing, Path, Pen, Text

FAMILY = "Source Sans 3"
WEIGHTS = {REGULAR: "400", SEMIBOLD: "600", BOLD: "700", ITALIC: "400"}


def svg(drawing: Drawing) -> str:
    """The whole document; the same drawing always gives the same text."""
    across, up = drawing.size
    rows = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(across)}mm" height="{_n(up)}mm" '
            f'viewBox="0 0 {_n(across)} {_n(up)}" font-family={quoteattr(FAMILY)}>'
        ),
    ]
    if drawing.title:
        rows.append(f"<title>{escape(drawing.title)}</title>")
    for part in drawing.parts():
        rows += _letter(part, up) if isinstance(part, Text) else _outline(part, up)
    return "\n".join([*rows, "</svg>", ""])


def _n(number: float) -> str:
    text = f"{number:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _letter(text: Text, up: float) -> list[str]:
    rows = []
    if text.ground:
        box = text.box.grown(0.5)
        rows.append(
            f'<rect x="{_n(box.left)}" y="{_n(up - box.top)}" width="{_n(box.width)}" '
            f'height="{_n(box.height)}" fill="#{WHITE}"/>'
        )
    slant = ' font-style="italic"' if text.weight == ITALIC else ""
    ink = f' fill="#{text.ink}"' if text.ink != "000000" else ""
    rows.append(
        f'<text x="{_n(text.x)}" y="{_n(up - text.y)}" font-size="{_n(text.size * POINT)}" '
        f'font-weight="{WEIGHTS[text.weight]}"{slant} text-anchor="{text.anchor}"{ink}>'
        f"{escape(printed(text.text))}</text>"
    )
    return rows


def _outline(path: Path, up: float) -> list[str]:
    pen, fill = path.pen, f"#{path.fill}" if path.fill else "none"
    if pen and pen.dashes and is_straight(path):
        rows = [f'<path d="{_route(path, up)}" fill="{fill}"/>'] if path.fill else []
        return rows + [_dashed(run, pen, up) for run in runs(path, pen)]
    stroke = _stroke(pen, pen.dashes) if pen else ""
    return [f'<path d="{_route(path, up)}" fill="{fill}"{stroke}/>']


def _dashed(run: tuple[Point, Point, tuple[float, ...]], pen: Pen, up: float) -> str:
    (x0, y0), (x1, y1), dashes = run
    return f'<line x1="{_n(x0)}" y1="{_n(up - y0)}" x2="{_n(x1)}" y2="{_n(up - y1)}"{_stroke(pen, dashes)}/>'


def _stroke(pen: Pen, dashes: tuple[float, ...]) -> str:
    pattern = f' stroke-dasharray="{" ".join(_n(d) for d in dashes)}"' if dashes else ""
    return f' stroke="#{pen.ink}" stroke-width="{_n(pen.width)}"{pattern}'


def _route(path: Path, up: float) -> str:
    return " ".join(
        mark + " ".join(f"{_n(x)} {_n(up - y)}" for x, y in points) for mark, points in path.steps
    )
