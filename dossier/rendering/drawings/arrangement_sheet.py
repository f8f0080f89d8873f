"""The arrangement on its sheets: the whole boat in plan and elevation, then spaces in detail."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from dossier.rendering.drawings.arrangement import Arrangement, Way
from dossier.rendering.drawings.arrangement_fit import HEADING, Leaf, View, leaves, whole_boat
from dossier.rendering.drawings.arrangement_view import DOTTED, arrangement_view, in_order, shown
from dossier.rendering.drawings.legend import Entry, entry_of
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, folded, leading
from dossier.rendering.drawings.pens import AXIS, EXHAUST, HIDDEN, LINK, NARROW, OUTLINE
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import laid_round
from dossier.rendering.drawings.scales import forward_arrow, scale_bar, scale_words
from dossier.rendering.drawings.shapes import WHITE, Drawing, Line, Polyline, Rect, Shape, Text
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
    decimal: str = "."


def arrangement_sheets(
    arrangement: Arrangement,
    form: Form,
    words: Words | None = None,
    say_tags: Callable[[Iterable[str]], str] | None = None,
    *,
    details: bool = True,
) -> tuple[Drawing, ...]:
    """All sheets of the arrangement, the whole boat first; ``say_tags`` says which tags a sheet shows.

    Without ``details`` there is the whole boat alone.
    """
    words = words or Words()

    def told(tags: Iterable[str]) -> Form:
        return form if say_tags is None else replace(form, notes=(say_tags(tags), *form.notes))

    samples = _samples(words)
    free = laid_round(told(part.tag for part in arrangement.parts), list(samples.values())).free
    sheets = []
    for leaf in (leaves if details else whole_boat)(arrangement, free):
        shapes = _drawn(arrangement, leaf, free, words)
        parts = {part.tag: part for view in leaf.views for part in in_order(view)}
        legend = [samples[kind] for kind in _kinds(shapes, leaf)]
        furniture = laid_round(told(parts), legend)
        sheets.append(furniture.drawing(shapes, form.title, scale_words(leaf.ratio)))
    return tuple(sheets)


def _samples(words: Words) -> dict[str, Entry]:
    """All kinds of line with their entries of the legend."""
    box, length = (-4.0, -1.4, 8.0, 2.8), ((-5.5, 0.0), (5.5, 0.0))
    room = Rect(*box, HIDDEN)
    cross = (Line((-4.0, -1.4), (4.0, 1.4), NARROW), Line((-4.0, 1.4), (4.0, -1.4), NARROW))
    shapes: dict[str, tuple[Shape, ...]] = {
        "part": (Rect(*box, OUTLINE, WHITE),),
        "behind": (Rect(*box, DOTTED),),
        "service": (room,),
        "short": (room, *cross),
        "exhaust": (Polyline(length, EXHAUST),),
        "pipe": (Polyline(length, LINK),),
        "axis": (Polyline(length, AXIS),),
    }
    return {kind: entry_of(sample, getattr(words, kind)) for kind, sample in shapes.items()}


PENS = {"behind": DOTTED, "service": HIDDEN, "exhaust": EXHAUST, "axis": AXIS}
"""Pens that tell a kind of line; a pipe and the outline of a part are drawn with one of the same width."""


def _kinds(shapes: Sequence[Shape], leaf: Leaf) -> list[str]:
    """Kinds of line that stand on a sheet, in the order of the legend."""
    pens = {shape.pen for shape in shapes if isinstance(shape, Line | Polyline | Rect)}
    found = {kind for kind, pen in PENS.items() if pen in pens}
    services = [s for view in leaf.views for part in in_order(view) for s in shown(part, view)]
    if any(service.short for service in services):
        found.add("short")
    if any(isinstance(shape, Polyline) and shape.pen == LINK for shape in shapes):
        found.add("pipe")
    if any(in_order(view) for view in leaf.views):
        found.add("part")
    return [
        kind for kind in ("part", "behind", "service", "short", "exhaust", "pipe", "axis") if kind in found
    ]


def _drawn(arrangement: Arrangement, leaf: Leaf, free: Box, words: Words) -> list[Shape]:
    """The views of a sheet with their headings, scale bar and arrow to the bow."""
    shapes: list[Shape] = []
    keys: list[str] = []
    for view in leaf.views:
        drawn, key = arrangement_view(arrangement, view, words.outlet)
        shapes += [*drawn, *_heading(view, words)]
        keys += key
    shapes += scale_bar((free.left + 1.0, free.bottom + 4.2), leaf.ratio, 60.0, decimal=words.decimal)
    shapes += forward_arrow((free.right - 24.0, free.bottom + 2.6), words.forward)
    left, width = free.left + 74.0, free.width - 74.0 - 30.0
    for n, line in enumerate(folded("; ".join(keys), width, SMALL) if keys else ()):
        shapes.append(Text(left, free.bottom + 4.2 - n * leading(SMALL), line, SMALL))
    return shapes


def _heading(view: View, words: Words) -> list[Shape]:
    """What the view shows, over its frame."""
    way = words.plan if view.way is Way.PLAN else words.elevation
    x, y = view.frame.left + OFF_MARK, view.frame.top + HEADING - 3.2
    if view.space is None:
        return [Text(x, y, way, CAPITALS, SEMIBOLD)]
    line = folded(f"{way}: {view.space.name}", view.frame.width - OFF_MARK, CAPITALS, SEMIBOLD, 1)[0]
    return [Text(x, y, line, CAPITALS, SEMIBOLD)]
