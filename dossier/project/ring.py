"""Reads the circuit's lists: units, pipes and groups in flow order, which nest."""

from typing import TYPE_CHECKING, Any

from dossier.project.csv_table import table_of
from dossier.project.entries import read_entry
from dossier.project.fields import Items, Plan, keys_of
from dossier.project.lists import good_name, unlike
from dossier.project.model.circuit import UNIT, Group, Item, Pipe, Unit
from dossier.project.nearest import nearest
from dossier.project.nodes import List, Map, Node, Text, shortened, words
from dossier.project.record import KEY, MISSING, REFERENCE, UNREADABLE, Where

if TYPE_CHECKING:
    from dossier.project.reader import Reader

ITEM = "write {unit: B1}, {pipe: {size: hose 19, length: 1.2 m}} or {between: [M1, M2], branches: {…}}"
SIGNS = ("unit", "pipe", "between")
BRANCH_KEY = "circuit.branches"


def read_items(reader: "Reader", node: Node, where: Where) -> tuple[Item, ...]:
    """Items of one list; its pipes are counted from 1."""
    if not isinstance(node, List) or not node.items:
        what = (
            f"{where.label} has nothing in it"
            if isinstance(node, List)
            else f"{where.label} is a list of items"
        )
        reader.record.fault(node.spot, UNREADABLE, what, ITEM)
        reader.record.unsure.update({"unit", "pipe", "branch"})
        return ()
    items: list[Item] = []
    pipes = 0
    for part in node.items:
        sign = next((sign for sign in SIGNS if isinstance(part, Map) and sign in part.pairs), "")
        pipes += sign == "pipe"
        item: Any = None
        if isinstance(part, Map) and sign == "unit":
            item = _unit(reader, part, where)
        elif isinstance(part, Map) and sign == "pipe":
            item = _pipe(reader, part, where, f"{where.segment}_{pipes}")
        elif isinstance(part, Map) and sign == "between":
            item = _group(reader, part, where)
        else:
            _no_item(reader, part, where)
        if item is None:
            reader.record.unsure.update({"unit", "pipe", "branch"})
        else:
            items.append(item)
    return tuple(items)


def _no_item(reader: "Reader", part: Node, where: Where) -> None:
    keys = [key for key in part.pairs if nearest(key, SIGNS)] if isinstance(part, Map) else []
    if isinstance(part, Map) and keys:
        reader.record.fault(
            part.pairs[keys[0]].spot,
            KEY,
            f"unknown key '{shortened(keys[0])}'",
            f"write {nearest(keys[0], SIGNS)}",
        )
        return
    found = f"'{words(part)}'" if isinstance(part, Text) else words(part)
    reader.record.fault(
        part.spot, UNREADABLE, f"an item of {where.label} is a unit, a pipe or a group, found {found}", ITEM
    )


def _unit(reader: "Reader", part: Map, where: Where) -> Unit | None:
    tag = part.get("unit")
    segment = " ".join(tag.text.split()) if isinstance(tag, Text) else "unit"
    unit: Unit | None = read_entry(reader, Unit, part, where.under(segment))
    if unit is None or unit.unit is None:
        return None
    _once(reader, unit.unit, tag if tag is not None else part)
    return unit


def _once(reader: "Reader", tag: str, node: Node) -> None:
    """A component stands once in the circuit."""
    units = reader.record.seen.setdefault("unit", {})
    if tag in units:
        reader.record.fault(
            node.spot, REFERENCE, f"{shortened(tag)} stands twice in the circuit", "keep it once"
        )
    units[tag] = tag
    reader.record.name("unit", tag, "", node.spot)


def _pipe(reader: "Reader", part: Map, where: Where, numbered: str) -> Pipe | None:
    for key, pair in part.pairs.items():
        if key not in {"pipe", "basis"}:
            reader.unknown(key, pair.spot, frozenset({"pipe", *keys_of(Pipe)}))
    body = part.pairs["pipe"].node
    if not isinstance(body, Map):
        found = f"'{words(body)}'" if isinstance(body, Text) else words(body)
        reader.record.fault(
            body.spot, UNREADABLE, f"pipe is a mapping, found {found}", f"write pipe: {Pipe.example}"
        )
        return None
    return read_pipe(reader, body, reader.stated(part, where), numbered)


