"""Sets the key figures of the outer column."""

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.rendering.blocks import KeyFigures
from dossier.rendering.layout.item import EMPTY, Item, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import HEAD_BELOW, MM
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.setting import Room, Setting, sets, shown_strong
from dossier.rendering.text import strong


@dataclass(slots=True)
class KeyFiguresItem(Item):
    """A title over a rule, and lines of a name and a figure."""

    title: Lines = EMPTY
    rows: Sequence[tuple[Lines, Lines]] = ()
    width: float = 0.0
    pitch: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write title and rows."""
        with pen.element("P"):
            write(pen, self.title, x, top)
        top -= self.title.height + 0.9 * MM
        pen.rule(x, top, x + self.width, top, HEAD_BELOW)
        top -= 1.0 * MM
        for name, figure in self.rows:
            with pen.element("P"):
                write(pen, name, x, top)
                write(pen, figure, x, top, self.width, "right")
            top -= max(name.height, figure.height) + self.pitch


@sets(KeyFigures)
def key_figures(block: KeyFigures, setting: Setting, room: Room) -> list[Item]:
    """A short list of figures."""
    style, width, pitch = setting.scale.table, room.width, 0.35 * MM
    title = setting.fold(strong(block.title), style, width)
    rows = []
    for name, figure in block.rows:
        figure_lines = setting.fold(shown_strong(figure), style, width * 0.7)
        rows.append((setting.fold(name, style, width - figure_lines.width - 2 * MM), figure_lines))
    height = title.height + 1.9 * MM + sum(max(a.height, b.height) + pitch for a, b in rows)
    return [
        KeyFiguresItem(
            height, 4.2 * MM, 4.2 * MM, room.stands, what="the key figures", title=title, rows=rows,
            width=width, pitch=pitch,
        )
    ]  # fmt: skip
