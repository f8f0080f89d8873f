"""Are pipes tight against oxygen and held, and can parts be taken out without draining all?"""

from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Limit, not_assessed
from dossier.checking.judging import at_most, met, not_met, together
from dossier.data.catalogue import further_limit
from dossier.data.pipes import pipe_size
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.circuit import Circuit, Place
    from dossier.sizing.study import Study

CLOSING = ("shut_valve", "balancing_valve", "bypass_valve", "motor_valve")
TAKEN_OUT = ("pump", "burner", "tap_exchanger", "recovery_exchanger", "water_heater")


def _pipes(study: "Study") -> "tuple[Place, ...]":
    if isinstance(study.circuit, NotAssessed):
        return ()
    return tuple(place for place in study.circuit.places.values() if place.pipe is not None)


def _material(place: "Place") -> str:
    pipe = place.pipe
    return pipe_size(pipe.size).material if pipe is not None and pipe.size else ""


def oxygen_barrier(study: "Study", limit: Limit) -> Finding:
    """Oxygen that comes through plain plastic eats the steel and the inhibitor."""
    if isinstance(study.circuit, NotAssessed):
        return not_assessed(limit, study.circuit)
    each = []
    for place in _pipes(study):
        tight = place.pipe.oxygen_tight if place.pipe is not None else None
        key = f"{place.key}.oxygen_tight"
        if _material(place) == "":
            each.append((place.tag, not_assessed(limit, [f"{place.key}.size"])))
        elif _material(place) != "plastic":
            continue
        elif tight is None:
            each.append((place.tag, not_assessed(limit, [key])))
        elif tight:
            each.append((place.tag, met(limit, "oxygen-tight", key=key)))
        else:
            each.append((place.tag, not_met(limit, "no barrier", "pipe with a barrier", key=key)))
    return together(limit, each, none="no plastic pipe is in the ring")


def hose_support(study: "Study", limit: Limit) -> Finding:
    """A hose that sags makes an air trap; one that chafes lets the ring run out."""
    if isinstance(study.circuit, NotAssessed):
        return not_assessed(limit, study.circuit)
    plastic = further_limit(limit.check, "hot plastic pipe")
    each = []
    for place in _pipes(study):
        material = _material(place)
        if material not in {"hose", "plastic", ""} or place.pipe is None:
            continue
        key = f"{place.key}.support"
        widest = float(limit.value or 0.0)
        if material == "plastic" and not limit.overridden:
            widest = float(plastic.limit)
        held = at_most(limit, place.pipe.support, widest, "m", key=key, missing=[key])
        each.append((f"{place.tag}, supports", held))
        key = f"{place.key}.sleeved"
        if place.pipe.sleeved is None:
            sleeved = not_assessed(limit, [key])
        elif place.pipe.sleeved:
            sleeved = met(limit, "sleeved", key=key)
        else:
            sleeved = not_met(limit, "bare where it passes bulkheads", "a sleeve or grommet", key=key)
        each.append((f"{place.tag}, passages", sleeved))
    return together(limit, each, none="neither hose nor plastic pipe is in the ring")


def shut_valves(study: "Study", limit: Limit) -> Finding:
    """Without valves beside it a part is changed by draining the whole ring."""
    circuit = study.circuit
    if isinstance(circuit, NotAssessed):
        return not_assessed(limit, circuit)
    each = []
    for place in circuit.of_kind(*TAKEN_OUT):
        sides = [side for side, closes in _sides(circuit, place).items() if not closes]
        key = place.key
        if sides:
            found = not_met(limit, f"no valve {' nor '.join(sides)} it", "a valve on each side", key=key)
        else:
            found = met(limit, "a valve on each side", key=key)
        each.append((place.tag, found))
    ways = study.expansion_ways
    if each and isinstance(ways, NotAssessed):
        each.append(("expansion", not_assessed(limit, ways)))
    elif each and not isinstance(ways, NotAssessed) and ways.closing:
        found = not_met(
            limit, f"{', '.join(ways.closing)} cuts the burner off from expansion", "a free way", key=ways.key
        )
        each.append(("expansion", found))
    return together(limit, each, none="neither pump, burner nor exchanger is in the ring")


def _sides(circuit: "Circuit", place: "Place") -> dict[str, bool]:
    """Whether a valve shuts a part off before and behind it, with nothing but pipe between."""
    return {"before": _closes(circuit, place, back=True), "behind": _closes(circuit, place, back=False)}


def _closes(circuit: "Circuit", place: "Place", *, back: bool) -> bool:
    node = place.start if back else place.end
    while True:
        beside = [p for p in circuit.places.values() if node in {p.start, p.end} and p.tag != place.tag]
        if len(beside) != 1:
            return bool(beside) and all(p.kind in CLOSING for p in beside)
        place = beside[0]
        if place.kind in CLOSING:
            return True
        if place.pipe is None:
            return False
        node = place.start if place.end == node else place.end
