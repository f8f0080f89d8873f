"""Reads an entry: each key by its plan, then what is missing, then what contradicts itself."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from dossier.project.fields import Key, keys_of, kinds_keys, name_from_key
from dossier.project.model.components import Component
from dossier.project.model.entry import Entry, Objection
from dossier.project.nearest import listed, nearest
from dossier.project.nodes import Map, Node, Spot, Text, shortened, words
from dossier.project.record import KEY, MISSING, RANGE, VALUE, Where

if TYPE_CHECKING:
    from dossier.project.reader import Reader

KEYS_OF_ALL = frozenset({"basis", "note"})


def _values(
    reader: "Reader", keys: Mapping[str, Key], node: Map, where: Where, given: frozenset[str]
) -> tuple[dict[str, Any], set[str], set[str]]:
    """Values by attribute; the keys that could not be read; the keys meant by unknown ones."""
    values: dict[str, Any] = {}
    unread: set[str] = set()
    meant: set[str] = set()
    for name, pair in node.pairs.items():
        key = keys.get(name)
        if key is not None:
            value = reader.read(key.plan, pair.value, where.under(name, spot=pair.spot))
            if value is not None:
                values[key.attribute] = value
            elif not (isinstance(pair.value, Text) and pair.value.removes):
                unread.add(name)
        elif name not in given and name != "basis":
            meant.add(reader.unknown(name, pair.spot, keys))
    return values, unread, meant


def _object(reader: "Reader", objection: Objection, node: Map) -> None:
    pair = node.pairs.get(objection.key)
    spot = pair.value.spot if pair else node.spot
    if objection.doubt:
        reader.record.doubt(spot, objection.what, objection.instead)
    else:
        rank = MISSING if objection.missing else VALUE
        reader.record.fault(spot, rank, objection.what, objection.instead)


def read_entry(
    reader: "Reader", cls: type[Entry], node: Map, where: Where, given: frozenset[str] = frozenset()
) -> Any:
    """An entry; where some keys are faulty, the entry without them, so that the others are still looked at.

    ``given`` names keys somebody else reads.
    """
    if cls is Component:
        kind = component_kind(reader, node, where)
        if kind is None:
            return None
        cls = kind
    keys = keys_of(cls)
    where = where if "basis" in keys else reader.stated(node, where)
    reader.record.line(where, node, reader.basis(node, where))
    values, unread, meant = _values(reader, keys, node, where, given)
    for name, key in keys.items():
        if key.required and name not in node.pairs and name not in meant:
            needed = f" ({key.needed_by} needs it)" if key.needed_by else ""
            example = f"write {cls.example}" if cls.example else f"write {name}:"
            reader.record.fault(node.spot, MISSING, f"{where.label} has no {name}", example + needed)
    absent = {key.attribute: None for key in keys.values() if key.required and key.attribute not in values}
    name_field = name_from_key(cls)
    if name_field:
        values[name_field] = where.segment
    entry = cls.model_construct(None, **absent, **values)
    entry._key = where.key  # noqa: SLF001 - the reader alone sets it
    blurred = bool(unread or meant)
    if not absent:
        for objection in entry.objections():
            if not (objection.key in unread or (objection.missing and blurred)):
                _object(reader, objection, node)
    return entry


def component_kind(reader: "Reader", node: Map, where: Where) -> type[Component] | None:
    """Class of a component by the word under ``kind``."""
    kind: Node | None = node.get("kind")
    if kind is None:
        if "typical" in node.pairs:
            return None
        meant = [name for name in node.pairs if name not in kinds_keys() and nearest(name, ["kind"])]
        if meant:
            spot: Spot = node.pairs[meant[0]].spot
            reader.record.fault(spot, KEY, f"unknown key '{shortened(meant[0])}'", "write kind")
        else:
            reader.record.fault(node.spot, MISSING, f"{where.label} has no kind", "write {kind: burner, …}")
        return None
    if not isinstance(kind, Text):
        reader.record.fault(kind.spot, VALUE, f"kind is one word, found {words(kind)}", "write kind: burner")
        return None
    word = kind.text.strip()
    if word in Component.kinds:
        return Component.kinds[word]
    near = nearest(word, Component.kinds)
    instead = f"write {near}" if near else f"write one of: {listed(sorted(Component.kinds), 40)}"
    reader.record.fault(kind.spot, VALUE, f"there is no kind of component '{shortened(word)}'", instead)
    return None


__all__ = ["RANGE", "component_kind", "read_entry"]
