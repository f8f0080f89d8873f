"""Lays one mapping over another: mappings merge key by key, lists are replaced whole, ``none`` removes.

A value in its long form and a component of another kind are replaced whole as well: the parts of the old one
mean nothing in the new.
"""

from dataclasses import replace

from dossier.notation import Fault
from dossier.project.nearest import listed, nearest
from dossier.project.nodes import List, Map, Node, Pair, Text, shortened, words
from dossier.project.record import KEY, REFERENCE, UNREADABLE

INSERT_KEYS = frozenset({"unit", "pipe", "between", "branches", "before", "after"})


def _fault(node: Node, rank: int, what: str, instead: str) -> Fault:
    return Fault(what, instead, node.spot.file, node.spot.line, node.spot.column, rank)


def _is_none(node: Node) -> bool:
    return isinstance(node, Text) and node.text.strip().casefold() == "none"


def _word(node: Map, key: str) -> str:
    held = node.get(key)
    return held.text.strip() if isinstance(held, Text) else ""


def merged(base: Map, over: Map, *, removing: bool = True) -> Map:
    """The base with an overlay on it; neither is changed."""
    pairs = dict(base.pairs)
    for key, pair in over.pairs.items():
        old = base.pairs.get(key)
        pairs[key] = Pair(pair.spot, laid(old.node, pair.node, removing=removing)) if old else pair
    return Map(pairs, base.spot, base.layer)


def laid(old: Node, new: Node, *, removing: bool) -> Node:
    """A value with another laid over it."""
    if isinstance(new, Text):
        return replace(new, removes=True) if removing and _is_none(new) else new
    if isinstance(old, Map) and isinstance(new, Map):
        long_form = "is" in old.pairs or "is" in new.pairs
        table = "from" in new.pairs
        other_kind = "kind" in new.pairs and _word(new, "kind") != _word(old, "kind")
        return new if long_form or table or other_kind else merged(old, new, removing=removing)
    return new


def take_insertions(over: Map) -> tuple[Map, Node | None]:
    """An overlay without ``circuit: {insert: […]}``, and that list."""
    circuit = over.get("circuit")
    if not isinstance(circuit, Map) or "insert" not in circuit.pairs:
        return over, None
    rest = {key: pair for key, pair in circuit.pairs.items() if key != "insert"}
    pairs = {key: pair for key, pair in over.pairs.items() if key != "circuit" or rest}
    if rest:
        pairs["circuit"] = Pair(over.pairs["circuit"].spot, Map(rest, circuit.spot, circuit.layer))
    return Map(pairs, over.spot, over.layer), circuit.pairs["insert"].node


def _tags(node: Node | None) -> list[str]:
    """Tags of all units under a node of the circuit."""
    if isinstance(node, List):
        return [tag for item in node.items for tag in _tags(item)]
    if isinstance(node, Map):
        own = [_word(node, "unit")] if "unit" in node.pairs else []
        branches = node.get("branches")
        inner = [pair.node for pair in branches.pairs.values()] if isinstance(branches, Map) else []
        return own + [tag for branch in inner for tag in _tags(branch)]
    return []


def _with(node: Node, target: str, item: Node, *, after: bool) -> tuple[Node, bool]:
    """A list of the circuit with an item put before or after a unit, and whether that was found."""
    if isinstance(node, List):
        items: list[Node] = []
        found = False
        for part in node.items:
            here = isinstance(part, Map) and _word(part, "unit") == target
            kept, inner = (
                (part, False) if here or not isinstance(part, Map) else _with(part, target, item, after=after)
            )
            items += [item, kept] if here and not after else [kept, item] if here else [kept]
            found = found or here or inner
        return List(items, node.spot, node.layer), found
    if isinstance(node, Map) and isinstance(branches := node.get("branches"), Map):
        pairs, found = {}, False
        for name, pair in branches.pairs.items():
            kept, inner = _with(pair.node, target, item, after=after)
            pairs[name] = Pair(pair.spot, kept)
            found = found or inner
        changed = Map({**node.pairs}, node.spot, node.layer)
        changed.pairs["branches"] = Pair(
            node.pairs["branches"].spot, Map(pairs, branches.spot, branches.layer)
        )
        return changed, found
    return node, False


def inserted(root: Map, insertions: Node) -> tuple[Map, list[Fault]]:
    """The project with items inserted into its circuit, and what is wrong with them."""
    circuit = root.get("circuit")
    if not isinstance(insertions, List):
        return root, [
            _fault(insertions, UNREADABLE, "insert is a list", "write insert: [{unit: T1, before: P1}]")
        ]
    if not isinstance(circuit, Map):
        return root, [
            _fault(insertions, REFERENCE, "there is no circuit to insert into", "write the circuit first")
        ]
    faults: list[Fault] = []
    for part in insertions.items:
        fault = _bad_insertion(part)
        if fault or not isinstance(part, Map):
            faults += [fault] if fault else []
            continue
        after = "after" in part.pairs
        place = part.pairs["after" if after else "before"].node
        target = place.text.strip() if isinstance(place, Text) else ""
        item = Map(
            {k: p for k, p in part.pairs.items() if k not in {"before", "after"}}, part.spot, part.layer
        )
        pairs, found = dict(circuit.pairs), False
        for key in ("ring", "branches"):
            if not found and key in pairs:
                holder: Node = pairs[key].node
                if key == "branches":
                    holder = Map({"branches": pairs[key]}, holder.spot)
                changed, found = _with(holder, target, item, after=after)
                if found:
                    held = (
                        changed.get("branches") if key == "branches" and isinstance(changed, Map) else changed
                    )
                    pairs[key] = Pair(pairs[key].spot, held) if held is not None else pairs[key]
        if not found:
            known = [
                *_tags(circuit.get("ring")),
                *_tags(Map({"branches": pairs["branches"]}, circuit.spot) if "branches" in pairs else None),
            ]
            near = nearest(target, known)
            instead = f"write {near}" if near else f"known: {listed(known)}"
            faults.append(
                _fault(place, REFERENCE, f"no unit of the circuit is called '{shortened(target)}'", instead)
            )
            continue
        circuit = Map(pairs, circuit.spot, circuit.layer)
    changed_root = Map(dict(root.pairs), root.spot, root.layer)
    changed_root.pairs["circuit"] = Pair(root.pairs["circuit"].spot, circuit)
    return changed_root, faults


def _bad_insertion(part: Node) -> Fault | None:
    """What is wrong with an insertion, None if nothing is."""
    example = "write {unit: T1, before: P1}"
    if not isinstance(part, Map):
        return _fault(part, UNREADABLE, f"an insertion is a mapping, found {words(part)}", example)
    for key, pair in part.pairs.items():
        if key not in INSERT_KEYS:
            near = nearest(key, INSERT_KEYS)
            return Fault(
                f"unknown key '{shortened(key)}'",
                f"write {near}" if near else example,
                pair.spot.file,
                pair.spot.line,
                pair.spot.column,
                KEY,
            )
    if ("before" in part.pairs) == ("after" in part.pairs):
        return _fault(part, UNREADABLE, "an insertion stands before one unit, or after one", example)
    return None
