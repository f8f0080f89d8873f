"""Shapes as a DXF drawing (R2010), in millimetres, for a drawing office.

Circles, arcs and lettering stay what they are; line kinds are layers with their width and pattern. The
library that writes it is an optional extra of the package.
"""

import io
from collections.abc import Callable, Iterable, Mapping
from importlib import import_module
from typing import Any

from dossier.notation import DossierError
from dossier.rendering.drawings import pens
from dossier.rendering.drawings.lettering import BOLD, POINT, SEMIBOLD, printed
from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.shapes import (
    WHITE,
    Arc,
    Circle,
    Drawing,
    Group,
    Line,
    Path,
    Pen,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)

MILLIMETRES = 4
CAPITALS = 0.66
"""Height of capitals, of the size of the lettering."""
LINEWEIGHTS = (13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100)
"""Widths a DXF line may have, in hundredths of a millimetre."""
PIECES = 8
"""Straight pieces that stand for a curve that is no arc."""
LETTERING = "LETTERING"
NAMES = {
    pen: name for name, pen in vars(pens).items() if isinstance(pen, Pen) and name not in {"WIDE", "OUTLINE"}
} | {pens.OUTLINE: "OUTLINE"}
"""Line kinds by what they are called; layers bear these names."""


def dxf(drawing: Drawing) -> str:
    """The whole document; the same drawing always gives the same text with the same library.

    Raises DossierError where the library is not installed.
    """
    try:
        ezdxf: Any = import_module("ezdxf")
    except ImportError:
        raise DossierError(
            "DXF needs the package ezdxf, which is not installed: pip install 'boat-heating-dossier[dxf]'"
        ) from None
    fixed = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock and no random mark in the file
    try:
        document = ezdxf.new("R2010", units=MILLIMETRES)
        _Plotter(document).plot(drawing)
        written = io.StringIO()
        document.write(written)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = fixed
    return written.getvalue()


