"""Reads lists, rows of a few values, and mappings of the user's names; a table may hold them."""

from itertools import pairwise
from typing import TYPE_CHECKING, Any

from dossier.notation import Traced, slug
from dossier.project.csv_table import table_of
from dossier.project.entries import split_by_comma
from dossier.project.fields import Many, Named, One, Plan, Row, Words
from dossier.project.figures import plain
from dossier.project.model.components import Component
from dossier.project.model.entry import Entry, Mark
from dossier.project.model.envelope import Zone
from dossier.project.model.values import Point, Size
from dossier.project.nodes import List, Map, Node, Pair, Spot, Text, shortened, words
from dossier.project.overlay import laid
from dossier.project.places import read_place
from dossier.project.record import REFERENCE, UNREADABLE, Where
from dossier.project.scalars import read_number, read_words
from dossier.project.short_forms.parts import expanded_components
from dossier.project.short_forms.rooms import expanded_zone

if TYPE_CHECKING:
    from dossier.project.reader import Reader

LONGEST_NAME = 80


def good_name(reader: "Reader", name: str, spot: Spot, what: str) -> bool:
    """Whether a name of the user can stand in results; a fault where it cannot."""
    if len(name) > LONGEST_NAME:
        reader.record.fault(spot, UNREADABLE, f"the name '{shortened(name, 30)}' is too long", "shorten it")
    elif not any(letter.isalnum() for letter in name):
        reader.record.fault(
            spot, UNREADABLE, f"{what} '{shortened(name)}' has no letter or digit", "give it a name"
        )
    else:
        return True
    return False


def unlike(reader: "Reader", name: str, spot: Spot, seen: dict[str, str], what: str) -> bool:
    """Whether a name is unlike all before it, also as it stands in the names of results."""
    known = seen.setdefault(slug(name), name)
    first = f"{what}:{name}" not in seen
    seen[f"{what}:{name}"] = name
    if known == name and first:
        return True
    if known == name:
        reader.record.fault(
            spot, REFERENCE, f"the name '{shortened(name)}' is given twice", f"rename one {what}"
        )
    else:
        text = f"the names '{shortened(known)}' and '{shortened(name)}' become one in the results"
        reader.record.fault(spot, REFERENCE, text, f"rename one {what}")
    return False


def read_list(reader: "Reader", kind: Many, node: Node, where: Where) -> tuple[Any, ...] | None:
    """A list as a tuple."""
    if isinstance(node, Text):
        return ()
    if isinstance(node, Map):
        rows = table_of(reader, kind.item, node, where)
        if not isinstance(rows, List):
            return None
        node = rows
        if kind.item.kinds == (One(Zone),):
            zones = (expanded_zone(row, reader.record.faults) for row in rows.items if isinstance(row, Map))
            node = List(list(zones), rows.spot, rows.layer)
    item = kind.item.kinds[0]
    if isinstance(item, One):
        return _entries(reader, item.cls, kind.item, node, where)
    label = where.label
    read = (
        reader.read(kind.item, part, where.under(str(place), label))
        for place, part in enumerate(node.items, 1)
    )
    return tuple(held for held in read if held is not None)


def name_of(cls: type[Entry], node: Node) -> Text | None:
    """The text that names an entry in its list."""
    if isinstance(node, Map):
        found = node.get(cls.name_field)
        if isinstance(found, Map):
            found = found.get("is")
        if isinstance(found, Text) and found.text.strip():
            return found
    return None


def _entries(reader: "Reader", cls: type[Entry], plan: Plan, node: List, where: Where) -> tuple[Any, ...]:
    found: list[Any] = []
    seen: dict[str, str] = {}
    used: set[str] = set()
    for place, part in enumerate(node.items, 1):
        text = name_of(cls, part)
        segment = " ".join(text.text.split()) if text else ""
        if text and cls.named_as and good_name(reader, segment, text.spot, cls.named_as):
            unlike(reader, segment, text.spot, seen, cls.named_as)
            reader.record.name(cls.named_as, segment, "", text.spot)
        elif cls.named_as and not text:
            reader.record.unsure.add(cls.named_as)
        if not segment or segment in used:
            segment = str(place)
        used.add(segment)
        label = f"{cls.named_as or where.label} {segment}"
        entry = reader.read(plan, part, where.under(segment, label))
        if entry is not None:
            found.append(entry)
    return tuple(found)


def _named_pairs(
    reader: "Reader", kind: Named, plan: Plan, node: Map, where: Where
) -> list[tuple[str, Pair]]:
    """Names and their values; rows of a table first, with what an overlay says of them laid on top."""
    tabled = "from" in node.pairs and Mark.TABLE in plan.marks
    own = [
        (name, pair)
        for name, pair in node.pairs.items()
        if not (name == "basis" and isinstance(pair.node, Text)) and not (tabled and name == "from")
    ]
    rows = table_of(reader, kind.held, node, where) if tabled else None
    if not isinstance(rows, Map):
        return own
    if kind.held.kinds == (One(Component),):
        rows = expanded_components(rows, reader.record.faults)
    layer = node.pairs["from"].node.layer
    over = {name: pair for name, pair in own if name in rows.pairs and pair.node.layer > layer}
    laid_on = [
        (
            name,
            Pair(over[name].spot, laid(pair.node, over[name].node, removing=True)) if name in over else pair,
        )
        for name, pair in rows.pairs.items()
    ]
    return [*laid_on, *((name, pair) for name, pair in own if name not in over)]


