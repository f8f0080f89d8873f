"""Everything that can go wrong and is not our own bug.

    DossierError
    ├── ProjectFaults   the file or files say something that cannot be used; all of it is told at once
    ├── OutOfRange      a number left the range in which a formula or table means something
    ├── NotConverged    a solver found no answer it can prove
    └── PageFault       a page cannot be set: a glyph is missing, a cross reference leads nowhere

Commands print these and end with status 2. Anything else is a bug and shows its traceback.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dossier.notation.origin import Line
    from dossier.notation.quantity import Quantity
    from dossier.notation.source import Source


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong: where it stands, what is wrong, and what would be right.

    ``rank`` orders the telling: the lower, the earlier a person should mend it (0 the file cannot be read,
    1 an unknown key, 2 a value that cannot be read, 3 a value out of its range, 4 a reference that leads
    nowhere, 5 a thing the calculation misses). ``line`` and ``column`` count from 1; 0 means no place in it.
    """

    what: str
    instead: str = ""
    file: str = ""
    line: int = 0
    column: int = 0
    rank: int = 5
    of: str = ""

    def __str__(self) -> str:
        place = ":".join([self.file or "project", *(str(n) for n in (self.line, self.column) if n)])
        what = f"{self.of}: {self.what}" if self.of else self.what
        return f"{place}: {what}; {self.instead}" if self.instead else f"{place}: {what}"


class DossierError(Exception):
    """What a command prints instead of a traceback."""


class ProjectFaults(DossierError):
    """The project file cannot be used as it stands; ``faults`` holds every reason, most important first."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(
            sorted(faults, key=lambda f: (f.rank, f.file, f.line, f.column))
        )
        super().__init__("\n".join(str(fault) for fault in self.faults))

    def __reduce__(self) -> tuple[Any, ...]:
        return (ProjectFaults, (self.faults,))


class OutOfRange(DossierError):
    """A number left the range of a formula or table; nothing is ever extrapolated."""

    def __init__(  # noqa: PLR0913, PLR0917 - the message needs them all
        self,
        where: str,
        parameter: str,
        quantity: "Quantity",
        value: float,
        source: "Source",
        lines: "Sequence[Line]" = (),
    ) -> None:
        self.where, self.parameter, self.quantity, self.value = where, parameter, quantity, value
        self.source, self.lines = source, tuple(lines)
        q = quantity
        unit = "" if q.unit == "1" else f" {q.unit}"
        rests = ", ".join(f"{k.key} (line {k.line})" if k.line else k.key for k in self.lines[:4])
        super().__init__(
            f"{q.label} {q.symbol} = {value:.6g}{unit} lies outside {q.low:g} … {q.high:g}{unit} "
            f"of {where.replace('_', ' ')} ({source})" + (f"; it rests on {rests}" if rests else "")
        )

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The same as a fault of the line that the number rests on first; none where it rests on no line."""
        first = next((line for line in self.lines if line.line), None)
        if first is None:
            return ()
        place = first.file, first.line or 0, first.column or 0
        return (Fault(str(self), "check the figure and its unit", *place, rank=3),)

    def __reduce__(self) -> tuple[Any, ...]:
        return (
            OutOfRange,
            (self.where, self.parameter, self.quantity, self.value, self.source, self.lines),
        )


class NotConverged(DossierError):
    """A solver stopped without a proven answer; the message names the worst place and its residual."""


class PageFault(DossierError):
    """A page cannot be set as asked."""
