"""Curves: matplotlib lays them out, our own renderer draws them, so that their words stay words.

matplotlib is imported when the first curve is drawn, and no earlier. The user's own settings of it are left
aside: the same document looks the same everywhere.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from typing import Any

from dossier.rendering import fonts
from dossier.rendering.layout.measures import MM

SETTINGS: dict[str, Any] = {
    "axes.linewidth": 0.7,
    "axes.labelsize": 8,
    "axes.grid": False,
    "axes.unicode_minus": True,
    "font.size": 8,
    "grid.color": "0.72",
    "grid.linewidth": 0.4,
    "legend.fontsize": 8,
    "lines.linewidth": 1.2,
    "lines.dash_capstyle": "butt",
    "path.simplify": True,
    "text.parse_math": False,
    "xtick.labelsize": 8,
    "ytick.labelsize": 8,
    "xtick.major.width": 0.6,
    "ytick.major.width": 0.6,
    "xtick.major.size": 2.5,
    "ytick.major.size": 0,
}


@contextmanager
def plain_settings() -> Iterator[None]:
    """The library's own defaults with ours over them, put back afterwards."""
    import matplotlib as mpl  # noqa: PLC0415 - half a second that only a curve should cost

    with mpl.rc_context():
        mpl.rcdefaults()
        settings: Any = mpl.rcParams
        settings.update(SETTINGS)
        yield


@dataclass(frozen=True, slots=True)
class Curve:
    """A drawing made by a function that plots on a matplotlib ``Figure`` of this size, in millimetres."""

    width_mm: float
    height_mm: float
    plot: Callable[[Any], None]

    @property
    def width(self) -> float:
        """Width in points."""
        return self.width_mm * MM

    @property
    def height(self) -> float:
        """Height in points."""
        return self.height_mm * MM

    def draw(self, canvas: Any, x: float, y: float) -> None:
        """Plot and draw with the lower left corner at (x, y)."""
        from matplotlib.figure import Figure  # noqa: PLC0415 - as above

        with plain_settings():
            figure = Figure(figsize=(self.width / 72, self.height / 72), dpi=72)
            figure.patch.set_visible(False)
            self.plot(figure)
            canvas.saveState()
            canvas.translate(x, y)
            figure.draw(_renderer()(canvas, self.width, self.height))
            canvas.restoreState()


SEMIBOLD = 600  # weight from which the semibold cut stands for matplotlib's


def font_of(weight: object, style: object) -> str:
    """Our font for what matplotlib asks."""
    heavy = weight in {"bold", "semibold", "heavy", "demibold"} or (
        isinstance(weight, int) and weight >= SEMIBOLD
    )
    return fonts.STRONG if heavy else fonts.ITALIC if style in {"italic", "oblique"} else fonts.REGULAR


CAPS = {"butt": 0, "round": 1, "projecting": 2}
JOINS = {"miter": 0, "round": 1, "bevel": 2}


def _set_line(canvas: Any, gc: Any) -> bool:
    """Set line and clipping; tells whether a line is to be drawn."""
    width = gc.get_linewidth()
    canvas.setStrokeColorRGB(*gc.get_rgb()[:3])
    canvas.setLineWidth(width)
    canvas.setLineCap(CAPS[str(gc.get_capstyle())])
    canvas.setLineJoin(JOINS[str(gc.get_joinstyle())])
    offset, dashes = gc.get_dashes()
    canvas.setDash(*((list(map(float, dashes)), float(offset)) if dashes is not None else ([], 0)))
    area = gc.get_clip_rectangle()
    if area is not None:
        path = canvas.beginPath()
        path.rect(area.x0, area.y0, area.width, area.height)
        canvas.clipPath(path, stroke=0, fill=0)
    return bool(width) and gc.get_alpha() != 0


def _trace(drawn: Any, segments: Iterator[tuple[Any, int]]) -> None:
    """Copy a path; a quadratic curve becomes the same cubic one."""
    from matplotlib.path import Path  # noqa: PLC0415 - as above

    here = (0.0, 0.0)
    for points, code in segments:
        p = [float(length) for length in points]
        if code == Path.MOVETO:
            drawn.moveTo(*p)
        elif code == Path.LINETO:
            drawn.lineTo(*p)
        elif code == Path.CURVE3:
            (x0, y0), (x1, y1, x2, y2) = here, p
            first, second = (
                (x0 + 2 * (x1 - x0) / 3, y0 + 2 * (y1 - y0) / 3),
                (x2 + 2 * (x1 - x2) / 3, y2 + 2 * (y1 - y2) / 3),
            )
            drawn.curveTo(*first, *second, x2, y2)
        elif code == Path.CURVE4:
            drawn.curveTo(*p)
        else:
            drawn.close()
            continue
        here = (p[-2], p[-1])


def _seen(face: Any) -> bool:
    """Whether an area is filled at all."""
    return face is not None and not (len(face) > len("rgb") and face[3] == 0)


@cache
def _renderer() -> Any:  # noqa: C901 - one class with the library's methods, each short
    """The class of the renderer; made late, since its base is matplotlib's."""
    from matplotlib.backend_bases import RendererBase  # noqa: PLC0415 - as above

    class CanvasRenderer(RendererBase):
        """Draws matplotlib's figure on a reportlab canvas, text as text."""

        def __init__(self, canvas: Any, width: float, height: float) -> None:
            super().__init__()
            self.canvas, self.size = canvas, (width, height)

        def get_canvas_width_height(self) -> tuple[float, float]:
            return self.size

        def flipy(self) -> bool:
            return False

        def points_to_pixels(self, points: Any) -> Any:
            return points

        def get_text_width_height_descent(self, s: str, prop: Any, ismath: Any) -> tuple[float, float, float]:
            del ismath
            size = prop.get_size_in_points()
            wide = fonts.width(fonts.shown(s), font_of(prop.get_weight(), prop.get_style()), size)
            return wide, size * 0.93, size * fonts.DESCENT

        def draw_text(self, gc: Any, x: float, y: float, s: str, *rest: Any, **kept: Any) -> None:
            del kept
            prop, angle = rest[0], rest[1]
            canvas = self.canvas
            canvas.saveState()
            canvas.setFillColorRGB(*gc.get_rgb()[:3])
            canvas.translate(x, y)
            if angle:
                canvas.rotate(angle)
            canvas.setFont(font_of(prop.get_weight(), prop.get_style()), prop.get_size_in_points())
            canvas.drawString(0, 0, fonts.shown(s))
            canvas.restoreState()

        def draw_path(self, gc: Any, path: Any, transform: Any, rgbFace: Any = None) -> None:  # noqa: N803 - the library's name
            canvas, filled = self.canvas, _seen(rgbFace)
            canvas.saveState()
            stroked = _set_line(canvas, gc)
            if filled:
                canvas.setFillColorRGB(*rgbFace[:3])
            drawn = canvas.beginPath()
            clip = None if filled else (0, 0, *self.size)
            _trace(drawn, path.iter_segments(transform, remove_nans=True, clip=clip, simplify=not filled))
            if stroked or filled:
                canvas.drawPath(drawn, stroke=int(stroked), fill=int(filled))
            canvas.restoreState()

        def draw_image(self, *rest: Any, **kept: Any) -> None:
            raise NotImplementedError("curves hold no pictures")

    return CanvasRenderer
