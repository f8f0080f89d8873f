"""Figures, the outer column, and figure and table side by side."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Protocol, runtime_checkable

from dossier.rendering.blocks.tables import Span
from dossier.rendering.text import Text

if TYPE_CHECKING:
    from dossier.rendering.blocks import Block


@runtime_checkable
class Drawable(Protocol):
    """Anything that can be drawn at its own size: a drawing, a curve, a picture. Lengths in points."""

    @property
    def width(self) -> float:
        """Width in points."""

    @property
    def height(self) -> float:
        """Height in points."""

    def draw(self, canvas: Any, x: float, y: float) -> None:
        """Draw on a reportlab canvas, the lower left corner at (x, y)."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing with its caption above; never scaled. ``alt`` tells in words what it shows."""

    drawing: Drawable
    caption: Text
    alt: str
    key: str = ""
    span: Span | None = None
    notes: Text = ""


@dataclass(frozen=True, slots=True)
class Side:
    """Blocks in the outer column, beside what follows; on A5 they stand in the text."""

    blocks: "Sequence[Block]"


@dataclass(frozen=True, slots=True)
class Pair:
    """Two stacks of blocks side by side over both columns; ``left`` takes ``left_width`` millimetres.

    Without ``left_width`` they share the width equally; a sheet too narrow for both sets them one below the
    other.
    """

    left: "Sequence[Block]"
    right: "Sequence[Block]"
    left_width: float | None = None
