"""Where a number comes from: a line of the project file, a row of a table, or a working."""

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Any, TypeAlias

if TYPE_CHECKING:
    from dossier.notation.working import Working


class Basis(str, Enum):
    """What a value read from the project file rests on, strongest first."""

    MEASURED = "measured"
    PLATE = "plate"
    DRAWING = "drawing"
    ASSUMED = "assumed"

    @property
    def weakness(self) -> int:
        """Rank of the basis: the larger, the weaker."""
        return _WEAKNESS[self]

    def __str__(self) -> str:
        return self.value


_WEAKNESS = {basis: rank for rank, basis in enumerate(Basis)}


@dataclass(frozen=True, slots=True)
class Line:
    """A value as the user wrote it, and where.

    ``key`` is the path in the file (``zones.saloon.sections.Deck.area``). ``line`` is None where the file is
    silent and a row of the table of assumptions stands in; ``row`` then names that row and ``source`` its
    source. ``spread`` gives the ends within which the value may lie, in the value's own SI unit.
    """

    key: str
    text: str
    basis: Basis = Basis.ASSUMED
    file: str = ""
    line: int | None = None
    column: int | None = None
    spread: tuple[float, float] | None = None
    note: str = ""
    source: str = ""
    row: str = ""

    def __hash__(self) -> int:
        """By the key alone, which tells nearly all apart: lines are looked up by the hundred thousand."""
        return hash(self.key)


@dataclass(frozen=True, slots=True)
class Row:
    """A value out of one of the package's own tables."""

    table: str
    row: str
    source: str


Origin: TypeAlias = "Line | Row | Working"


class Traced(float):
    """A float that remembers where it comes from.

    Plain arithmetic gives a plain float again: only formulas carry the origin on, so a result without one
    shows that somebody calculated outside them.
    """

    __slots__ = ("origin",)
    origin: Origin

    def __new__(cls, number: float, origin: Origin) -> "Traced":  # noqa: PYI034 - Self needs Python 3.11
        """Make a float with an origin."""
        traced = super().__new__(cls, number)
        traced.origin = origin
        return traced

    def __reduce__(self) -> tuple[Any, ...]:
        return (Traced, (float(self), self.origin))


def origin_of(number: object) -> "Origin | None":
    """Origin of a number, None where it has none."""
    return number.origin if isinstance(number, Traced) else None
