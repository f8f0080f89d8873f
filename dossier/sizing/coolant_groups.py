"""Which kind of part holds how much coolant?"""

from collections.abc import Sequence
from typing import Annotated

from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.notation.records import dataclass
from dossier.sizing.coolant import Content, by_kind, total_volume


@formula("L = Σ L_i", ARITHMETIC)
def total_pipe(
    *lengths: Annotated[Real, q("L_i", "m", "length of a run", low=0, high=2000)],
) -> Annotated[Real, q("L", "m", "length of pipe together")]:
    """Length of several runs together."""
    return sum(lengths)


@dataclass(frozen=True)
class ContentGroup:
    """Pipes of one size, or units of one kind; ``length`` is None for units."""

    name: str
    contents: tuple[Content, ...]
    volume: Annotated[Real, q("V", "m3", "coolant in them")]
    length: Annotated[Real | None, q("L", "m", "length of pipe")]


def content_groups(contents: Sequence[Content]) -> tuple[ContentGroup, ...]:
    """Contents by size of pipe and kind of unit, in the order of the inventory."""
    groups = []
    for name, members in by_kind(tuple(contents)).items():
        lengths = [member.length for member in members if member.length is not None]
        groups.append(
            ContentGroup(
                name,
                members,
                total_volume(*(member.volume for member in members)),
                total_pipe(*lengths) if lengths else None,
            )
        )
    return tuple(groups)
