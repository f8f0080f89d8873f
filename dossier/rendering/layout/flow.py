"""Fills sheets with items: nothing is broken that holds together, and no heading is left alone.

The text column and the outer column run down side by side; what takes the whole width starts below both.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from dossier.notation import PageFault
from dossier.rendering.layout.item import Break, Entry, Item, Marker, Stands, gap
from dossier.rendering.layout.measures import MM, Sheet

SLACK = 0.01  # points; sums of lengths are not exact
HOLE = 0.2  # of a sheet; a figure that would leave more than this lets what follows go first


@dataclass(frozen=True, slots=True)
class Placed:
    """An item on its place; ``top`` is measured from the top of the sheet."""

    item: Item
    x: float
    top: float


@dataclass(slots=True)
class Page:
    """One sheet with what stands on it."""

    sheet: Sheet
    placed: list[Placed] = field(default_factory=list)
    entry: Entry | None = None
    """The heading in force: the first on the sheet, else the last before it."""
    beside: list[tuple[float, float]] = field(default_factory=list)
    """Stretches of the sheet where the text column alone is filled, from the top; the last may run on."""
    runs_on: bool = False
    """Whether nothing that takes the whole width stands below the last stretch."""

    def stretch(self, item: Item, top: float) -> None:
        """Note where the outer column stays free beside an item."""
        bottom = top + item.height
        if item.stands is not Stands.TEXT:
            if self.runs_on:
                self.beside[-1] = (self.beside[-1][0], min(top, self.beside[-1][1] + item.above))
            self.runs_on = False
        elif self.runs_on:
            self.beside[-1] = (self.beside[-1][0], bottom)
        else:
            self.beside.append((top, bottom))
            self.runs_on = True

    def places(self) -> Iterable[tuple[str, float]]:
        """Keys of places on the sheet, and how far they stand below its top."""
        for placed in self.placed:
            for key, below in placed.item.places():
                yield key, placed.top + below


class Flow:
    """The state of filling: the sheet in work, and how far down both columns are filled."""

    def __init__(self, items: Iterable[Item], sheet: Sheet) -> None:
        self.rest = list(items)[::-1]
        self.sheet = sheet
        self.pages: list[Page] = []
        self.entry: Entry | None = None
        self.waiting: list[Item] = []
        self.markers: list[Marker] = []
        """Entries and anchors wait for the item they mark, so that they go with it to the next sheet."""
        self.turn()

    def turn(self, sheet: Sheet | None = None) -> None:
        """Go on to a new sheet; it is made when something stands on it."""
        self.sheet = sheet or self.sheet
        self.page: Page | None = None
        self.main = self.outer = self.sheet.top
        self.foot = self.sheet.height - self.sheet.bottom
        self.last: Item | None = None
        self.last_outer: Item | None = None

    @property
    def empty(self) -> bool:
        """Whether nothing that can be seen stands on the sheet in work."""
        return self.page is None or all(isinstance(placed.item, Marker) for placed in self.page.placed)

    def fill(self) -> list[Page]:
        """All sheets of a document."""
        while self.rest:
            item = self.rest.pop()
            if isinstance(item, Break):
                self._finish()
                if self.page is not None or item.sheet not in {None, self.sheet}:
                    self.turn(item.sheet)
            elif item.stands is Stands.OUTER:
                self.waiting.append(item)
            elif isinstance(item, Marker):
                self.markers.append(item)
            elif item.stands is Stands.FOOT:
                self._set_foot(item)
            else:
                if item.stands is Stands.FULL and self.waiting:
                    self._place_waiting(self.main + gap(self.last, item))
                self._set(item)
        self._finish()
        return self.pages

    def _set(self, item: Item) -> None:
        """Put an item on this sheet or the next, broken if need be; the rest of it comes next."""
        top = self._top(item)
        room = self.foot - top + SLACK
        if not self.empty and self._need(item) > room:
            ahead = self._ahead(room) if item.floats and room > HOLE * self.sheet.room else []
            self.rest.extend([item, *reversed(ahead)])
            if not ahead:
                self.turn()
        elif item.height <= room:
            self._place(item, top)
        else:
            parts = item.split(room)
            if parts is not None:
                self._place(parts[0], top)
                self.rest.append(parts[1])
            elif self.empty:
                raise _too_high(item, room)
            else:
                self.rest.append(item)
            self.turn()

    def _top(self, item: Item) -> float:
        """Where an item's top would stand now."""
        if item.stands is Stands.FULL and self.outer > self.main:
            return self.outer + gap(self.last_outer, item)
        return self.main + gap(self.last, item)

    def _need(self, item: Item) -> float:
        """Height that must be free: the item, what it keeps with, the least part of what follows."""
        need, at = 0.0, item
        followers = (other for other in reversed(self.rest) if other.stands is not Stands.OUTER)
        while at.keeps:
            follower = next(followers, None)
            if follower is None or isinstance(follower, Break):
                return need + at.height
            if isinstance(at, Marker):  # it stands with what follows, below the gap that this one wants
                need += max(0.0, gap(self.last, follower) - gap(self.last, at))
            else:
                need += at.height + gap(at, follower)
            at = follower
        need += at.least
        return need if need <= self.sheet.room else item.least

    def _ahead(self, room: float) -> list[Item]:
        """What may go before a figure that does not fit: text and tables up to the next heading."""
        ahead: list[Item] = []
        while self.rest:
            other = self.rest[-1]
            if isinstance(other, Break) or other.keeps or other.floats or other.stands is Stands.OUTER:
                break
            room -= max(other.above, other.below)
            if other.least > room:
                break
            ahead.append(self.rest.pop())
            room -= other.height
        return ahead

    def _place(self, item: Item, top: float) -> None:
        self._place_markers(top)
        self._place_waiting(top)
        for part, right, below in item.laid():
            self._put(part, self.sheet.left + right, top + below)
        if self.page is not None:
            self.page.stretch(item, top)
        self.main, self.last = top + item.height, item
        if item.stands is Stands.FULL:
            self.outer, self.last_outer = self.main, item

    def _place_markers(self, top: float) -> None:
        markers, self.markers = self.markers, []
        for marker in markers:
            self._put(marker, self.sheet.left, top)

    def _set_foot(self, item: Item) -> None:
        if item.height > self.foot - max(self.main, self.outer) and not self.empty:
            self.turn()
        top = self.foot - item.height
        self._place_markers(top)
        self._put(item, self.sheet.left, top)
        self.foot = top - 4 * MM

    def _put(self, item: Item, x: float, top: float) -> None:
        if self.page is None:
            self.page = Page(self.sheet, entry=self.entry)
            self.pages.append(self.page)
        if isinstance(item, Marker) and item.entry is not None:
            if self.empty or self.page.entry is None:
                self.page.entry = item.entry
            self.entry = item.entry
        self.page.placed.append(Placed(item, x, top))

    def _place_waiting(self, top: float) -> None:
        """Put what waits for the outer column beside what stands at ``top``; the rest waits on."""
        waiting, self.waiting = self.waiting, []
        for number, item in enumerate(waiting):
            at = top if self.last_outer is None else max(top, self.outer + gap(self.last_outer, item))
            if at + item.height > self.foot + SLACK:
                parts = item.split(self.foot - at)
                if parts is None and at <= self.sheet.top + SLACK:
                    raise _too_high(item, self.foot - at)
                self.waiting = [*(parts[1:] if parts else [item]), *waiting[number + 1 :]]
                if parts is None:
                    return
                item = parts[0]  # noqa: PLW2901 - the first part stands here
            self._put(item, self.sheet.outer_x, at)
            self.outer, self.last_outer = at + item.height, item
            if self.waiting:
                return

    def _finish(self) -> None:
        """Put what still waits for an item or for the outer column."""
        if not self.rest:
            self._place_markers(self.main)
        while self.waiting:
            self._place_waiting(self.main)
            if self.waiting:
                self.turn()


def _too_high(item: Item, room: float) -> PageFault:
    return PageFault(
        f"{item.what or 'a block'} is {item.height / MM:.0f} mm high and cannot be broken; "
        f"the sheet has room for {room / MM:.0f} mm"
    )


def fill(items: Iterable[Item], sheet: Sheet) -> list[Page]:
    """All sheets of a document whose first is of the kind given.

    Raises PageFault if something that may not be broken is higher than a sheet.
    """
    return Flow(items, sheet).fill()
