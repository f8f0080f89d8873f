"""A component out of the table of typical parts, until its plate is read."""

from dossier.notation import Basis, Fault
from dossier.project.known import typical_parts
from dossier.project.nearest import listed, nearest
from dossier.project.nodes import List, Map, Node, Pair, Text
from dossier.project.overlay import merged
from dossier.project.record import REFERENCE, UNREADABLE
from dossier.project.short_forms.making import copied, fault, shortened, stated, text
from dossier.project.syntax import compose


def _at(node: Node, like: Text) -> Node:
    """Node at the place of the short form."""
    if isinstance(node, List):
        return List([_at(item, like) for item in node.items], like.spot, like.layer)
    if isinstance(node, Map):
        pairs = {key: Pair(like.spot, _at(pair.node, like)) for key, pair in node.pairs.items()}
        return Map(pairs, like.spot, like.layer)
    return text(node.text, like)


def _typical(name: str, like: Text) -> Map:
    """All values of a typical part, each assumed with its spread."""
    part = Map({}, like.spot, like.layer)
    part.put("basis", text(str(Basis.ASSUMED), like))
    for row in typical_parts()[name]:
        node, _ = compose(row["value"], "typical_parts.csv")
        held: Node = _at(node, like) if node is not None else text("", like)
        if row["spread"] and isinstance(held, Text):
            held = stated(like, held.text, f"typical {name} ({row['source']})", Basis.ASSUMED, row["spread"])
        target = part
        *outer, last = row["key"].split(".")
        for segment in outer:
            inner = target.get(segment)
            if not isinstance(inner, Map):
                inner = Map({}, like.spot, like.layer)
                target.put(segment, inner)
            target = inner
        target.put(last, held)
    return part


def expanded_components(components: Map, faults: list[Fault]) -> Map:
    """Components with what is typical of them written out, and what is stated on top."""
    made = components
    for tag, pair in components.pairs.items():
        said = pair.node.get("typical") if isinstance(pair.node, Map) else None
        if said is None or not isinstance(pair.node, Map):
            continue
        made = copied(components) if made is components else made
        own = Map(
            {k: p for k, p in pair.node.pairs.items() if k != "typical"}, pair.node.spot, pair.node.layer
        )
        name = " ".join(said.text.split()) if isinstance(said, Text) else ""
        if not isinstance(said, Text) or name not in typical_parts():
            near = nearest(name, typical_parts())
            instead = f"write {near}" if near else f"known: {listed(typical_parts(), 30)}"
            rank = REFERENCE if isinstance(said, Text) else UNREADABLE
            faults.append(fault(said, rank, f"no typical part is called '{shortened(name)}'", instead))
            continue
        own_layer = merged(_typical(name, said), own, removing=False)
        made.pairs[tag] = Pair(pair.spot, own_layer)
    return made
