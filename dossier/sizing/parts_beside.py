"""Parts beside the ring: exhaust, fuel line, cables and fuses, alarms and extinguishers."""

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.coefficients import coefficient
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.physics.route import total_length
from dossier.project.model.entry import Answer
from dossier.sizing.cut_list import supports_along
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.part_rows import METRES, Part, counted, lot, written

if TYPE_CHECKING:
    from dossier.project import Project

LUGS = 4.0
"""Cable lugs of one circuit: both conductors, both ends."""


@formula("L = 2 · L_1", ARITHMETIC)
def both_conductors(
    one_way: Annotated[Real, q("L_1", "m", "length of the cable, one way", low=0, high=1e4)],
) -> Annotated[Real, q("L", "m", "length of both conductors", low=0)]:
    """Length of a circuit's two conductors together."""
    return 2 * one_way


def _named(*words: str | None) -> str:
    return ", ".join(word for word in words if word)


def exhaust_parts(project: "Project", way_out: ExhaustStudy | NotAssessed) -> Iterator[Part]:
    """Pipe, lagging, clamps, drains, silencer, sleeves and hull fitting of the exhaust."""
    run: Any = project.exhaust
    if run is None or isinstance(way_out, NotAssessed):
        return
    bore = f"bore {written(run.bore)}" if run.bore is not None else ""
    if way_out.length is not None:
        yield Part("exhaust", "", "exhaust pipe", bore, way_out.length, METRES, longest=way_out.length)
        lagging = run.lagging
        if lagging and not isinstance(lagging, Answer):
            remark = "" if lagging.extent in {None, "whole"} else f"as stated: {lagging.extent}"
            size = _named(written(lagging.thickness), bore)
            yield Part("exhaust", "", "lagging", size, way_out.length, METRES, remark=remark)
    found: list[tuple[str, str, str, float]] = []
    if run.joints is not None:
        found.append(("exhaust clamp", bore, "joints", float(run.joints)))
    found += [("condensate drain", "", drain.led_to or "", 1.0) for drain in run.drains or ()]
    if run.silencer is not None and not isinstance(run.silencer, Answer):
        found.append(("silencer", bore, "exhaust", 1.0))
    for passage in run.passes or ():
        name = passage.bulkhead or "bulkhead"
        if passage.sleeve:
            found.append(("sleeve", f"hole {written(passage.hole)}", name, 1.0))
        if isinstance(passage.closing, str):
            found.append((f"closing: {passage.closing}", f"hole {written(passage.hole)}", name, 1.0))
    fitting = run.hull_fitting
    if fitting and not isinstance(fitting, Answer):
        words = _named(fitting.kind, fitting.material, "isolated from the hull" if fitting.isolated else None)
        found.append(("hull fitting", words, "exhaust", 1.0))
    yield from counted("exhaust", found)


def fuel_parts(project: "Project") -> Iterator[Part]:
    """Fuel line, its supports, pick-up and valve against siphoning."""
    fuel: Any = project.fuel
    if fuel is None:
        return
    line = fuel.line
    lengths = [] if line is None else [part for part in (line.suction, line.length) if part is not None]
    found: list[tuple[str, str, str, float]] = []
    if lengths:
        length = lengths[0] if len(lengths) == 1 else total_length(*lengths)
        bore = f"bore {written(line.bore)}" if line.bore is not None else None
        size = _named(bore, line.material)
        yield lot("fuel", "fuel line", size, {"fuel line": length}, coefficient("parts.pipe_waste"))
        if line.support is not None:
            found.append(("fuel line clip", size, "fuel line", float(supports_along(length, line.support))))
    if fuel.pick_up is not None and fuel.pick_up.heating is not None:
        size = f"ends {written(fuel.pick_up.heating)} over the bottom"
        found.append(("pick-up of the heating", size, "fuel tank", 1.0))
    if fuel.anti_siphon is True:
        found.append(("valve against siphoning", "", "fuel tank", 1.0))
    yield from counted("fuel", found)


def electric_parts(project: "Project") -> Iterator[Part]:
    """Cable by section, out and back; fuses with their holders; lugs."""
    circuits: Any = (project.electrics.circuits if project.electrics else None) or ()
    cables: dict[str, dict[str, Real]] = {}
    one_way: dict[str, list[Real]] = {}
    found: list[tuple[str, str, str, float]] = []
    for circuit in circuits:
        size = "" if circuit.section is None else written(circuit.section)
        if circuit.length is not None:
            cables.setdefault(size, {})[circuit.name] = both_conductors(circuit.length)
            one_way.setdefault(size, []).append(circuit.length)
        found.append(("cable lug", size, circuit.name, LUGS))
        if circuit.fuse is not None and not isinstance(circuit.fuse, Answer):
            found.append(("fuse", written(circuit.fuse), circuit.name, 1.0))
            found.append(("fuse holder", written(circuit.fuse), circuit.name, 1.0))
    for size, lengths in sorted(cables.items()):
        row = lot("electrics", "cable, one conductor", size, lengths, coefficient("parts.cable_waste"))
        yield replace(row, longest=max(one_way[size], key=float))
    yield from counted("electrics", sorted(found))


def safety_parts(project: "Project") -> tuple[Part, ...]:
    """Alarms, extinguishers and the fire port, as far as they are listed."""
    safety: Any = project.safety
    if safety is None:
        return ()
    alarms = [("carbon monoxide alarm", a.standard or "", a.at or "", 1.0) for a in _each(safety.co_alarms)]
    alarms += [("smoke alarm", "", alarm.at or "", 1.0) for alarm in _each(safety.smoke_alarms)]
    held = [
        ("fire extinguisher", "" if e.size is None else written(e.size), e.at or "", 1.0)
        for e in _each(safety.extinguishers)
    ]
    if safety.fire_port and not isinstance(safety.fire_port, Answer):
        bore = safety.fire_port.bore
        held.append(
            ("fire port", "" if bore is None else f"bore {written(bore)}", safety.fire_port.at or "", 1.0)
        )
    return counted("safety", [*alarms, *held])


def _each(listed: Any) -> tuple[Any, ...]:
    return listed if isinstance(listed, tuple) else ()
