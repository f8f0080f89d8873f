"""A room by its measures: its sides above and below water, sole, deck, ends and volume."""

import re
from itertools import pairwise
from math import hypot

from dossier.data.tables import rows
from dossier.notation import Basis, Fault
from dossier.project.figures import Misread, figure
from dossier.project.nodes import List, Map, Node, Text
from dossier.project.record import MISSING, UNREADABLE
from dossier.project.short_forms.making import (
    basis_of,
    copied,
    fault,
    length,
    mapping,
    sequence,
    shortened,
    stated,
    text,
    text_of,
)
from dossier.project.units import dimension_of

SPREAD = "15 %"
SIDES = ("port", "starboard")
HOUR = 3600
_WINDOW = re.compile(r"(?P<area>.+?)\s+(?P<glazing>(?:single|double|triple)\b.*)", re.IGNORECASE)


class Room:
    """Measures of a room in metres, and the areas they give."""

    def __init__(self, long: float, wide: list[float], high: float, under_water: float) -> None:
        self.long, self.wide, self.high, self.under_water = long, wide, high, min(under_water, high)
        step = long / max(len(wide) - 1, 1)
        spans = list(pairwise(wide)) or [(wide[0], wide[0])]
        self.floor = sum(step * (a + b) / 2 for a, b in spans)
        self.side = sum(hypot(step, (a - b) / 2) for a, b in spans)


def room_of(node: Node | None) -> Room | None:
    """A room whose measures can all be read."""
    if not isinstance(node, Map):
        return None
    wide = node.get("wide")
    if isinstance(wide, Map):
        wide = wide.get("is")
    widths = [length(item) for item in wide.items] if isinstance(wide, List) else [length(wide)]
    long, high = length(node.get("long")), length(node.get("high"))
    under = length(node.get("under_water")) if "under_water" in node.pairs else 0.0
    known = [width for width in widths if width is not None]
    if long is None or high is None or under is None or not known or len(known) != len(widths):
        return None
    return Room(long, known, high, under)


def _weakest(node: Map) -> Basis | None:
    """Weakest basis the measures of a room state for themselves."""
    found = [basis for pair in node.pairs.values() if (basis := basis_of(pair.node))]
    own = node.get("basis")
    if isinstance(own, Text) and own.text.strip() in {basis.value for basis in Basis}:
        found.append(Basis(own.text.strip()))
    return max(found, key=lambda basis: basis.weakness) if found else None


def _section(
    like: Node, name: str, area: float, how: str, basis: Basis | None, **keys: Node | str | None
) -> Map:
    """A section as the long form has it."""
    written = stated(like, f"{area:.6g} m2", f"from room: {how}", basis, SPREAD)
    return mapping(like, name=name, area=written, **keys)


def _faces(like: Node, beyond: str) -> Node:
    return text(beyond, like) if beyond in {"air", "sea"} else mapping(like, zone=beyond)


def _word(zone: Map, key: str) -> str:
    said = text_of(zone.get(key))
    return said.text.strip() if said else ""


def _sides(zone: Map, like: Map, room: Room, glass: float, basis: Basis | None) -> list[Node]:
    """Sides that are hull, above and below water; sides that are bulkheads."""
    made: list[Node] = []
    hull = [side for side in SIDES if not _word(zone, side)]
    above, below = room.high - room.under_water, room.under_water
    name = "Sides" if len(hull) == len(SIDES) else f"{hull[0].capitalize()} side" if hull else ""
    run = f"{len(hull)} x {room.side:.4g} m"
    if hull and above > 0:
        area = len(hull) * room.side * above - glass
        how = f"{run} x {above:.4g} m" + (f" less windows {glass:.4g} m2" if glass else "")
        if area > 0:
            made.append(
                _section(
                    like,
                    f"{name} above water",
                    area,
                    how,
                    basis,
                    build_up=_word(zone, "hull") or None,
                    faces="air",
                )
            )
    if hull and below > 0:
        build_up = _word(zone, "below_water") or _word(zone, "hull") or None
        area = len(hull) * room.side * below
        made.append(
            _section(
                like,
                f"{name} below water",
                area,
                f"{run} x {below:.4g} m",
                basis,
                build_up=build_up,
                faces="sea",
            )
        )
    for side in SIDES:
        if side not in hull:
            how = f"{room.side:.4g} m x {room.high:.4g} m"
            beyond = _word(zone, side)
            build_up = _word(zone, "hull" if beyond in {"air", "sea"} else "bulkhead") or None
            made.append(
                _section(
                    like,
                    f"{side.capitalize()} side",
                    room.side * room.high,
                    how,
                    basis,
                    build_up=build_up,
                    faces=_faces(like, beyond),
                )
            )
    return made


