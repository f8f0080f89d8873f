"""Is there voltage enough, can the cable carry the current, and does the fuse protect it?

Checks of battery, isolator and hull stand in ``supply`` and are given out here.
"""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from dossier.checking.aboard import burners
from dossier.checking.finding import Finding, Limit, judge, not_assessed
from dossier.checking.judging import at_least, at_most, counted, joined, not_met, together
from dossier.checking.stated import silent, stated
from dossier.checking.supply import (
    battery_day,
    high_voltage,
    isolator,
    metals,
    two_wire,
)
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed
from dossier.physics.cable import drop_share
from dossier.project.model.entry import Answer
from dossier.sizing.cable_sections import drop_allowed

if TYPE_CHECKING:
    from dossier.project.model.electrics import ElectricCircuit
    from dossier.sizing.electrics import CircuitStudy
    from dossier.sizing.study import Study

__all__ = [
    "ampacity",
    "battery_day",
    "drop_run",
    "drop_start",
    "fuse_carries",
    "fuse_place",
    "fuse_protects",
    "high_voltage",
    "isolator",
    "metals",
    "two_wire",
]

Pair = tuple["ElectricCircuit", "CircuitStudy"]
CONVENTIONS = {
    "iso": "by the form of ISO 10133",
    "copper": "with plain copper at 20 °C",
    "abyc": "by the constant of ABYC E-11",
}
COUNTED_WITH = "counted for warm stranded copper, out and back"
AMERICAN = ("american", "abyc", "cfr", "uscg")


def _each(study: "Study", limit: Limit, one: Callable[[Pair], Iterator[tuple[str, Finding]]]) -> Finding:
    """Worst of all circuits."""
    if isinstance(study.electrics, NotAssessed):
        return not_assessed(limit, study.electrics)
    written = stated(study.project, "electrics.circuits")
    if not written:
        return not_assessed(limit, ["electrics.circuits"])
    pairs = zip(written, study.electrics.circuits, strict=True)
    return together(limit, [found for pair in pairs for found in one(pair)], relative=True)


def _key(circuit: "ElectricCircuit", key: str) -> str:
    return f"electrics.circuits.{circuit.name}.{key}"


def _silent(circuit: "ElectricCircuit", *keys: str) -> list[str]:
    return [_key(circuit, key) for key in keys if getattr(circuit, key) is None]


def drop_run(study: "Study", limit: Limit) -> Finding:
    """Voltage lost in the cable is lost to pump and fans: less flow, less heat."""

    def one(pair: Pair) -> Iterator[tuple[str, Finding]]:
        circuit, found = pair
        allowed = drop_allowed(study.project, circuit) or 0.0
        key = _key(circuit, "section")
        missing = _silent(circuit, "length", "section", "run")
        ours = at_most(limit, found.share_run, allowed, "1", key=key, missing=missing, remark=COUNTED_WITH)
        yield circuit.name, ours
        for other in found.others:
            if other.run is None or isinstance(study.electrics, NotAssessed):
                continue
            by_other = at_most(limit, drop_share(other.run, study.electrics.system), allowed, "1", key=key)
            if by_other.status is not ours.status:
                yield f"{circuit.name}, {CONVENTIONS[other.convention]}", by_other

    return _each(study, limit, one)


def drop_start(study: "Study", limit: Limit) -> Finding:
    """A burner that starves while it glows does not light, and a start in the cold draws the most."""
    if isinstance(study.electrics, NotAssessed):
        return not_assessed(limit, study.electrics)
    written = stated(study.project, "electrics.circuits") or ()
    if not any(circuit.feeds_burner for circuit in study.electrics.circuits):
        unknown = [_key(circuit, "feeds") for circuit in written if circuit.feeds is None]
        return not_assessed(limit, unknown or ["electrics.circuits"], "which circuit feeds the burner")

    def one(pair: Pair) -> Iterator[tuple[str, Finding]]:
        if pair[1].feeds_burner:
            yield from _starting(study, limit, pair)

    return _each(study, limit, one)


def _starting(study: "Study", limit: Limit, pair: Pair) -> Iterator[tuple[str, Finding]]:
    """Voltage at a burner while it starts, and without its maker's figure the drop in its cable too."""
    circuit, found = pair
    if isinstance(study.electrics, NotAssessed):
        return
    system = study.electrics.system
    fed = [burner for burner in burners(study.project) if burner.tag in found.feeds]
    lowest = [burner.voltage_min for burner in fed if burner.voltage_min is not None]
    by = limit.by_maker(max(lowest)) if lowest else limit
    bound = by.value
    if bound is None:
        figures = {12: "12 V system", 24: "24 V system"}
        case = figures.get(round(float(system)))
        bound = further_limit(limit.check, case).limit if case is not None else None
        allowed = further_limit(limit.check, "drop in the cable").limit
        key, missing = _key(circuit, "section"), _silent(circuit, "length", "section", "start")
        ours = at_most(limit, found.share_start, allowed, "1", key=key, missing=missing, remark=COUNTED_WITH)
        yield f"{circuit.name}: drop in the cable", ours
        for other in found.others:
            if other.start is None:
                continue
            by_other = at_most(limit, drop_share(other.start, system), allowed, "1", key=key)
            if by_other.status is not ours.status:
                yield f"{circuit.name}: drop {CONVENTIONS[other.convention]}", by_other
    yield from _voltage(study, by, bound, pair)


