"""Numbers told in short: ``1–3, 7``."""

from collections.abc import Iterable
from itertools import pairwise


def ranges(numbers: Iterable[int]) -> str:
    """Numbers in order, three or more neighbours as a range.

    >>> ranges([7, 1, 2, 3, 9, 10])
    '1–3, 7, 9, 10'
    """
    ordered = sorted(set(numbers))
    groups: list[list[int]] = [[n] for n in ordered[:1]]
    for before, number in pairwise(ordered):
        if number == before + 1:
            groups[-1].append(number)
        else:
            groups.append([number])
    return ", ".join(
        f"{group[0]}–{group[-1]}" if len(group) > 2 else ", ".join(map(str, group))  # noqa: PLR2004 - a pair
        for group in groups
    )
