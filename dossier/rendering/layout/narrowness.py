"""How narrow a table may become."""

from dossier.rendering.blocks import Align, Table
from dossier.rendering.layout.columns import LEAST_GAP
from dossier.rendering.layout.setting import Room, Setting
from dossier.rendering.layout.tables import TableSetter

SQUEEZED = 1.2
"""How much wider than its room a table may be by nature, if it is to stand there."""


def least_width(block: Table, setting: Setting, width: float) -> float:
    """Width below which a table would break a number or a word."""
    setter = TableSetter(block, setting, Room(width, width))
    return sum(wish.least for wish in setter.wishes) + LEAST_GAP * (len(setter.wishes) - 1)


def narrowest(block: Table, setting: Setting, width: float) -> float:
    """Width below which a table would break what should stay whole: numbers, and names by much."""
    setter = TableSetter(block, setting, Room(width, width))
    pairs = list(zip(setter.wishes, setter.columns, strict=True))
    least = sum(wish.least if column.align is Align.TEXT else wish.natural for wish, column in pairs)
    natural = sum(wish.natural for wish, _ in pairs)
    return max(least, natural / SQUEEZED) + LEAST_GAP * (len(pairs) - 1)
