"""Places given from marks: ``1.3 m aft of main_bulkhead, 1.55 m starboard, 0.65 m above sole``."""

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, get_args

from dossier.notation import Quantity, Traced
from dossier.project.figures import Misread
from dossier.project.model.entry import Likely, Refers
from dossier.project.model.layout import Marking
from dossier.project.model.values import Point
from dossier.project.nodes import Text, shortened
from dossier.project.quantities import Field, OutOfReach, number
from dossier.project.record import RANGE, UNREADABLE, Where

if TYPE_CHECKING:
    from dossier.project.reader import Reader

Marks = Mapping[str, Marking]
AXES = ("x", "y", "z")
FIELDS = ("along", "across", "up")
MARK = Refers(("mark",))
_PART = re.compile(
    r"(?P<length>.*?)\s*\b(?P<way>aft of|forward of|fore of|to port of|to starboard of|port of|starboard of"
    r"|to port|to starboard|port|starboard|above|over|below|under)\b\s*(?P<mark>.*)"
)
_AT = re.compile(r"(?:at|on)\s+(?:the\s+)?(?P<mark>.+)")
WAYS = {
    "aft of": (0, -1),
    "forward of": (0, 1),
    "fore of": (0, 1),
    "to port of": (1, 1),
    "port of": (1, 1),
    "to port": (1, 1),
    "port": (1, 1),
    "to starboard of": (1, -1),
    "starboard of": (1, -1),
    "to starboard": (1, -1),
    "starboard": (1, -1),
    "above": (2, 1),
    "over": (2, 1),
    "below": (2, -1),
    "under": (2, -1),
}
EXAMPLE = "write [2.1 m, 0.4 m, 0.2 m], or 1.3 m aft of main_bulkhead, 1.5 m starboard, 0.6 m above sole"


def _mark(reader: "Reader", name: str, axis: int, node: Text, where: Where) -> float | None:
    """Coordinate of a mark on one axis; the waterline is height 0, the centreline y = 0."""
    if (name, axis) in {("waterline", 2), ("centreline", 1), ("", 1)}:
        return 0.0
    mark = reader.marks.get(name)
    if mark is None:
        reader.record.ask(MARK, Text(name, node.spot), where)
        return None
    held: float | None = getattr(mark, FIELDS[axis])
    if held is None:
        what = f"the mark {shortened(name)} says nothing {FIELDS[axis]}"
        reader.record.fault(
            node.spot, UNREADABLE, what, f"write marks: {{{shortened(name)}: {{{FIELDS[axis]}: 1.0 m}}}}"
        )
    return held


def _coordinate(reader: "Reader", part: str, node: Text, where: Where) -> tuple[int, float] | None:
    """Axis and value one part of a place gives."""
    at = _AT.fullmatch(part)
    if at:
        name = at["mark"].strip()
        mark = reader.marks.get(name)
        axes = [a for a, key in enumerate(FIELDS) if mark is not None and getattr(mark, key) is not None]
        axis = 1 if name == "centreline" else axes[0] if axes else 0
        held = _mark(reader, name, axis, node, where)
        return None if held is None else (axis, held)
    found = _PART.fullmatch(part)
    if not found:
        reader.record.fault(node.spot, UNREADABLE, f"'{shortened(part)}' gives no place", EXAMPLE)
        return None
    axis, sign = WAYS[found["way"]]
    try:
        length = number(found["length"], Field(where.label, Quantity("l", "m", "length", 0.0, 500.0))).amount
    except Misread as error:
        rank = RANGE if isinstance(error, OutOfReach) else UNREADABLE
        reader.record.fault(node.spot, rank, error.what, error.instead)
        return None
    base = _mark(reader, found["mark"].strip().removeprefix("the "), axis, node, where)
    return None if base is None else (axis, base + sign * length)


def read_place(reader: "Reader", node: Text, where: Where) -> Point | None:
    """A point out of a text, each coordinate traced to it."""
    values: dict[int, float] = {}
    for part in node.text.split(","):
        found = _coordinate(reader, " ".join(part.split()), node, where)
        if found is None:
            return None
        if found[0] in values:
            what = f"'{shortened(node.text)}' gives {AXES[found[0]]} twice"
            reader.record.fault(node.spot, UNREADABLE, what, EXAMPLE)
            return None
        values[found[0]] = found[1]
    missing = [AXES[axis] for axis in range(3) if axis not in values]
    if missing:
        what = f"'{shortened(node.text)}' does not give {' and '.join(missing)}"
        reader.record.fault(node.spot, UNREADABLE, what, EXAMPLE)
        return None
    traced = []
    for axis, name in enumerate(AXES):
        line = reader.record.line(where.under(name), node, reader.basis(node, where))
        reader.record.numbers.append(line)
        traced.append(Traced(values[axis], line))
        _doubt(reader, axis, values[axis], node, where)
    return Point(*traced)


def _doubt(reader: "Reader", axis: int, held: float, node: Text, where: Where) -> None:
    marks = get_args(Point.__annotations__[AXES[axis]])[1:]
    likely = next(mark for mark in marks if isinstance(mark, Likely))
    if not likely.low <= held <= likely.high:
        what = f"{AXES[axis]} of {where.label} is {held:.3g} m, which is unusual"
        reader.record.doubt(node.spot, what, "check the place and its marks")
