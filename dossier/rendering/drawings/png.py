"""Shapes as a picture of dots, drawn by the plotting library's rasteriser with our own faces."""

import io
from typing import Any

from dossier.rendering.drawings.dashes import is_straight, runs
from dossier.rendering.drawings.lettering import FACES, POINT, printed
from dossier.rendering.drawings.shapes import WHITE, Drawing, Path, Text
from dossier.rendering.fonts import FILES, FOLDER

RESOLUTION = 200
"""Dots in an inch."""
LARGEST = 6000
"""Dots along a side; larger drawings get fewer to the inch."""


def png(drawing: Drawing, resolution: int = RESOLUTION) -> bytes:
    """The picture, on white; the same drawing gives the same bytes with the same libraries."""
    from matplotlib.figure import Figure  # noqa: PLC0415 - half a second that only a picture should cost

    dots = min(resolution, int(LARGEST * 72 / max(drawing.width, drawing.height)))
    figure = Figure(figsize=(drawing.width / 72, drawing.height / 72), dpi=dots, facecolor="white")
    axes = figure.add_axes((0, 0, 1, 1))
    across, up = drawing.size
    axes.set_xlim(0, across)
    axes.set_ylim(0, up)
    axes.set_axis_off()
    for order, part in enumerate(drawing.parts()):
        if isinstance(part, Text):
            _letter(axes, part, order)
        else:
            _outline(axes, part, order)
    made = io.BytesIO()
    figure.savefig(made, format="png", dpi=dots, metadata={"Software": None})
    return made.getvalue()


def _letter(axes: Any, text: Text, order: int) -> None:
    from matplotlib.font_manager import FontProperties  # noqa: PLC0415 - as above
    from matplotlib.patches import Rectangle  # noqa: PLC0415 - as above

    if text.ground:
        box = text.box.grown(0.5)
        axes.add_patch(
            Rectangle((box.left, box.bottom), box.width, box.height, fc=f"#{WHITE}", ec="none", zorder=order)
        )
    face = FontProperties(fname=str(FOLDER / FILES[FACES[text.weight]]), size=text.size)
    axes.text(
        text.left, text.y, printed(text.text), fontproperties=face, va="baseline", ha="left",
        color=f"#{text.ink}", zorder=order, parse_math=False,
    )  # fmt: skip


def _outline(axes: Any, path: Path, order: int) -> None:
    from matplotlib.lines import Line2D  # noqa: PLC0415 - as above
    from matplotlib.patches import PathPatch  # noqa: PLC0415 - as above
    from matplotlib.path import Path as Outline  # noqa: PLC0415 - as above

    pen = path.pen
    dashed = pen is not None and bool(pen.dashes) and is_straight(path)
    look: dict[str, Any] = {
        "fc": f"#{path.fill}" if path.fill else "none",
        "zorder": order,
        "capstyle": "butt",
    }
    if pen is None or dashed:
        look |= {"ec": "none", "lw": 0}
    else:
        look |= {"ec": f"#{pen.ink}", "lw": pen.width / POINT, "ls": _dashes(pen.dashes, pen.width)}
    if path.fill or not dashed:
        codes = {
            "M": [Outline.MOVETO],
            "L": [Outline.LINETO],
            "C": [Outline.CURVE4] * 3,
            "Z": [Outline.CLOSEPOLY],
        }
        marks = [code for mark, _ in path.steps for code in codes[mark]]
        points = [point for _, ends in path.steps for point in (ends or ((0.0, 0.0),))]
        axes.add_patch(PathPatch(Outline(points, marks), **look))
    if pen is not None and dashed:
        for (x0, y0), (x1, y1), dashes in runs(path, pen):
            axes.add_line(
                Line2D([x0, x1], [y0, y1], lw=pen.width / POINT, color=f"#{pen.ink}", zorder=order,
                       ls=_dashes(dashes, pen.width), dash_capstyle="butt", solid_capstyle="butt")
            )  # fmt: skip


def _dashes(dashes: tuple[float, ...], width: float) -> Any:
    """Dash lengths as the library wants them: in widths of the line."""
    return (0, tuple(length / width for length in dashes)) if dashes else "solid"