class _Plotter:
    """Puts shapes into the model space."""

    def __init__(self, document: Any) -> None:
        self.document, self.space = document, document.modelspace()
        for style, file in (("DOSSIER", "SourceSans3-Regular.ttf"), ("DOSSIER_BOLD", "SourceSans3-Bold.ttf")):
            document.styles.add(style, font=file)
        document.layers.add(LETTERING)

    def plot(self, drawing: Drawing) -> None:
        """All shapes, and the sheet as the extents."""
        for shape in drawing.shapes:
            self.add(shape)
        across, up = drawing.size
        self.document.header["$EXTMIN"] = (0, 0, 0)
        self.document.header["$EXTMAX"] = (across, up, 0)
        self.document.header["$LIMMAX"] = (across, up)

    def add(self, shape: Shape) -> None:
        """One shape as what it is, where the format knows it; else its outline."""
        known: Mapping[type, Callable[[Any], None]] = {
            Group: self._group,
            Text: self._letter,
            Circle: self._circle,
            Arc: self._arc,
            Line: self._line,
            Polyline: self._straight,
            Polygon: self._straight,
            Rect: self._straight,
            Path: self._outline,
        }
        known.get(type(shape), self._parts)(shape)

    def _group(self, group: Group) -> None:
        for shape in group.shapes:
            self.add(shape)

    def _parts(self, shape: Shape) -> None:
        for part in shape.parts():
            self.add(part)

    def _circle(self, circle: Circle) -> None:
        if circle.fill:
            self._area([ring for part in circle.parts() for ring in self._rings(part)], circle.fill)
        if circle.pen:
            self.space.add_circle((circle.x, circle.y), circle.radius, self._look(circle.pen))

    def _arc(self, arc: Arc) -> None:
        if arc.pen:
            ends = sorted((arc.start, arc.start + arc.extent))
            self.space.add_arc((arc.x, arc.y), arc.radius, *ends, dxfattribs=self._look(arc.pen))

    def _line(self, line: Line) -> None:
        self.space.add_line(line.start, line.end, self._look(line.pen))

    def _straight(self, shape: Polyline | Polygon | Rect) -> None:
        if shape.pen and shape.pen.double:
            self._parts(shape)
            return
        points = shape.corners if isinstance(shape, Rect) else shape.points
        closed = not isinstance(shape, Polyline)
        fill = None if isinstance(shape, Polyline) else shape.fill
        if fill:
            self._area([list(points)], fill)
        if shape.pen:
            self.space.add_lwpolyline(points, close=closed, dxfattribs=self._look(shape.pen))

    def _outline(self, path: Path) -> None:
        if path.fill:
            self._area(self._rings(path), path.fill)
        if path.pen:
            for ring in self._rings(path):
                self.space.add_lwpolyline(ring, dxfattribs=self._look(path.pen))

    def _rings(self, path: Any) -> list[list[Point]]:
        """Stretches of an outline without a break."""
        rings: list[list[Point]] = []
        for mark, points in path.steps:
            if mark == "M":
                rings.append([points[0]])
            elif mark == "L":
                rings[-1].append(points[0])
            elif mark == "C":
                rings[-1] += _bent(rings[-1][-1], *points)
            else:
                rings[-1].append(rings[-1][0])
        return [ring for ring in rings if len(ring) > 1]

    def _area(self, rings: Iterable[list[Point]], ink: str) -> None:
        """A filled area; white ones only cover what lies under them in print, and are left out."""
        if ink != WHITE:
            hatch = self.space.add_hatch(dxfattribs={"layer": "0", "true_color": int(ink, 16)})
            for ring in rings:
                hatch.paths.add_polyline_path(ring, is_closed=True)

    def _letter(self, text: Text) -> None:
        align: Any = import_module("ezdxf.enums").TextEntityAlignment
        words = _plain(printed(text.text))
        if not words.strip():
            return
        style = "DOSSIER_BOLD" if text.weight in {BOLD, SEMIBOLD} else "DOSSIER"
        letters = self.space.add_text(
            words,
            height=CAPITALS * text.size * POINT,
            dxfattribs={"layer": LETTERING, "style": style, "true_color": int(text.ink, 16)},
        )
        places = {"start": align.LEFT, "middle": align.CENTER, "end": align.RIGHT}
        letters.set_placement((text.x, text.y), align=places[text.anchor])

    def _look(self, pen: Pen) -> dict[str, Any]:
        """Layer, colour, width and pattern of a line kind; each is declared once."""
        name = NAMES.get(pen, f"WIDTH_{round(pen.width * 100):03d}" + ("_DASHED" if pen.dashes else ""))
        weight = min(LINEWEIGHTS, key=lambda known: abs(known - pen.width * 100))
        if name not in self.document.layers:
            self.document.layers.add(name, lineweight=weight, linetype=self._pattern(name, pen))
        return {"layer": name, "true_color": int(pen.ink, 16), "lineweight": weight}

    def _pattern(self, name: str, pen: Pen) -> str:
        if not pen.dashes:
            return "CONTINUOUS"
        lengths = [length if place % 2 == 0 else -length for place, length in enumerate(pen.dashes)]
        self.document.linetypes.add(name, pattern=[sum(pen.dashes), *lengths], description=name.lower())
        return name


def _bent(start: Point, first: Point, second: Point, end: Point) -> list[Point]:
    """Straight pieces along a cubic curve."""
    if first == start and second == end:
        return [end]
    found = []
    for step in range(1, PIECES + 1):
        t = step / PIECES
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
        both = (start, first, second, end)
        found.append(
            (
                sum(w * p[0] for w, p in zip(weights, both, strict=True)),
                sum(w * p[1] for w, p in zip(weights, both, strict=True)),
            )
        )
    return found


def _plain(words: str) -> str:
    """Words in which nothing is a command of the format: no control codes, no line breaks."""
    return " ".join(words.split()).replace("%%", "% %").replace("^", "ˆ")