def read_pipe(reader: "Reader", body: Map, where: Where, numbered: str) -> Pipe | None:
    """A pipe under its own name, or under the one its list gives it."""
    own = body.get("id")
    name = " ".join(own.text.split()) if isinstance(own, Text) and own.text.strip() else numbered
    inner = where.under(name, f"pipe {name}")
    reader.record.line(inner, body, reader.basis(body, inner))
    pipe: Pipe | None = read_entry(reader, Pipe, body, inner)
    spot = own.spot if own is not None else body.spot
    if good_name(reader, name, spot, "pipe"):
        unlike(reader, name, spot, reader.record.seen.setdefault("pipe", {}), "pipe")
        reader.record.name("pipe", name, "", spot)
    if pipe is None or pipe.id == name:
        return pipe
    named = pipe.model_copy(update={"id": name})
    named._key = inner.key  # noqa: SLF001 - the reader alone sets it
    return named


def read_link_pipe(reader: "Reader", body: Map, where: Where) -> Pipe | None:
    """The pipe of a link, named by the number of the link."""
    links, number, _ = where.key.rsplit(".", 2)
    return read_pipe(reader, body, Where(links, "links", where.basis, where.layer), f"links_{number}")


def _group(reader: "Reader", part: Map, where: Where) -> Group | None:
    known = keys_of(Group)
    for key, pair in part.pairs.items():
        if key not in known and key != "basis":
            reader.unknown(key, pair.spot, frozenset(known))
    where = reader.stated(part, where)
    ends = part.pairs["between"].node
    tags = [item for item in ends.items if isinstance(item, Text)] if isinstance(ends, List) else []
    found = f"{len(ends.items)}" if isinstance(ends, List) else words(ends)
    if len(tags) != 2 or not isinstance(ends, List) or len(ends.items) != 2:  # noqa: PLR2004 - two ends
        reader.record.fault(
            ends.spot,
            UNREADABLE,
            f"between names the two units where branches part and meet again, found {found}",
            "write between: [M1, M2]",
        )
        return None
    for tag in tags:
        reader.record.ask(UNIT, tag, where.under("between"))
        _once(reader, tag.text, tag)
    branches = part.get("branches")
    if branches is None:
        reader.record.fault(part.spot, MISSING, "the group has no branches", f"write {Group.example}")
        return None
    if not isinstance(branches, Map):
        reader.record.fault(
            branches.spot,
            UNREADABLE,
            f"branches is a mapping, found {words(branches)}",
            f"write {Group.example}",
        )
        return None
    key = f"{where.key}.{'_'.join(tag.text for tag in tags)}"
    reader.record.line(Where(key, "between"), part, reader.basis(part, where))
    group = Group.model_construct(
        None, between=(tags[0].text, tags[1].text), branches=read_branches(reader, branches, where)
    )
    group._key = key  # noqa: SLF001 - the reader alone sets it
    return group


def read_branches(reader: "Reader", node: Map, where: Where) -> dict[str, tuple[Item, ...]]:
    """Branches by name; names differ over the whole circuit, since results bear them."""
    where = reader.stated(node, where)
    found: dict[str, tuple[Item, ...]] = {}
    pairs = dict(node.pairs)
    if pairs.pop("from", None):
        rows = table_of(reader, Plan((Items(),)), node, where)
        pairs = {**rows.pairs, **pairs} if isinstance(rows, Map) else pairs
        if rows is None:
            return {}
    for name, pair in pairs.items():
        if (name == "basis" and isinstance(pair.node, Text)) or (
            isinstance(pair.node, Text) and pair.node.removes
        ):
            continue
        if not good_name(reader, name, pair.spot, "branch"):
            continue
        if not unlike(reader, name, pair.spot, reader.record.seen.setdefault("branch", {}), "branch"):
            continue
        reader.record.name("branch", name, "", pair.spot)
        inner = Where(
            f"{BRANCH_KEY}.{name}", f"branch {name}", where.basis, where.layer, where.note, None, name
        )
        reader.record.line(inner, pair.node, reader.basis(pair.node, inner))
        found[name] = read_items(reader, pair.node, inner)
    if not pairs.keys() - {"basis"}:
        reader.record.fault(node.spot, UNREADABLE, "the group has no branches", f"write {Group.example}")
    return found
