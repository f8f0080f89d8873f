"""Faults told with the thing they are about, so that a message makes sense without the file beside it."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from dossier.notation import Fault
from dossier.project.nodes import List, Map, Node, Spot, Text, shortened

NAMING = ("id", "name")
"""Keys by which an item of a list is known."""
LONGEST_NAME = 30


def with_places(faults: Iterable[Fault], root: Node) -> list[Fault]:
    """The faults, each with the names of the entries round it; those of no entry stay as they are."""
    found = list(faults)
    asked = {Spot(fault.file, fault.line, fault.column) for fault in found if fault.line}
    names: dict[Spot, str] = {}
    for spot, name in _spots(root, "") if asked else ():
        if spot in asked:
            names.setdefault(spot, name)
    return [_with_name(fault, names.get(Spot(fault.file, fault.line, fault.column), "")) for fault in found]


def _with_name(fault: Fault, name: str) -> Fault:
    """The fault of an entry; a name it begins with itself is not said again."""
    outer, _, last = name.rpartition(".")
    repeated = last and fault.what.startswith((f"{last}:", f"{last} "))
    return replace(fault, of=fault.of or (outer if repeated else name))


def _spots(node: Node, name: str) -> Iterator[tuple[Spot, str]]:
    """Places of keys and values under a node, each with the name of the entry it belongs to."""
    if isinstance(node, Map):
        for key, pair in node.pairs.items():
            yield pair.spot, name
            if not isinstance(pair.node, Map):
                yield pair.node.spot, name
            yield from _spots(pair.node, under(name, key))
    elif isinstance(node, List):
        for item in node.items:
            called = under(name, called_in_list(item))
            yield item.spot, called
            yield from _spots(item, called)


def called_in_list(item: Node) -> str:
    """What an item of a list is called, empty for one without a name."""
    held = [item.get(key) for key in NAMING] if isinstance(item, Map) else []
    return next((inner.text for inner in held if isinstance(inner, Text) and inner.text), "")


def under(name: str, more: str) -> str:
    """A name below another, dotted."""
    said = shortened(more, LONGEST_NAME)
    return f"{name}.{said}" if name and said else name or said
