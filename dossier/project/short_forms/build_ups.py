"""A build-up in short: plate, insulation, frames at a spacing, lining; or like another one."""

import re

from dossier.data.tables import rows
from dossier.notation import Basis, Fault
from dossier.project.nodes import Map, Node, Pair, Text
from dossier.project.overlay import merged
from dossier.project.record import REFERENCE, UNREADABLE
from dossier.project.short_forms.making import copied, fault, mapping, sequence, shortened, stated, text_of

METALS = frozenset({"steel", "stainless_steel", "aluminium"})
PARTS = ("plate", "insulation", "lining")
_OF = re.compile(r"(?P<material>[^0-9]*?[A-Za-z_)])\s+(?P<thickness>[0-9.½¼¾].*)")
_EVERY = re.compile(r"every\s+(?P<spacing>.+)")
EXAMPLES = {"plate": "steel 6 mm", "insulation": "mineral_wool 50 mm", "lining": "plywood 9 mm"}


def _like(name: str, node: Map, all_of_them: Map, faults: list[Fault], seen: tuple[str, ...] = ()) -> Map:
    """A build-up with what it takes over from the one it is like."""
    like = text_of(node.get("like"))
    if like is None:
        return node
    other_name = like.text.strip()
    other = all_of_them.get(other_name)
    if other_name in (*seen, name):
        faults.append(fault(like, REFERENCE, f"{shortened(name)} is like itself", "name another build-up"))
        return node
    if not isinstance(other, Map):
        return node
    base = _like(other_name, other, all_of_them, faults, (*seen, name))
    if {*PARTS, "frames"} & node.pairs.keys() and "layers" in base.pairs and not {*PARTS} & base.pairs.keys():
        what = f"{shortened(other_name)} is written in layers: its parts cannot be changed one by one"
        faults.append(fault(like, UNREADABLE, what, "write the layers out"))
        return node
    taken = Map({k: p for k, p in base.pairs.items() if k != "like"}, node.spot, node.layer)
    return merged(taken, node, removing=False)


def _layer(part: Node, key: str, faults: list[Fault]) -> Map | None:
    """Layer out of a text such as ``steel 6 mm``."""
    said = text_of(part)
    found = _OF.fullmatch(said.text.strip()) if said else None
    if said is None or found is None:
        shown = f"'{shortened(said.text)}'" if said else "no text"
        faults.append(
            fault(
                part,
                UNREADABLE,
                f"{key} is a material and its thickness, found {shown}",
                f"write {EXAMPLES[key]}",
            )
        )
        return None
    return mapping(part, material=found["material"].strip(), thickness=found["thickness"])


def _assumed(key: str, like: Node) -> Map:
    row = next(row for row in rows("assumptions") if row["key"] == key)
    ends: list[Node] = [Text(f"{float(row[end]) * 1000:.6g} mm", like.spot) for end in ("low", "high")]
    return stated(like, row["text"], f"assumed ({row['source']})", Basis.ASSUMED, sequence(like, ends))


def _frames(written: Text, layers: dict[str, Map], faults: list[Fault]) -> Map | None:
    """Frames out of ``every 500 mm``: of the plate's metal, as deep as the insulation."""
    found = _EVERY.fullmatch(written.text.strip())
    if not found:
        what = f"frames cannot be '{shortened(written.text)}'"
        faults.append(fault(written, UNREADABLE, what, "write frames: every 500 mm, or all their measures"))
        return None
    plate, insulation, lining = (layers.get(part) for part in PARTS)
    metal = text_of(plate.get("material")) if plate else None
    if metal is None or metal.text not in METALS or insulation is None:
        what = "frames given by their spacing alone are of the plate's metal and as deep as the insulation"
        faults.append(
            fault(
                written, UNREADABLE, what, "write {material: oak, spacing: 400 mm, web: 40 mm, depth: 60 mm}"
            )
        )
        return None
    thickness = text_of(insulation.get("thickness"))
    return mapping(
        written,
        material=metal.text,
        spacing=found["spacing"],
        web=_assumed("build_ups.frames.web", written),
        depth=stated(
            written, thickness.text if thickness else "", "as deep as the insulation", Basis.ASSUMED, "20 %"
        ),
        flange=_assumed("build_ups.frames.flange", written),
        covered_by=sequence(written, [lining]) if lining else None,
    )


def expanded_build_ups(build_ups: Map, faults: list[Fault]) -> Map:
    """Build-ups with their layers and frames written out."""
    made = copied(build_ups)
    for name, pair in build_ups.pairs.items():
        if not isinstance(pair.node, Map):
            continue
        whole = _like(name, pair.node, build_ups, faults)
        if whole is not pair.node or {*PARTS} & whole.pairs.keys() or isinstance(whole.get("frames"), Text):
            made.pairs[name] = Pair(pair.spot, _written_out(whole, faults))
    return made


def _written_out(node: Map, faults: list[Fault]) -> Map:
    made = copied(node)
    parts = [part for part in PARTS if part in node.pairs]
    if parts and "layers" in node.pairs:
        what = f"the build-up has both layers and {parts[0]}"
        faults.append(fault(node.pairs[parts[0]].node, UNREADABLE, what, "keep one of them"))
        return made
    layers = {part: layer for part in parts if (layer := _layer(node.pairs[part].node, part, faults))}
    if layers:
        items: list[Node] = [layers[part] for part in PARTS if part in layers]
        made.put("layers", sequence(node, items), node.spot)
    frames = node.get("frames")
    if isinstance(frames, Text):
        written = _frames(frames, layers, faults)
        if written is None:
            del made.pairs["frames"]
        else:
            made.pairs["frames"] = Pair(node.pairs["frames"].spot, written)
    return made
