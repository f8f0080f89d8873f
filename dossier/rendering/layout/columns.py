"""Widths of the columns of a table: what their words need, within the room there is."""

from collections.abc import Sequence
from dataclasses import dataclass

GAP, LEAST_GAP = 7.2, 4.4  # points between two columns


@dataclass(frozen=True, slots=True)
class Wish:
    """What one column needs: its widest unbroken part, and the width in which nothing is broken."""

    least: float
    natural: float
    fixed: bool = False


def shared(wishes: Sequence[Wish], width: float) -> tuple[list[float], float]:
    """Widths of the columns and the gap between them; together they fill ``width``.

    Room left over goes to the columns in proportion to their words, but not to those of a fixed width, unless
    all are. Where room is short the gaps give way first, then columns in proportion to what they can do
    without, and at the very last below their longest word.
    """
    gaps = len(wishes) - 1
    natural, least = sum(wish.natural for wish in wishes), sum(wish.least for wish in wishes)
    gap = min(GAP, max(LEAST_GAP, (width - natural) / gaps)) if gaps else 0.0
    room = width - gap * gaps
    if natural <= room:
        free = sum(wish.natural for wish in wishes if not wish.fixed)
        spare = (room - natural) / (free or natural or 1.0)
        return [w.natural if w.fixed and free else w.natural * (1 + spare) for w in wishes], gap
    if least <= room:
        share = (room - least) / (natural - least)
        return [wish.least + (wish.natural - wish.least) * share for wish in wishes], gap
    return [max(room, 12.0) * wish.least / least for wish in wishes], gap