def _ends_and_floors(zone: Map, like: Map, room: Room, basis: Basis | None) -> list[Node]:
    """Sole, deck, and the ends of which something is said."""
    made: list[Node] = []
    floor = f"{room.long:.4g} m x {room.floor / room.long:.4g} m"
    beyond = _word(zone, "below") or ("sea" if room.under_water else "air")
    made.append(
        _section(
            like,
            "Sole",
            room.floor,
            floor,
            basis,
            build_up=_word(zone, "sole") or None,
            faces=_faces(like, beyond),
            heat_flow="down",
        )
    )
    beyond = _word(zone, "above") or "air"
    made.append(
        _section(
            like,
            "Deck",
            room.floor,
            floor,
            basis,
            build_up=_word(zone, "deck") or None,
            faces=_faces(like, beyond),
            heat_flow="up",
        )
    )
    for end, width in (("aft", room.wide[0]), ("fore", room.wide[-1])):
        beyond = _word(zone, end)
        if beyond:
            build_up = _word(zone, "hull" if beyond in {"air", "sea"} else "bulkhead") or None
            how = f"{width:.4g} m x {room.high:.4g} m"
            made.append(
                _section(
                    like,
                    f"{end.capitalize()} end",
                    width * room.high,
                    how,
                    basis,
                    build_up=build_up,
                    faces=_faces(like, beyond),
                )
            )
    return made


def _windows(zone: Map, faults: list[Fault]) -> tuple[list[Node], float]:
    """Sections of the windows, and the area they take out of the sides."""
    written = zone.get("windows")
    made: list[Node] = []
    glass = 0.0
    for place, item in enumerate(written.items if isinstance(written, List) else [], 1):
        if not isinstance(item, Text):
            continue
        found = _WINDOW.fullmatch(item.text.strip())
        try:
            area = figure(found["area"]) if found else None
        except Misread as error:
            faults.append(fault(item, UNREADABLE, f"windows: {error.what}", error.instead))
            continue
        if not found or area is None or area.dimension != dimension_of("m2") or area.amount <= 0:
            what = f"windows cannot be '{shortened(item.text)}'"
            faults.append(fault(item, UNREADABLE, what, 'write "6 x 500 mm x 300 mm double 6 mm"'))
            continue
        glass += float(area.amount)
        name = (
            "Windows" if len(written.items if isinstance(written, List) else []) == 1 else f"Windows {place}"
        )
        window = stated(item, found["area"], "from windows")
        made.append(mapping(item, name=name, area=window, glazing=found["glazing"], faces="air"))
    return made, glass


def _air(zone: Map, made: Map, faults: list[Fault]) -> None:
    """Air changes by a word."""
    said = text_of(zone.get("air"))
    row = next(
        (r for r in rows("assumptions") if said and r["key"] == f"zones.air.{said.text.strip()}"), None
    )
    if said is None or row is None:
        return
    if "air_changes" in zone.pairs:
        faults.append(fault(said, UNREADABLE, "air and air_changes are both given", "keep one of them"))
        return
    ends: list[Node] = [text(f"{float(row[end]) * HOUR:.4g} 1/h", said) for end in ("low", "high")]
    note = f"air: {said.text.strip()} ({row['source']})"
    made.put("air_changes", stated(said, row["text"], note, Basis.ASSUMED, sequence(said, ends)), said.spot)


def expanded_zone(zone: Map, faults: list[Fault]) -> Map:
    """A zone with the sections and volume its room and windows give."""
    if not {"room", "windows", "air"} & zone.pairs.keys():
        return zone
    made = copied(zone)
    _air(zone, made, faults)
    sections, glass = _windows(zone, faults)
    written, like = zone.get("room"), zone.get("room")
    room = room_of(written)
    if room and isinstance(like, Map):
        basis = _weakest(like)
        walls = [*_sides(zone, like, room, glass, basis), *_ends_and_floors(zone, like, room, basis)]
        bare = [wall for wall in walls if isinstance(wall, Map) and "build_up" not in wall.pairs]
        for wall in bare:
            name = text_of(wall.get("name"))
            part = _part_of(name.text if name else "")
            what = f"the room names no build-up for its {part}"
            faults.append(fault(like, MISSING, what, f"write {part}: and the name of a build-up beside room"))
        sections = [*(wall for wall in walls if wall not in bare), *sections]
        if "volume" not in zone.pairs:
            how = f"from room: {room.floor:.4g} m2 x {room.high:.4g} m"
            made.put(
                "volume", stated(like, f"{room.floor * room.high:.6g} m3", how, basis, SPREAD), like.spot
            )
    own = zone.get("sections")
    if sections and (own is None or isinstance(own, List)):
        items = [*(own.items if isinstance(own, List) else []), *sections]
        made.put("sections", sequence(own or sections[0], items), (own or sections[0]).spot)
    return made


def _part_of(name: str) -> str:
    """The key that names the build-up of a part."""
    words = name.lower()
    if "sole" in words or "deck" in words:
        return words
    return "hull" if "water" in words else "bulkhead" if "end" in words or "side" in words else "hull"
