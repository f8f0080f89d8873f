"""Reads the alternatives: the project again with each overlay on it, checked in full."""

from dataclasses import replace

from dossier.notation import Basis, Fault
from dossier.project.fields import keys_of
from dossier.project.model.file import ProjectFile
from dossier.project.model.papers import Alternative
from dossier.project.nodes import Map, Node, Text, in_layer
from dossier.project.overlay import merged, take_insertions
from dossier.project.reader import Reader
from dossier.project.record import KEY
from dossier.project.sections import TOP, Reading, Section, read_sections
from dossier.project.source_file import Folder

NOT_IN_OVERLAY = frozenset({"format", "include", "alternatives"})
OVERLAY = 1


def default_basis(root: Node | None) -> Basis | None:
    """Basis that holds for a whole file; its faults are told where it is read."""
    said = root.get("defaults") if isinstance(root, Map) else None
    basis = said.get("basis") if isinstance(said, Map) else None
    known = {b.value: b for b in Basis}
    return known.get(basis.text.strip()) if isinstance(basis, Text) else None


def at(node: Node, rank: int, what: str, instead: str) -> Fault:
    """A fault at a node."""
    return Fault(what, instead, node.spot.file, node.spot.line, node.spot.column, rank)


def read_alternatives(
    root: Map, folder: Folder, defaults: dict[int, Basis], base: Reading, faults: list[Fault]
) -> dict[str, Reading]:
    """Readings of all alternatives; faults of the base are not told again."""
    node = root.get("alternatives")
    if node is None:
        return {}
    reader = Reader(folder, defaults)
    read: dict[str, Alternative] = {}
    found: dict[str, Reading] = {}
    base.sections["alternatives"] = Section(node, read, reader.record)
    known = set(faults) | set(base.doubts)
    plan = keys_of(ProjectFile)["alternatives"].plan
    notes = _notes(node)
    held = reader.read(plan, notes if isinstance(notes, Map) else node, TOP.under("alternatives"))
    faults += reader.record.faults
    if not isinstance(node, Map) or not isinstance(held, dict):
        return found
    read.update(held)
    plain = Map({key: pair for key, pair in root.pairs.items() if key != "alternatives"}, root.spot)
    for name in held:
        overlay = node.pairs[name].node
        other = _alternative(overlay, plain, folder, defaults, base)
        faults += [_told(fault, name) for fault in other.faults if fault not in known]
        other.doubts = [doubt for doubt in other.doubts if doubt not in known] + base.doubts
        found[name] = other
    return found


def _notes(node: Node) -> Node:
    """Alternatives with their notes alone, for the model to read."""
    if not isinstance(node, Map):
        return node
    own = keys_of(Alternative)
    pairs = {}
    for name, pair in node.pairs.items():
        held = pair.node
        if isinstance(held, Map):
            held = Map({key: p for key, p in held.pairs.items() if key in own or key == "basis"}, held.spot)
        pairs[name] = type(pair)(pair.spot, held)
    return Map(pairs, node.spot)


def _alternative(
    overlay: Node, root: Map, folder: Folder, defaults: dict[int, Basis], base: Reading
) -> Reading:
    """Reading of the project with one overlay on it."""
    if not isinstance(overlay, Map):
        return Reading()
    own = keys_of(Alternative)
    stated = in_layer(Map({k: p for k, p in overlay.pairs.items() if k not in own}, overlay.spot), OVERLAY)
    if not isinstance(stated, Map):
        return Reading()
    faults = [
        at(pair.node, KEY, f"an alternative has no {key}", "write it in the project file")
        for key, pair in stated.pairs.items()
        if key in NOT_IN_OVERLAY
    ]
    over, insertions = take_insertions(stated)
    kept = Map(
        {key: pair for key, pair in over.pairs.items() if key not in NOT_IN_OVERLAY}, over.spot, over.layer
    )
    whole = merged(root, kept)
    basis = default_basis(kept)
    layers = {**defaults, OVERLAY: basis} if basis else defaults
    reading = read_sections(whole, folder, layers, (root, base), insertions)
    reading.faults += faults
    return reading


def _told(fault: Fault, name: str) -> Fault:
    """A fault that an alternative alone has, with its name."""
    return replace(fault, what=f"alternative {name}: {fault.what}")
