"""The electric supply as one line: battery, bus, and for each circuit its fuse, cable and consumers.

One line stands for both conductors. Every figure comes as a text, and words say what is not stated.
"""

from dataclasses import dataclass

from dossier.rendering.drawings.legend import Entry, entry_of
from dossier.rendering.drawings.lettering import (
    CAPITALS,
    REGULAR,
    SEMIBOLD,
    SMALL,
    ascent,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import FRAME, OUTLINE, WIDE
from dossier.rendering.drawings.placing import Place
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import laid_round
from dossier.rendering.drawings.shapes import WHITE, Drawing, Group, Line, Rect, Shape, Text
from dossier.rendering.drawings.sheet import Form
from dossier.rendering.drawings.signs import sign
from dossier.rendering.drawings.tag_list import tag_list

PITCH, AIRY = 21.0, 30.0  # from circuit to circuit, and where there is room
BUS, FUSE, SWITCH, CABLE, LOADS, SAID = 44.0, 60.0, 80.0, 90.0, 150.0, 204.0  # from the left of the room
OVER, UNDER = 1.6, 3.4  # from a line to the lettering over and under it
SIGN = 0.9  # more where a sign stands in the line
BOX = 7.0
PADDING = 1.5


@dataclass(frozen=True, slots=True)
class Feeder:
    """One circuit in words; without an ``isolator`` no switch is drawn. ``said`` stands at the end."""

    name: str
    fuse: str
    fuse_note: str
    cable: str
    drop: str
    loads: tuple[str, ...]
    said: tuple[str, ...] = ()
    isolator: str = ""
    has_fuse: bool = True


@dataclass(frozen=True, slots=True)
class Supply:
    """The battery in words, and its circuits."""

    battery: tuple[str, ...]
    feeders: tuple[Feeder, ...]


@dataclass(frozen=True, slots=True)
class Words:
    """The few words of the sheet."""

    battery: str = "battery"
    fuse: str = "fuse"
    isolator: str = "isolator"
    cable: str = "cable, both conductors"
    consumer: str = "consumer, by its tag"
    legend: str = "Lines and symbols on this sheet"
    bus: str = "bus or common terminal"


def one_line_sheets(supply: Supply, form: Form, words: Words | None = None) -> tuple[Drawing, ...]:
    """As many sheets as the circuits need, the battery on each."""
    furniture = laid_round(form, _legend(supply, words or Words()))
    free = furniture.free
    count = max(1, int((free.height - 4.0) // PITCH))
    return tuple(
        furniture.drawing(_sheet(supply, supply.feeders[first : first + count], free), form.title)
        for first in range(0, len(supply.feeders), count)
    )


def _legend(supply: Supply, words: Words) -> list[Entry]:
    """Line and signs that stand on the sheets."""
    found = [
        entry_of((Line((-5.5, 0.0), (5.5, 0.0), WIDE),), words.cable),
        entry_of((Line((0.0, -2.0), (0.0, 2.0), FRAME),), words.bus),
    ]
    kinds = [("battery", words.battery, True), ("fuse", words.fuse, any(f.has_fuse for f in supply.feeders))]
    kinds.append(("isolator", words.isolator, any(f.isolator for f in supply.feeders)))
    for kind, word, stands in kinds:
        if stands:
            drawn = sign(kind)
            x, y = drawn.box.middle
            found.append(
                entry_of((drawn.placed(Place(-x, -y), f"legend {kind}"),), word, drawn.box.height + 1.2)
            )
    found.append(entry_of((Rect(-4.0, -1.6, 8.0, 3.2, OUTLINE, WHITE),), words.consumer))
    return found


def _sheet(supply: Supply, feeders: tuple[Feeder, ...], free: Box) -> list[Shape]:
    """Battery and bus at the left, the circuits under each other."""
    pitch = min(AIRY, free.height / len(feeders))
    spare = free.height - pitch * len(feeders)
    first = free.top - pitch / 2 - spare / 3
    heights = [first - n * pitch for n in range(len(feeders))]
    bus, middle = free.left + BUS, (heights[0] + heights[-1]) / 2
    shapes: list[Shape] = [
        Line((bus, heights[0] + 3.0), (bus, heights[-1] - 3.0), FRAME),
        Line((free.left + 22.0, middle), (bus, middle), WIDE),
    ]
    battery = sign("battery")
    shapes.append(battery.placed(Place(free.left + 17.0, middle - battery.box.middle[1]), "battery"))
    lines = [line for said in supply.battery for line in folded(said, 36.0, SMALL)]
    shapes += _stack(lines, free.left + 1.0, middle - 7.0)
    for feeder, y in zip(feeders, heights, strict=True):
        shapes += _feeder(feeder, free.left, y, free.right)
    return shapes


def _stack(lines: list[str], x: float, top: float, weight: str = REGULAR) -> list[Shape]:
    return [
        Text(x, top - ascent(SMALL) - n * leading(SMALL), line, SMALL, weight) for n, line in enumerate(lines)
    ]


def _feeder(feeder: Feeder, left: float, y: float, right: float) -> list[Shape]:
    """One circuit along its line, from the bus to what it feeds."""
    stops = [left + BUS]
    shapes: list[Shape] = []
    for place, kind, stands in (
        (FUSE, "fuse", feeder.has_fuse),
        (SWITCH, "isolator", bool(feeder.isolator)),
    ):
        if stands:
            drawn = sign(kind)
            shapes.append(drawn.placed(Place(left + place, y), f"{kind} {feeder.name}"))
            stops += [left + place + drawn.port("in")[0], left + place + drawn.port("out")[0]]
    shapes += _about(
        left + FUSE, y, feeder.fuse, folded(feeder.fuse_note, SWITCH - FUSE - 3.0, SMALL), strong=True
    )
    if feeder.isolator:
        tag = folded(feeder.isolator, CABLE - SWITCH + 8.0, SMALL, SEMIBOLD, 1)[0]
        shapes.append(Text(left + SWITCH, y + 3.4, tag, SMALL, SEMIBOLD, "middle"))
    middle = left + (CABLE + LOADS) / 2
    shapes += _about(middle, y, feeder.cable, folded(feeder.drop, LOADS - CABLE - 2.0, SMALL, most=3))
    boxes, start, end = _loads(feeder.loads, left, y)
    stops += [start]
    shapes += [Line((a, y), (b, y), WIDE) for a, b in zip(stops[::2], stops[1::2], strict=True)]
    said_at = max(left + SAID, end + 3.0)
    name = list(folded(feeder.name, right - said_at, SMALL, SEMIBOLD))
    said = [line for part in feeder.said for line in folded(part, right - said_at, SMALL)]
    top = y + (len(name) + len(said)) * leading(SMALL) / 2
    shapes += _stack(name, said_at, top, SEMIBOLD)
    shapes += _stack(said, said_at, top - len(name) * leading(SMALL))
    return [*shapes, *boxes]


def _about(x: float, y: float, over: str, under: tuple[str, ...], *, strong: bool = False) -> list[Shape]:
    """Lettering over a line, and under it, about its middle."""
    shapes: list[Shape] = []
    weight = SEMIBOLD if strong else REGULAR
    sign_height = SIGN if strong else 0.0
    if over:
        shapes.append(Text(x, y + OVER + sign_height, over, SMALL, weight, "middle"))
    shapes += [
        Text(x, y - UNDER - sign_height - n * leading(SMALL), line, SMALL, REGULAR, "middle")
        for n, line in enumerate(under)
    ]
    return shapes


def _loads(tags: tuple[str, ...], left: float, y: float) -> tuple[list[Shape], float, float]:
    """Consumers side by side on the line, in one box where they are too many; where they begin and end."""
    start, room = left + LOADS, SAID - LOADS - 2.0
    widths = [text_width(tag, CAPITALS, SEMIBOLD) + 2 * PADDING for tag in tags]
    if not tags or sum(widths) + 2.0 * (len(tags) - 1) > room:
        lines = folded(tag_list(tags) or "—", room - 2 * PADDING, SMALL, SEMIBOLD)
        width = max(text_width(line, SMALL, SEMIBOLD) for line in lines) + 2 * PADDING
        return [_box(start, y, width, lines, SMALL)], start, start + width
    shapes: list[Shape] = []
    x = start
    for tag, width in zip(tags, widths, strict=True):
        if x > start:
            shapes.append(Line((x - 2.0, y), (x, y), WIDE))
        shapes.append(_box(x, y, width, (tag,), CAPITALS))
        x += width + 2.0
    return shapes, start, x - 2.0


def _box(x: float, y: float, width: float, lines: tuple[str, ...], size: float) -> Group:
    """A consumer with its tag, or several in one."""
    high = max(BOX, len(lines) * leading(size) + 2 * PADDING)
    box = Box(x, y - high / 2, x + width, y + high / 2)
    first = y - ascent(size) / 2 + (len(lines) - 1) * leading(size) / 2
    words = tuple(
        Text(box.middle[0], first - n * leading(size), line, size, SEMIBOLD, "middle")
        for n, line in enumerate(lines)
    )
    return Group(
        " ".join(lines), box, (Rect(box.left, box.bottom, box.width, box.height, OUTLINE, WHITE), *words)
    )
