"""Is the water too fast or too slow, does any of it run backward, and how much does it cool?"""

from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import at_most, met, not_met, together
from dossier.checking.solved_modes import design_of, ring_of, unsolved
from dossier.data.catalogue import further_limit
from dossier.data.pipes import pipe_size
from dossier.notation import ARITHMETIC, NotAssessed, Real, chosen, q
from dossier.sizing.presets import cooling

if TYPE_CHECKING:
    from dossier.sizing.circuit import Place
    from dossier.sizing.ring import RingStudy
    from dossier.sizing.study import Study

SPEED = q("v", "m/s", "mean velocity")


def velocity_max(study: "Study", limit: Limit) -> Finding:
    """Fast water hums at night and wears the pipe at its bends."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    copper = further_limit(limit.check, "copper in accommodation")
    each = []
    for tag, place in ring.hydraulics.circuit.places.items():
        found = _fastest(ring, tag)
        if found is None:
            continue
        speed, mode = found
        bound = limit.value
        if not limit.overridden and _is_copper(place) and _in_accommodation(study, place):
            bound = float(copper.limit)
        what = f"{tag}, {mode}"
        each.append((what, at_most(limit, speed, float(bound or 0.0), limit.row.unit, key=place.key)))
    if not each:
        return not_applicable(limit, "no pipe is in the ring")
    return together(limit, [*each, *unsolved(ring, limit)])


def _fastest(ring: "RingStudy", tag: str) -> tuple[Real, str] | None:
    """Highest speed of a pipe in any mode, and the mode."""
    speeds = {
        mode: operation.flows.edges[tag].velocity
        for mode, operation in ring.operations.items()
        if operation.flows.edges[tag].velocity is not None
    }
    if not speeds:
        return None
    mode = max(speeds, key=lambda each: abs(float(speeds[each] or 0.0)))
    fastest = speeds[mode]
    if fastest is None or float(fastest) >= 0:
        return fastest or 0.0, mode
    return chosen(abs(float(fastest)), SPEED, "whichever way it runs", ARITHMETIC, fastest), mode


def _is_copper(place: "Place") -> bool:
    pipe = place.pipe
    return pipe is not None and bool(pipe.size) and pipe_size(pipe.size or "").material == "copper"


def _in_accommodation(study: "Study", place: "Place") -> bool:
    """Whether a pipe runs through a heated zone; one whose place is not known counts as if it did."""
    through = place.pipe.through if place.pipe is not None else None
    if through is None:
        return True
    zone = study.project.zone(through)
    return zone is not None and not zone.floats


def velocity_air(study: "Study", limit: Limit) -> Finding:
    """Slow water lets bubbles rise against it, and they gather at the top of the run."""
    points = study.route_points
    if isinstance(points, NotAssessed):
        return not_assessed(limit, points)
    design = design_of(study, limit)
    if isinstance(design, Finding):
        return design
    each = []
    for fall in (*points.falls, *points.rises):
        edge = design.flows.edges[fall.tag]
        falling = fall in points.falls if float(edge.flow) >= 0 else fall in points.rises
        if not falling:
            continue
        if fall.vented:
            each.append((fall.tag, met(limit, "a vent at its top", key=f"{fall.key}.vents")))
        elif edge.velocity is not None:
            speed = abs(float(edge.velocity)) if float(edge.velocity) < 0 else edge.velocity
            each.append((fall.tag, judge(limit, speed, key=f"{fall.key}.route")))
    each += [(place.tag, not_assessed(limit, [f"{place.key}.route"])) for place in points.unrouted]
    return together(limit, each, none="no run goes down")


def reverse(study: "Study", limit: Limit) -> Finding:
    """A pump that pushes another source or emitter backward robs it of its heat."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    each = unsolved(ring, limit)
    for mode, operation in ring.operations.items():
        backward = [tag for tag in operation.reversed_edges if tag not in operation.state.reverse_allowed]
        key = f"{operation.state.key}.reverse_allowed"
        if backward:
            found = not_met(limit, f"backward through {', '.join(backward)}", "a check valve", key=key)
            each.append((mode, found))
        else:
            each.append((mode, met(limit, "none runs backward", key=key)))
    return together(limit, each)


def ring_difference(study: "Study", limit: Limit) -> Finding:
    """A small difference wastes the pump's current, a large one starves the last cabin."""
    design = design_of(study, limit)
    if isinstance(design, Finding):
        return design
    if design.heat is None or not design.heat.sources:
        return not_assessed(limit, ["components.burner.output"], "no source of heat runs in the design mode")
    burners = {tag: s for tag, s in design.heat.sources.items() if s.kind == "burner"}
    return together(
        limit,
        [
            (tag, judge(limit, cooling(source.supply, source.back), key=f"components.{tag}"))
            for tag, source in (burners or design.heat.sources).items()
        ],
    )
