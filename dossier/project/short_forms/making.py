"""Makes nodes for what a short form stands for; each bears the place of what it was made from."""

from dossier.notation import Basis, Fault
from dossier.project.figures import Misread, figure
from dossier.project.nodes import List, Map, Node, Pair, Text, shortened
from dossier.project.units import dimension_of


def text(words: str, like: Node) -> Text:
    """A text at the place of another node."""
    return Text(words, like.spot, plain=False, layer=like.layer)


def mapping(like: Node, **values: Node | str | None) -> Map:
    """A mapping at the place of another node; what is None is left out."""
    made = Map({}, like.spot, like.layer)
    for key, held in values.items():
        if held is not None:
            made.pairs[key.rstrip("_")] = Pair(like.spot, text(held, like) if isinstance(held, str) else held)
    return made


def sequence(like: Node, items: list[Node]) -> List:
    """A list at the place of another node."""
    return List(items, like.spot, like.layer)


def stated(
    like: Node, held: str, note: str, basis: Basis | None = None, spread: Node | str | None = None
) -> Map:
    """A value in its long form."""
    return mapping(like, is_=held, basis=str(basis) if basis else None, note=note, spread=spread)


def fault(node: Node, rank: int, what: str, instead: str) -> Fault:
    """A fault at a node."""
    return Fault(what, instead, node.spot.file, node.spot.line, node.spot.column, rank)


def text_of(node: Node | None) -> Text | None:
    """The text of a value, also out of its long form; None where it is none."""
    if isinstance(node, Map):
        node = node.get("is")
    return node if isinstance(node, Text) else None


def basis_of(node: Node | None) -> Basis | None:
    """Basis a long form states."""
    stated_basis = node.get("basis") if isinstance(node, Map) else None
    known = {basis.value: basis for basis in Basis}
    return known.get(stated_basis.text.strip()) if isinstance(stated_basis, Text) else None


def length(node: Node | None) -> float | None:
    """Length in metres, None where it is none; its fault is told where it is read."""
    said = text_of(node)
    if said is None:
        return None
    try:
        found = figure(said.text)
    except Misread:
        return None
    return float(found.amount) if found.dimension == dimension_of("m") and found.amount > 0 else None


def copied(node: Map) -> Map:
    """A mapping with pairs of its own."""
    return Map(dict(node.pairs), node.spot, node.layer)


__all__ = [
    "basis_of",
    "copied",
    "fault",
    "length",
    "mapping",
    "sequence",
    "shortened",
    "stated",
    "text",
    "text_of",
]
