"""Does the battery last, does the feed survive the main switch, and is the hull no conductor?"""

from typing import TYPE_CHECKING

from dossier.checking.aboard import of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import at_most, counted, met, not_met, together, waits_for
from dossier.checking.spaces import plain
from dossier.checking.stated import silent, stated
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.project.model.electrics import ElectricCircuit
    from dossier.sizing.study import Study

METAL_HULLS = ("steel", "aluminium")
ELECTRIC = ("burner", "pump", "fan_coil")
"""Kinds with electronics or a motor of the heating."""


def isolator(study: "Study", limit: Limit) -> Finding:
    """A burner cut off while it is hot cooks its own coolant: the pump must run on after every stop."""
    circuits = stated(study.project, "electrics.circuits")
    if not circuits:
        return not_assessed(limit, ["electrics.circuits"])
    running_on = {part.tag for part in of_kind(study.project, "burner", "pump")}
    concerned = [c for c in circuits if c.feeds is None or running_on & set(c.feeds)]
    found = [(circuit.name, _fed(limit, circuit)) for circuit in concerned]
    return together(limit, found, none="no circuit listed feeds burner or pump")


def _fed(limit: Limit, circuit: "ElectricCircuit") -> Finding:
    """How one circuit is fed."""
    key = f"electrics.circuits.{circuit.name}"
    if circuit.feeds is None:
        return not_assessed(limit, [f"{key}.feeds"])
    if circuit.cut_out:
        return not_met(limit, f"cut-out {circuit.cut_out}", "a feed without cut-out", key=f"{key}.cut_out")
    if circuit.fed_before_main_switch is False:
        lacking = "a feed before the main switch"
        return not_met(limit, "behind the main switch", lacking, key=f"{key}.fed_before_main_switch")
    if circuit.isolator is not None and not circuit.isolator:
        return not_met(limit, "no isolator", "the isolator", key=f"{key}.isolator")
    keys = ("isolator", "fed_before_main_switch", "cut_out")
    needs = [f"{key}.{name}" for name in keys if getattr(circuit, name) is None]
    if needs:
        return not_assessed(limit, needs)
    return met(limit, f"{circuit.isolator}, before the main switch, no cut-out", key=f"{key}.isolator")


def battery_day(study: "Study", limit: Limit) -> Finding:
    """A flat battery puts the heating out, and the lights and the bilge pump with it."""
    if isinstance(study.electrics, NotAssessed):
        return not_assessed(limit, study.electrics)
    day = study.electrics.day
    needs = [*silent(study.project, ["electrics.battery"]), *day.needs]
    if needs:
        return not_assessed(limit, needs)
    if day.per_day is None or day.left is None:
        unsolved = next((r for r in (study.heat_loss, study.ring) if isinstance(r, NotAssessed)), None)
        return waits_for(limit, unsolved, "circuit.ring")
    bound = counted(limit, float(day.left))
    return judge(limit, day.per_day, value=bound, key="electrics.battery")


def two_wire(study: "Study", limit: Limit) -> Finding:
    """Current that returns through the hull eats the hull."""
    circuits = stated(study.project, "electrics.circuits")
    if not circuits:
        return not_assessed(limit, ["electrics.circuits"])
    found = []
    for circuit in circuits:
        key = f"electrics.circuits.{circuit.name}.two_wire"
        if circuit.two_wire is None:
            found.append((circuit.name, not_assessed(limit, [key])))
        elif circuit.two_wire:
            found.append((circuit.name, met(limit, "two insulated wires", key=key)))
        else:
            found.append(
                (circuit.name, not_met(limit, "one wire, hull as return", "the second wire", key=key))
            )
    return together(limit, found)


def metals(study: "Study", limit: Limit) -> Finding:
    """Unlike metals joined in sea water make a battery that eats the baser one."""
    hull, fitting = (stated(study.project, key) for key in ("vessel.hull", "exhaust.hull_fitting"))
    if hull is None:
        return not_assessed(limit, ["vessel.hull"])
    no_fitting = fitting is not None and not fitting
    if hull not in METAL_HULLS or no_fitting:
        why = "the exhaust has no hull fitting" if no_fitting else f"the hull is of {hull}, not of metal"
        return not_applicable(limit, why)
    keys = ["exhaust.hull_fitting.material", "exhaust.hull_fitting.isolated"]
    material, isolated = (stated(study.project, key) for key in keys)
    told = material or "fitting"
    if isolated:
        return met(limit, f"{told} isolated from {hull}", key=keys[1])
    if material is not None and plain(material) == hull:
        return met(limit, f"{told} in {hull}: the same metal", key=keys[0])
    if material is None or isolated is None:
        return not_assessed(limit, silent(study.project, keys))
    return not_met(limit, f"{told} bare in {hull}", "isolation", key=keys[1])


def high_voltage(study: "Study", limit: Limit) -> Finding:
    """A charger that equalises the battery can destroy what was made for less."""
    highest = stated(study.project, "electrics.charge_highest")
    parts = of_kind(study.project, *ELECTRIC)
    found = []
    for part in parts:
        key = f"components.{part.tag}.voltage_max"
        by = limit if part.voltage_max is None else limit.by_maker(counted(limit, part.voltage_max))
        missing = [*silent(study.project, ["electrics.charge_highest"]), *silent(study.project, [key])]
        if missing or by.value is None:
            found.append((part.tag, not_assessed(limit, missing)))
        else:
            found.append((part.tag, at_most(by, highest, by.value, "V", key=key)))
    if not found:
        return not_assessed(limit, ["electrics.charge_highest", "components.voltage_max"])
    return together(limit, found)
