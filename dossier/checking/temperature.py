"""Is the water hot enough, cold enough, and nowhere too hot to touch?"""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import lacks, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, worst_of
from dossier.notation import NotAssessed
from dossier.sizing.sources_of_heat import burner_model

if TYPE_CHECKING:
    from dossier.sizing.ring_results import ModeHeat
    from dossier.sizing.study import Study

NOT_SOLVED = "no mode could be solved with its temperatures"


def _heats(study: "Study") -> "dict[str, ModeHeat]":
    return {mode: o.heat for mode, o in study.operations.items() if o.heat is not None}


def return_min(study: "Study", limit: Limit) -> Finding:
    """Cold return water makes the burner's gas side wet, sooty and short-lived."""
    if lacks(study.project, "burner"):
        return not_applicable(limit, "no burner is aboard")
    if isinstance(study.ring, NotAssessed):
        return not_assessed(limit, study.ring)
    each = []
    for mode, heat in _heats(study).items():
        for tag, source in heat.sources.items():
            if source.kind != "burner":
                continue
            unit: Any = study.project.components[tag]
            own = limit.by_maker(unit.return_min) if unit.return_min is not None else limit
            found = judge(own, source.back, key=f"components.{tag}.return_min")
            each.append((f"{tag}, {mode}", found))
    return worst_of(each) if each else not_assessed(limit, ["components.burner.output"], NOT_SOLVED)


def supply_max(study: "Study", limit: Limit) -> Finding:
    """Coolant, hose and burner each stand only so much heat."""
    if isinstance(study.ring, NotAssessed):
        return not_assessed(limit, study.ring)
    ratings: list[tuple[float, str]] = []
    for tag, part in (study.project.components or {}).items():
        unit: Any = part
        if part.kind == "burner" and unit.supply_max is not None:
            ratings.append((unit.supply_max, f"components.{tag}.supply_max"))
        if part.temperature_rating is not None and tag in study.ring.hydraulics.circuit.places:
            ratings.append((part.temperature_rating, f"components.{tag}.temperature_rating"))
    for place in study.ring.hydraulics.circuit.places.values():
        if place.pipe is not None and place.pipe.temperature_rating is not None:
            ratings.append((place.pipe.temperature_rating, f"{place.key}.temperature_rating"))
    key = ""
    if ratings and not limit.overridden:
        lowest, key = min(ratings)
        limit = limit.by_maker(lowest)
    each = [
        (f"{tag}, {mode}", judge(limit, source.supply, key=key or f"components.{tag}.setpoint"))
        for mode, heat in _heats(study).items()
        for tag, source in heat.sources.items()
    ]
    return worst_of(each) if each else not_assessed(limit, ["components.burner.output"], NOT_SOLVED)


def supply_reached(study: "Study", limit: Limit) -> Finding:
    """Where demand exceeds the source, the water never gets as hot as the coils were rated for."""
    if lacks(study.project, "burner"):
        return not_applicable(limit, "no burner is aboard")
    if isinstance(study.ring, NotAssessed):
        return not_assessed(limit, study.ring)
    heat = study.ring.design.heat if study.ring.design else None
    if heat is None:
        return not_assessed(limit, ["components.burner.output"], NOT_SOLVED)
    each = []
    for burner in of_kind(study.project, "burner"):
        source = heat.sources.get(burner.tag)
        if source is None:
            continue
        model = burner_model(burner.tag, burner)
        lowest = float(model.setpoint) - float(model.band)
        value = limit.value if limit.overridden else lowest + float(limit.value or 0.0)
        each.append(
            (burner.tag, judge(limit, source.supply, value=value, key=f"components.{burner.tag}.setpoint"))
        )
    return worst_of(each) if each else not_assessed(limit, ["components.burner.output"], NOT_SOLVED)


def touch(study: "Study", limit: Limit) -> Finding:
    """Bare hot metal burns a hand in seconds."""
    if isinstance(study.ring, NotAssessed):
        return not_assessed(limit, study.ring)
    circuit = study.ring.hydraulics.circuit
    bare = [p for p in circuit.places.values() if p.pipe is not None and p.pipe.within_reach]
    unknown = [p for p in circuit.places.values() if p.pipe is not None and p.pipe.within_reach is None]
    each = []
    for place in bare:
        surfaces = [
            heat.pipes[place.tag].surface for heat in _heats(study).values() if place.tag in heat.pipes
        ]
        if surfaces:
            key = f"{place.key}.within_reach"
            each.append((place.tag, judge(limit, max(surfaces, key=float), key=key)))
        else:
            each.append((place.tag, not_assessed(limit, [f"{place.key}.size"])))
    each += [(p.tag, not_assessed(limit, [f"{p.key}.within_reach"])) for p in unknown[:1]]
    if not each:
        return not_applicable(limit, "no pipe is within reach")
    return worst_of(each)
