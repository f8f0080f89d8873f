"""Names of spaces, each within its own, clear of the smaller spaces that lie over it."""

from collections.abc import Sequence

from dossier.rendering.drawings.callouts import Board, set_within
from dossier.rendering.drawings.lettering import SMALL, folded
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Shape

INSET = 1.0
NARROWEST = 8.0  # to which a name is folded


def space_names(names: Sequence[str], boxes: Sequence[Box], board: Board) -> list[Shape]:
    """Every name that finds room in what is seen of its space."""
    shapes: list[Shape] = []
    for name, box in zip(names, boxes, strict=True):
        frame = board.frame
        shown = Box(
            max(box.left, frame.left),
            max(box.bottom, frame.bottom),
            min(box.right, frame.right),
            min(box.top, frame.top),
        )
        lines = folded(name, max(shown.width - 4.0, NARROWEST), SMALL)
        smaller = [other for other in boxes if other is not box and _size(other) < _size(box)]
        shapes += set_within(lines, shown.grown(-INSET), board, smaller)
    return shapes


def _size(box: Box) -> float:
    return box.width * box.height
