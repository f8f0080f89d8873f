"""Sets blocks in two columns: the first is filled before the second, and both end at the same height."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from dossier.rendering.blocks import Outer, TwoColumns, Wide
from dossier.rendering.layout.flow import SLACK, Flow, Placed
from dossier.rendering.layout.item import Break, Item, Marker, Stands, stacked
from dossier.rendering.layout.measures import MM, TWO_GUTTER, Sheet
from dossier.rendering.layout.setting import Room, Setting, sets

COLUMNS = 2
STEPS = 7
"""Halvings in search of the least height."""
TALL = 420 * MM
"""Height beyond any sheet, for which none is sought."""


class _Full(Exception):
    """Both columns are filled."""


class _Filling(Flow):
    """Fills two columns, and keeps what they do not hold; ``highest`` is the height of a whole sheet."""

    def __init__(self, items: Sequence[Item], column: Sheet, highest: float) -> None:
        self.highest = highest
        super().__init__(items, column)

    def _set(self, item: Item) -> None:
        """Put an item into this column or the next; one that needs a higher column is left over."""
        room = self.foot - self.sheet.top
        low = room + SLACK < self.highest and item.least > room + SLACK
        if self.empty and item.height > room + SLACK and (low or item.split(room) is None):
            self.rest.append(item)
            raise _Full
        super()._set(item)

    def turn(self, sheet: Sheet | None = None) -> None:
        """Go on to the next column."""
        if len(self.pages) == COLUMNS:
            raise _Full
        super().turn(sheet)

    def left_over(self) -> list[Item]:
        """What found no place."""
        return [*self.markers, *self.rest[::-1]]


def _filled(
    items: Sequence[Item], width: float, height: float, highest: float
) -> tuple[list[list[Placed]], list[Item]]:
    """What stands in each column of a height, and what is left over."""
    column = Sheet("", width, height, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, Outer.NONE)
    filling = _Filling(items, column, highest)
    try:
        filling.fill()
    except _Full:
        return [page.placed for page in filling.pages], filling.left_over()
    return [page.placed for page in filling.pages], []


@dataclass(slots=True)
class ColumnsItem(Item):
    """Items in two columns; ``room`` is the height of a sheet."""

    items: Sequence[Item] = ()
    width: float = 0.0
    room: float = 0.0
    first: float = 0.0
    """Height of the part that may stand at the foot of a sheet."""

    def measured(self) -> "ColumnsItem":
        """Itself, with the least height at which two columns hold all."""
        total = stacked(self.items)[1]
        self.height = total / COLUMNS
        if self.height > TALL:
            return self
        low = max(self.height, *(item.least for item in self.items))
        high = low + 1.0
        while _filled(self.items, self.width, high, self.room)[1]:
            low, high = high, high * 1.25
        for _ in range(STEPS):
            middle = (low + high) / 2
            low, high = (
                (middle, high) if _filled(self.items, self.width, middle, self.room)[1] else (low, middle)
            )
        self.height = high
        return self

    @property
    def least(self) -> float:
        """As much as the first of it needs."""
        return min(self.height, self.first)

    def split(self, room: float) -> tuple[Item, Item] | None:
        """What two columns of the room hold, and the rest."""
        if room < min(self.first, self.room):
            return None
        columns, rest = _filled(self.items, self.width, room, self.room)
        if not rest or not columns:
            return None
        foot = max(placed.top + placed.item.height for column in columns for placed in column)
        upper = replace(self, height=min(foot, room), below=0.0, items=[p.item for c in columns for p in c])
        return _Laid.of(upper, columns), replace(self, above=0.0, items=rest).measured()

    def laid(self) -> Iterator[tuple[Item, float, float]]:
        """Each item in its column."""
        return _laid(_filled(self.items, self.width, self.height, self.room)[0], self.width)


@dataclass(slots=True)
class _Laid(ColumnsItem):
    """Two columns that are filled already."""

    columns: Sequence[Sequence[Placed]] = ()

    @classmethod
    def of(cls, item: ColumnsItem, columns: Sequence[Sequence[Placed]]) -> "_Laid":
        """The filled columns of an item."""
        return cls(
            item.height, item.above, item.below, item.stands, what=item.what, items=item.items,
            width=item.width, room=item.room, first=item.first, columns=columns,
        )  # fmt: skip

    def laid(self) -> Iterator[tuple[Item, float, float]]:
        """Each item in its column."""
        return _laid(self.columns, self.width)


def _laid(columns: Sequence[Sequence[Placed]], width: float) -> Iterator[tuple[Item, float, float]]:
    for number, column in enumerate(columns):
        for placed in column:
            yield placed.item, number * (width + TWO_GUTTER), placed.top


@sets(TwoColumns)
def two_columns(block: TwoColumns, setting: Setting, room: Room) -> list[Item]:
    """Blocks in two columns; one below the other where the sheet is too narrow."""
    if setting.sheet.narrow or not block.blocks:
        return [item for inner in block.blocks for item in setting.set(inner, room)]
    width = column_of(room)
    within = Room(width, width)
    items = [item for inner in block.blocks for item in setting.set(inner, within)]
    return in_columns(items, setting, room)


@sets(Wide)
def wide(block: Wide, setting: Setting, room: Room) -> list[Item]:
    """Blocks over the whole width."""
    stands = Stands.FULL if room.full > room.width else room.stands
    whole = Room(room.full, room.full, stands)
    return [item for inner in block.blocks for item in setting.set(inner, whole)]


def column_of(room: Room) -> float:
    """Width of one of the two columns."""
    return (room.full - TWO_GUTTER) / COLUMNS


def in_columns(items: Sequence[Item], setting: Setting, room: Room) -> list[Item]:
    """Items that are set for a column, in two of them."""
    items = [item for item in items if not isinstance(item, Break)]
    width = column_of(room)
    seen = [item for item in items if not isinstance(item, Marker)]
    stands = Stands.FULL if room.full > room.width else room.stands
    first = sum(item.height for item in seen[:1] if item.keeps) + max(
        (item.least for item in seen[:2]), default=0.0
    )
    return [
        ColumnsItem(
            0.0, seen[0].above, seen[-1].below, stands, what="two columns", items=items, width=width,
            room=setting.sheet.room, first=first + 8 * MM,
        ).measured()
    ]  # fmt: skip
