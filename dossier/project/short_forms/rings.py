"""The ring in short: ``P1``, ``hose 22, 1.6 m, 2 bends``, ``M1 to M2``."""

import re

from dossier.notation import Fault
from dossier.project.nodes import List, Map, Node, Pair, Text
from dossier.project.record import UNREADABLE
from dossier.project.short_forms.making import copied, fault, mapping, sequence, shortened, text

_BETWEEN = re.compile(r"(?P<one>\S+)\s+to\s+(?P<other>\S+)")
_BENDS = re.compile(r"(?P<count>[0-9]+)\s+bends?")


def _pipe(item: Text, faults: list[Fault]) -> Map | None:
    """A pipe out of its size, length and bends."""
    size, *rest = (part.strip() for part in item.text.split(","))
    keys: dict[str, str] = {"size": size}
    for part in rest:
        bends = _BENDS.fullmatch(part)
        key = "bends" if bends else "length"
        if key in keys:
            what = f"the pipe '{shortened(item.text)}' has its {key} twice"
            faults.append(fault(item, UNREADABLE, what, 'write "hose 22, 1.6 m, 2 bends"'))
            return None
        keys[key] = bends["count"] if bends else part
    return mapping(item, pipe=mapping(item, **keys))


def _items(node: List, branches: Pair | None, faults: list[Fault], used: list[Text]) -> List:
    """A list of items with its short ones written out."""
    made: list[Node] = []
    for item in node.items:
        if isinstance(item, Map):
            made.append(_group(item, faults, used))
        elif not isinstance(item, Text):
            made.append(item)
        elif found := _BETWEEN.fullmatch(item.text.strip()):
            used.append(item)
            ends: list[Node] = [text(found["one"], item), text(found["other"], item)]
            group = mapping(item, between=sequence(item, ends))
            if branches and len(used) == 1:
                group.pairs["branches"] = branches
            made.append(group)
        elif "," in item.text:
            pipe = _pipe(item, faults)
            made += [pipe] if pipe else []
        else:
            made.append(mapping(item, unit=" ".join(item.text.split())))
    return List(made, node.spot, node.layer)


def _group(item: Map, faults: list[Fault], used: list[Text]) -> Map:
    branches = item.get("branches")
    if not isinstance(branches, Map):
        return item
    made = copied(item)
    made.pairs["branches"] = Pair(item.pairs["branches"].spot, _branches(branches, faults, used))
    return made


def _branches(node: Map, faults: list[Fault], used: list[Text]) -> Map:
    pairs = {
        name: Pair(pair.spot, _items(pair.node, None, faults, used)) if isinstance(pair.node, List) else pair
        for name, pair in node.pairs.items()
    }
    return Map(pairs, node.spot, node.layer)


def expanded_circuit(circuit: Map, faults: list[Fault]) -> Map:
    """The circuit with its units, pipes and groups written out."""
    ring = circuit.get("ring")
    if not isinstance(ring, List):
        return circuit
    used: list[Text] = []
    branches = circuit.pairs.get("branches")
    inner = branches
    if branches and isinstance(branches.node, Map):
        inner = Pair(branches.spot, _branches(branches.node, faults, []))
    made = copied(circuit)
    made.pairs["ring"] = Pair(circuit.pairs["ring"].spot, _items(ring, inner, faults, used))
    if branches and used:
        del made.pairs["branches"]
    elif branches:
        what = "branches stand beside the ring and no group of it is written 'M1 to M2'"
        faults.append(fault(branches.node, UNREADABLE, what, 'write "M1 to M2" into the ring'))
        del made.pairs["branches"]
    if branches and len(used) > 1:
        what = "the ring has more than one group in short form"
        faults.append(fault(used[1], UNREADABLE, what, "write {between: [M1, M2], branches: {…}} for each"))
    return made