def read_named(reader: "Reader", kind: Named, plan: Plan, node: Node, where: Where) -> dict[str, Any] | None:
    """A mapping of names to values."""
    if not isinstance(node, Map):
        return {}
    where = reader.stated(node, where)
    held = kind.held.kinds[0] if kind.held.kinds else None
    cls = held.cls if isinstance(held, One) else None
    found: dict[str, Any] = {}
    seen: dict[str, str] = {}
    what = (cls.named_as if cls else "") or "entry"
    torn = split_by_comma(reader, node)
    for name, pair in _named_pairs(reader, kind, plan, node, where):
        if name in torn or not good_name(reader, name, pair.spot, what):
            continue
        if not unlike(reader, name, pair.spot, seen, what):
            continue
        if not _name_stands(reader, kind.name, Text(name, pair.spot), where):
            continue
        if cls and cls.named_as and not (isinstance(pair.node, Text) and pair.node.removes):
            reader.record.name(cls.named_as, name, _component_kind(cls, pair.node), pair.spot)
        entry = reader.read(kind.held, pair.node, where.under(name, spot=pair.spot))
        if entry is not None:
            found[name] = entry
    return found


def _name_stands(reader: "Reader", plan: Plan, name: Text, where: Where) -> bool:
    """Whether a name is one of the words allowed; one that refers to something is followed later."""
    if plan.refers:
        reader.record.ask(plan.refers, name, where)
    kind = plan.kinds[0]
    return not isinstance(kind, Words) or read_words(reader.record, kind, name, where) is not None


def _component_kind(cls: type[Entry], node: Node) -> str:
    if cls is not Component or not isinstance(node, Map):
        return ""
    kind = node.get("kind")
    return kind.text.strip() if isinstance(kind, Text) and kind.text.strip() in Component.kinds else ""


def _parts(reader: "Reader", kind: Row, node: Node) -> list[Node] | None:
    """The values of a row, as a list, by name, or a size in words; None where they are no such row."""
    names = dict(kind.fields)
    if isinstance(node, List):
        return node.items
    if isinstance(node, Map):
        for key, pair in node.pairs.items():
            if key not in names:
                reader.unknown(key, pair.spot, names)
                return None
        return [node.pairs[name].node for name in names if name in node.pairs]
    if kind.cls is not Size:
        return []
    return [Text(part, node.spot, node.plain, node.layer) for part in plain(node.text).split(" x ")]


def read_row(reader: "Reader", kind: Row, node: Node, where: Where) -> Any:
    """A few values in order: a point, a size, a point of a curve."""
    if isinstance(node, Text) and kind.cls is Point:
        return read_place(reader, node, where)
    parts = _parts(reader, kind, node)
    if parts is None:
        return None
    if len(parts) != len(kind.fields):
        _not_a_row(reader, kind, node, where)
        return None
    values: list[Traced] = []
    for (name, num), part in zip(kind.fields, parts, strict=True):
        inner, held = where.under(name, f"{name} of {where.label}"), part
        if isinstance(part, Map) and "is" in part.pairs:
            held, inner = reader.long_form(part, inner)
        if isinstance(held, Text):
            number = read_number(reader.record, num, held, inner, reader.basis(held, inner))
            values += [number] if number is not None else []
        else:
            what = f"{inner.label} is one figure, found {words(held)}"
            reader.record.fault(held.spot, UNREADABLE, what, "write 2.1 m")
    return kind.cls(*values) if len(values) == len(kind.fields) else None


def _not_a_row(reader: "Reader", kind: Row, node: Node, where: Where) -> None:
    """Say how many values are asked for; decimal commas make more of them."""
    count = len(kind.fields)
    shapes: dict[Any, str] = {Point: "a point has three lengths", Size: "a size has three lengths"}
    what = shapes.get(kind.cls, f"{where.label} is a list of {count} values")
    if isinstance(node, List):
        texts = [part.text.strip() for part in node.items if isinstance(part, Text)]
        commas = [f"{a}.{b}" for a, b in pairwise(texts) if a.lstrip("+-−").isdigit()]
        instead = f"write {commas[0]}" if commas and len(texts) > count else "write " + _example(kind)
        number = {1: "one item", 2: "two items", 4: "four items", 5: "five items", 6: "six items"}.get(
            len(node.items), f"{len(node.items)} items"
        )
        reader.record.fault(node.spot, UNREADABLE, f"{what}; this has {number}", instead)
    else:
        found = f"'{words(node)}'" if isinstance(node, Text) else words(node)
        reader.record.fault(node.spot, UNREADABLE, f"{what}, found {found}", "write " + _example(kind))


def _example(kind: Row) -> str:
    if kind.cls in {Point, Size}:
        return "[2.1 m, 0.4 m, 0.2 m]"
    return {"pressure": "[10 l/min, 57 kPa]", "kv": "[3, 0.9 m3/h]"}.get(kind.fields[-1][0], "[…]")
