"""What is a line of the parts list, and how are lengths summed, with the waste shown apart?"""

from collections.abc import Iterable, Mapping
from typing import Annotated

from dossier.notation import ARITHMETIC, Real, formula, origin_of, q
from dossier.notation.records import dataclass
from dossier.physics.route import total_length

COUNT, METRES, CUBIC_METRES = "1", "m", "m3"


@formula("L_w = s · L", ARITHMETIC)
def waste_of(
    share: Annotated[Real, q("s", "1", "share that is cut off or lost", low=0, high=1)],
    length: Annotated[Real, q("L", "m", "length", low=0, high=1e5)],
) -> Annotated[Real, q("L_w", "m", "waste", low=0)]:
    """Length that is cut off or lost."""
    return share * length


@formula("L_b = L + L_w", ARITHMETIC)
def length_to_buy(
    length: Annotated[Real, q("L", "m", "length", low=0, high=1e5)],
    waste: Annotated[Real, q("L_w", "m", "waste", low=0, high=1e5)],
) -> Annotated[Real, q("L_b", "m", "length to buy", low=0)]:
    """Length to buy: what is cut, and the waste."""
    return length + waste


@dataclass(frozen=True)
class Part:
    """A line of the parts list.

    ``unit`` is ``1``, ``m`` or ``m3``. ``waste`` comes on top of ``quantity``; ``longest`` is the longest
    piece (m), which must be had in one length. ``runs`` names what it was counted from.
    """

    group: str
    tag: str
    item: str
    size: str
    quantity: Real
    unit: str
    waste: Real | None = None
    longest: Real | None = None
    runs: tuple[str, ...] = ()
    remark: str = ""

    @property
    def to_buy(self) -> Real:
        """Quantity with the waste."""
        return self.quantity if self.waste is None else length_to_buy(self.quantity, self.waste)


def lot(  # noqa: PLR0913 - a line of the list
    group: str, item: str, size: str, lengths: Mapping[str, Real], share: Real | None, *, cut: bool = True
) -> Part:
    """One line for all pieces of a size; ``lengths`` by the run each was counted from."""
    each = list(lengths.values())
    whole = total_length(*each)
    return Part(
        group,
        "",
        item,
        size,
        whole,
        METRES,
        None if share is None else waste_of(share, whole),
        max(each, key=float) if cut else None,
        tuple(lengths),
    )


def counted(group: str, items: Iterable[tuple[str, str, str, float]]) -> tuple[Part, ...]:
    """Lines of (item, size, counted from, how many), alike ones together, in the order they come first."""
    numbers: dict[tuple[str, str], float] = {}
    sources: dict[tuple[str, str], dict[str, None]] = {}
    for item, size, source, number in items:
        if number > 0:
            numbers[item, size] = numbers.get((item, size), 0.0) + number
            sources.setdefault((item, size), {})[source] = None
    return tuple(
        Part(group, "", item, size, number, COUNT, runs=tuple(sources[item, size]))
        for (item, size), number in numbers.items()
    )


def written(number: object) -> str:
    """A number as the user wrote it; empty where it stands in no file."""
    return str(getattr(origin_of(number), "text", ""))
