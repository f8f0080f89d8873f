"""Reads an entry: each key by its plan, then what is missing, then what contradicts itself."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from dossier.project.fields import Key, keys_of, kinds_keys, name_from_key
from dossier.project.model.components import Component
from dossier.project.model.entry import Entry, Objection
from dossier.project.nearest import listed, nearest
from dossier.project.nodes import Map, Node, Spot, Text, shortened, words
from dossier.project.record import KEY, MISSING, UNREADABLE, Where

if TYPE_CHECKING:
    from dossier.project.reader import Reader


@dataclass
class Read:
    """What reading the keys of an entry gave.

    ``unread`` are keys without value, ``faulty`` those with a fault in them, ``meant`` the keys that unknown
    ones may mean: none of them is told a second time as missing.
    """

    values: dict[str, Any] = field(default_factory=dict)
    unread: set[str] = field(default_factory=set)
    faulty: set[str] = field(default_factory=set)
    meant: set[str] = field(default_factory=set)

    def excuses(self, objection: Objection) -> bool:
        """Whether an objection only repeats a fault that is told already."""
        if objection.key in self.faulty:
            return True
        empty = any(not self.values.get(key) for key in self.faulty)
        return objection.missing and bool(self.unread or self.meant or empty)


def split_by_comma(reader: "Reader", node: Map) -> set[str]:
    """Keys torn apart by a decimal comma in braces: ``{area: 3,2 m2}`` is area 3 and a key ``2 m2``."""
    torn: set[str] = set()
    pairs = list(node.pairs.items())
    for (key, pair), (rest, after) in pairwise(pairs):
        held, nothing = pair.node, after.node
        if not (isinstance(held, Text) and isinstance(nothing, Text) and rest[:1].isdigit()):
            continue
        whole = held.plain and re.fullmatch(r"[-+−]?[0-9]+(\.[0-9]{3})*", held.text)
        if whole and nothing.plain and not nothing.text:
            torn |= {key, rest}
            what = f"{shortened(key)} is torn by its comma, found '{held.text},{shortened(rest)}'"
            thousands = "" if "." in held.text else _thousands(held.text, rest)
            meant = f"{held.text.replace('.', '')}.{shortened(rest)}"
            instead = f"write {shortened(key)}: {f'{thousands} or ' if thousands else ''}{meant}"
            reader.record.fault(held.spot, UNREADABLE, what, instead)
    return torn


def _thousands(whole: str, rest: str) -> str:
    """The figure if the comma parted thousands: ``1,200 l`` may be 1200 l."""
    found = re.match(r"[0-9]{3}(?![0-9.])", rest)
    return f"{whole}{shortened(rest)}" if found and whole.lstrip("+-−") not in {"", "0"} else ""


def _read_keys(reader: "Reader", keys: Mapping[str, Key], node: Map, where: Where) -> Read:
    """Values by attribute, and what went wrong."""
    read = Read()
    torn = split_by_comma(reader, node)
    read.unread |= torn & keys.keys()
    for name, pair in node.pairs.items():
        key = keys.get(name)
        before = len(reader.record.faults)
        if name in torn or (name == "basis" and key is None):
            continue
        if key is None:
            read.meant.add(reader.unknown(name, pair.spot, keys))
            continue
        held = reader.read(key.plan, pair.node, where.under(name, spot=pair.spot))
        if held is not None:
            read.values[key.attribute] = held
        elif not (isinstance(pair.node, Text) and pair.node.removes):
            read.unread.add(name)
        if len(reader.record.faults) > before:
            read.faulty.add(name)
    return read


def _object(reader: "Reader", objection: Objection, node: Map) -> None:
    pair = node.pairs.get(objection.key)
    spot = pair.node.spot if pair else node.spot
    if objection.doubt:
        reader.record.doubt(spot, objection.what, objection.instead)
    else:
        rank = MISSING if objection.missing else UNREADABLE
        reader.record.fault(spot, rank, objection.what, objection.instead)


def read_entry(reader: "Reader", cls: type[Entry], node: Map, where: Where) -> Any:
    """An entry; where some keys are faulty, the entry without them, so that others are still looked at."""
    if cls is Component:
        kind = component_kind(reader, node, where)
        if kind is None:
            return None
        cls = kind
    keys = keys_of(cls)
    where = where if "basis" in keys else reader.stated(node, where)
    reader.record.line(where, node, reader.basis(node, where))
    read = _read_keys(reader, keys, node, where)
    required = {name: key for name, key in keys.items() if key.required}
    for name, key in required.items():
        if name not in node.pairs and name not in read.meant:
            needed = f" ({key.needed_by} needs it)" if key.needed_by else ""
            example = f"write {cls.example}" if cls.example else f"write {name}:"
            reader.record.fault(node.spot, MISSING, f"{where.label} has no {name}", example + needed)
    absent = {key.attribute: None for key in required.values() if key.attribute not in read.values}
    name_field = name_from_key(cls)
    if name_field:
        read.values[name_field] = where.segment
    entry = cls.model_construct(None, **absent, **read.values)
    entry._key = where.key  # noqa: SLF001 - the reader alone sets it
    for objection in entry.objections() if not absent else ():
        if not read.excuses(objection):
            _object(reader, objection, node)
    return entry


def _fitting_kinds(node: Map) -> str:
    """Which kinds of component have all the keys that are written."""
    fitting = [
        word for word, cls in sorted(Component.kinds.items()) if node.pairs.keys() <= keys_of(cls).keys()
    ]
    if not fitting or len(fitting) == len(Component.kinds):
        return "write {kind: burner, …}"
    return f"begin it with kind: and one of: {listed(fitting, 40)}"


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
            reader.record.fault(node.spot, MISSING, f"{where.label} has no kind", _fitting_kinds(node))
        return None
    if not isinstance(kind, Text):
        reader.record.fault(
            kind.spot, UNREADABLE, f"kind is one word, found {words(kind)}", "write kind: burner"
        )
        return None
    word = kind.text.strip()
    if word in Component.kinds:
        return Component.kinds[word]
    near = nearest(word, Component.kinds)
    instead = f"write {near}" if near else f"write one of: {listed(sorted(Component.kinds), 40)}"
    reader.record.fault(kind.spot, UNREADABLE, f"there is no kind of component '{shortened(word)}'", instead)
    return None