def _voltage(study: "Study", limit: Limit, bound: float | None, pair: Pair) -> Iterator[tuple[str, Finding]]:
    """Voltage at the burner: calculated where the battery's lowest is stated, else as measured."""
    circuit, found = pair
    name = f"{circuit.name}: voltage at the burner"
    if bound is None:
        keys = [f"components.{b.tag}.voltage_min" for b in burners(study.project) if b.tag in found.feeds]
        yield name, not_assessed(limit, keys, "no figure is known for this system voltage")
        return
    measured = stated(study.project, "commissioning.start_voltage")
    if measured is not None:
        key = "commissioning.start_voltage"
        remark = "as measured, with the battery as it then was"
        yield f"{name}, measured", at_least(limit, measured, bound, "V", key=key, remark=remark)
    if stated(study.project, "electrics.lowest_voltage") is not None:
        missing = _silent(circuit, "length", "section", "start")
        key = "electrics.lowest_voltage"
        yield name, at_least(limit, found.voltage_start, bound, "V", key=key, missing=missing)
    elif measured is None:
        needs = silent(study.project, ["electrics.lowest_voltage", "electrics.battery_resistance"])
        yield name, not_assessed(limit, needs, "an assumed battery proves no start")


def ampacity(study: "Study", limit: Limit) -> Finding:
    """A cable that carries more than it may heats its insulation until it burns."""

    def one(pair: Pair) -> Iterator[tuple[str, Finding]]:
        circuit, found = pair
        if found.ampacity is None or found.largest is None:
            yield circuit.name, _no_ampacity(limit, pair)
            return
        bound = counted(limit, float(found.ampacity))
        key = _key(circuit, "section")
        yield circuit.name, at_most(limit, found.largest, bound, "A", key=key)

    return _each(study, limit, one)


def _no_ampacity(limit: Limit, pair: Pair, *also: str) -> Finding:
    """Not assessed for want of an ampacity, or of the current it is held against."""
    circuit, found = pair
    keys = _silent(circuit, "section", "insulation", "engine_space", *also)
    if found.largest is None and not also:
        keys += _silent(circuit, "start", "run")
    return not_assessed(limit, keys or [_key(circuit, "section")], found.beyond_tables)


def fuse_protects(study: "Study", limit: Limit) -> Finding:
    """A fuse larger than the cable lets the cable burn in its place."""
    most = further_limit(limit.check, "upper bound of the rules").limit

    def one(pair: Pair) -> Iterator[tuple[str, Finding]]:
        circuit, found = pair
        key = _key(circuit, "fuse")
        if isinstance(circuit.fuse, Answer):
            yield circuit.name, not_met(limit, "no fuse", "the fuse", key=key)
        elif circuit.fuse is None or found.ampacity is None:
            yield circuit.name, _no_ampacity(limit, pair, "fuse")
        else:
            bound = counted(limit, float(found.ampacity))
            over = float(circuit.fuse) / float(found.ampacity) if found.ampacity else float("inf")
            remark = ""
            if over > 1:
                remark = "within what some rules allow" if over <= most else "above what any rule allows"
            yield circuit.name, at_most(limit, circuit.fuse, bound, "A", key=key, remark=remark)

    return _each(study, limit, one)


def fuse_carries(study: "Study", limit: Limit) -> Finding:
    """A fuse that ages at every start blows on a cold night."""

    def one(pair: Pair) -> Iterator[tuple[str, Finding]]:
        circuit, found = pair
        key = _key(circuit, "fuse")
        if isinstance(circuit.fuse, Answer):
            yield circuit.name, not_met(limit, "no fuse", "the fuse", key=key)
            return
        if circuit.fuse is None or found.largest is None:
            yield circuit.name, not_assessed(limit, _silent(circuit, "fuse", "start", "run"))
            return
        ratio = _over_start(circuit.fuse, float(found.largest))
        yield circuit.name, judge(limit, ratio, key=key)

    return _each(study, limit, one)


def _over_start(fuse: float, current: float) -> float:
    """Rating of a fuse over a current."""
    return float(fuse) / current if current else float("inf")


def fuse_place(study: "Study", limit: Limit) -> Finding:
    """A cable that shorts before its fuse burns with all the battery can give."""
    american = _names_american_rules(study)
    first = limit.value or 0.0
    if american and not limit.overridden:
        first = further_limit(limit.check, "American rules").limit
    in_sheath = further_limit(limit.check, "in a sheath").limit
    remark = "American rules are named among the local ones" if american else ""

    def one(pair: Pair) -> Iterator[tuple[str, Finding]]:
        circuit, _ = pair
        key, far = _key(circuit, "fuse_distance"), circuit.fuse_distance
        if isinstance(circuit.fuse, Answer):
            yield circuit.name, not_met(limit, "no fuse", "the fuse", key=_key(circuit, "fuse"))
        elif far is not None and first < far <= in_sheath and circuit.sheathed is None:
            yield circuit.name, not_assessed(limit, [_key(circuit, "sheathed")], "beyond the first figure")
        else:
            bound = in_sheath if circuit.sheathed and far is not None and far > first else first
            sheath = "in a sheath" if bound == in_sheath else ""
            yield (
                circuit.name,
                at_most(limit, far, bound, "m", key=key, missing=[key], remark=joined(sheath, remark)),
            )

    return _each(study, limit, one)


def _names_american_rules(study: "Study") -> bool:
    rules = stated(study.project, "document.local_rules") or ()
    return any(word in rule.casefold() for rule in rules for word in AMERICAN)
