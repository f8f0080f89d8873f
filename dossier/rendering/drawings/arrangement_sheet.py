"""The arrangement on its sheets: the whole boat in plan and elevation, then spaces in detail."""

from dataclasses import dataclass

from dossier.rendering.drawings.arrangement import Arrangement, Way
from dossier.rendering.drawings.arrangement_fit import HEADING, Leaf, View, leaves
from dossier.rendering.drawings.arrangement_view import DOTTED, arrangement_view
from dossier.rendering.drawings.legend import Entry, entry_of
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, folded, leading
from dossier.rendering.drawings.pens import AXIS, EXHAUST, HIDDEN, LINK, OUTLINE
from dossier.rendering.drawings.plate import Furniture, laid_round
from dossier.rendering.drawings.scales import forward_arrow, scale_bar, scale_words
from dossier.rendering.drawings.shapes import WHITE, Drawing, Line, Pen, Polyline, Rect, Shape, Text
from dossier.rendering.drawings.sheet import Form

OFF_MARK = 1.2  # clear of the centring mark


@dataclass(frozen=True, slots=True)
class Words:
    """The few words of the arrangement."""

    plan: str = "Plan"
    elevation: str = "Elevation from starboard"
    outlet: str = "exhaust outlet"
    forward: str = "FWD"
    part: str = "part, by its tag"
    behind: str = "part behind another"
    service: str = "to be kept free for service"
    short: str = "room that is not there"
    exhaust: str = "exhaust, hot"
    pipe: str = "pipe of the circuit"
    axis: str = "centreline, loaded waterline"
    legend: str = "Lines on this sheet"


def arrangement_sheets(
    arrangement: Arrangement, form: Form, words: Words | None = None
) -> tuple[Drawing, ...]:
    """All sheets of the arrangement, the whole boat first."""
    words = words or Words()
    furniture = laid_round(form, _legend(arrangement, words))
    return tuple(
        _sheet(arrangement, leaf, furniture, form, words) for leaf in leaves(arrangement, furniture.free)
    )


def _legend(arrangement: Arrangement, words: Words) -> list[Entry]:
    """Line kinds of all sheets."""
    found = [entry_of((Rect(-4.0, -1.4, 8.0, 2.8, OUTLINE, WHITE),), words.part)]
    found.append(entry_of((Rect(-4.0, -1.4, 8.0, 2.8, DOTTED),), words.behind))
    services = [service for part in arrangement.parts for service in part.services]
    room = Rect(-4.0, -1.4, 8.0, 2.8, HIDDEN)
    if services:
        found.append(entry_of((room,), words.service))
    if any(service.short for service in services):
        cross = (Line((-4.0, -1.4), (4.0, 1.4), Pen(0.25)), Line((-4.0, 1.4), (4.0, -1.4), Pen(0.25)))
        found.append(entry_of((room, *cross), words.short))
    if arrangement.exhaust:
        found.append(entry_of((Polyline(((-5.5, 0.0), (5.5, 0.0)), EXHAUST),), words.exhaust))
    if arrangement.pipes:
        found.append(entry_of((Line((-5.5, 0.0), (5.5, 0.0), LINK),), words.pipe))
    found.append(entry_of((Line((-5.5, 0.0), (5.5, 0.0), AXIS),), words.axis))
    return found


def _sheet(arrangement: Arrangement, leaf: Leaf, furniture: Furniture, form: Form, words: Words) -> Drawing:
    free = furniture.free
    shapes: list[Shape] = []
    keys: list[str] = []
    for view in leaf.views:
        drawn, key = arrangement_view(arrangement, view, words.outlet)
        shapes += [*drawn, *_heading(view, words)]
        keys += key
    shapes += scale_bar((free.left + 1.0, free.bottom + 4.2), leaf.ratio, 60.0)
    shapes += forward_arrow((free.right - 24.0, free.bottom + 2.6), words.forward)
    left, width = free.left + 74.0, free.width - 74.0 - 30.0
    for n, line in enumerate(folded("; ".join(keys), width, SMALL) if keys else ()):
        shapes.append(Text(left, free.bottom + 4.2 - n * leading(SMALL), line, SMALL))
    return furniture.drawing(shapes, form.title, scale_words(leaf.ratio))


def _heading(view: View, words: Words) -> list[Shape]:
    """What the view shows, over its frame."""
    way = words.plan if view.way is Way.PLAN else words.elevation
    x, y = view.frame.left + OFF_MARK, view.frame.top + HEADING - 3.2
    if view.space is None:
        return [Text(x, y, way, CAPITALS, SEMIBOLD)]
    line = folded(f"{way}: {view.space.name}", view.frame.width - OFF_MARK, CAPITALS, SEMIBOLD, 1)[0]
    return [Text(x, y, line, CAPITALS, SEMIBOLD)]
