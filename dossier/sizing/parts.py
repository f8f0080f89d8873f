"""What must be bought? Components, pipes by size, fittings and clamps counted from the runs, and the rest.

Counted from what the file describes, and no more: a header line that is not drawn as a run is not in the
list. Waste stands apart, so that the length of a run can be checked with a tape.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from dossier.data.coefficients import coefficient
from dossier.notation import NotAssessed, Real
from dossier.notation.records import dataclass
from dossier.sizing.circuit import Circuit
from dossier.sizing.coolant import Coolant
from dossier.sizing.cut_list import CutPiece, cut_list
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.part_rows import COUNT, CUBIC_METRES, Part, counted, lot, written
from dossier.sizing.parts_beside import electric_parts, exhaust_parts, fuel_parts, safety_parts
from dossier.sizing.runs import CONNECTOR, HOSE, TEE, Runs, runs_of

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "What must be bought?"
NOT_BOUGHT = ("engine", "generator", "battery", "fuel_tank")
"""Kinds that are aboard whether there is a heating or not."""

RATINGS = {
    "burner": "output.max",
    "pump": "power",
    "fan_coil": "output",
    "radiator": "output",
    "towel_rail": "output",
    "tap_exchanger": "output",
    "recovery_exchanger": "output",
    "buffer": "volume",
    "header_tank": "volume",
    "membrane_vessel": "volume",
    "water_heater": "volume",
    "safety_valve": "setting",
    "floor_loop": "size",
}
"""What a component is ordered by, by its kind; valves by their flow factor."""


@dataclass(frozen=True)
class Parts:
    """The parts list, group after group, and the cut list; ``lacking`` names what could not be counted."""

    rows: tuple[Part, ...]
    cuts: tuple[CutPiece, ...]
    runs: Runs | None
    lacking: tuple[NotAssessed, ...]

    def in_group(self, group: str) -> tuple[Part, ...]:
        """Lines of one group."""
        return tuple(row for row in self.rows if row.group == group)

    @property
    def groups(self) -> tuple[str, ...]:
        """Groups in the order of the list."""
        return tuple(dict.fromkeys(row.group for row in self.rows))


def parts(
    project: "Project",
    graph: Circuit | NotAssessed,
    mix: Coolant | NotAssessed,
    way_out: ExhaustStudy | NotAssessed,
) -> Parts:
    """Everything the file gives enough to count."""
    rows = list(component_parts(project))
    cuts: tuple[CutPiece, ...] = ()
    runs = None
    if not isinstance(graph, NotAssessed):
        runs = runs_of(project, graph)
        cuts = cut_list(runs)
        rows += [*pipe_parts(runs), *joint_parts(runs), *clamp_parts(cuts), *run_parts(cuts, runs)]
    rows += [
        *coolant_parts(mix),
        *exhaust_parts(project, way_out),
        *fuel_parts(project),
        *electric_parts(project),
        *safety_parts(project),
    ]
    lacking = tuple(study for study in (graph, mix, way_out) if isinstance(study, NotAssessed))
    return Parts(tuple(rows), cuts, runs, lacking)


def component_parts(project: "Project") -> Iterator[Part]:
    """One line for each component."""
    for tag, component in (project.components or {}).items():
        if component.kind not in NOT_BOUGHT:
            zone = getattr(component, "zone", None) or component.where or ""
            item = component.kind.replace("_", " ")
            yield Part("components", tag, item, rating_of(component), 1.0, COUNT, remark=zone)


def rating_of(component: Any) -> str:
    """What a component is ordered by, as the file has it; empty where that is not stated."""
    if component.kind == "manifold":
        return f"{float(component.outlets):g} outlets" if component.outlets is not None else ""
    here: Any = component
    for part in RATINGS.get(component.kind, "kv").split("."):
        here = getattr(here, part, None)
    if isinstance(here, str):
        return here
    text = "" if here is None else written(here)
    return f"Kv {text}" if text and component.kind not in RATINGS else text


def pipe_parts(runs: Runs) -> Iterator[Part]:
    """One line for each size of pipe and hose: net length, waste, longest piece."""
    by_size: dict[str, dict[str, Real]] = {}
    for tag, run in runs.runs.items():
        by_size.setdefault(run.size, {})[tag] = run.length
    materials = {run.size: run.material for run in runs.runs.values()}
    for size, lengths in sorted(by_size.items()):
        item = {HOSE: "hose", "": "pipe"}.get(materials[size], f"{materials[size]} pipe")
        yield lot("pipes and hoses", item, size, lengths, coefficient("parts.pipe_waste"))


def joint_parts(runs: Runs) -> tuple[Part, ...]:
    """Fittings counted from the runs: what joins them to units and to each other, and formed bends."""
    found = []
    for joint in runs.joints:
        item = joint.kind
        if joint.kind == CONNECTOR:
            material = next((run.material for run in runs.runs.values() if run.size == joint.size), "")
            item = "hose tail" if material == HOSE else f"connector, {material or 'pipe'} to unit"
        elif joint.kind == TEE:
            item = "tee"
        found.append((item, joint.size, " – ".join(joint.joins), 1.0))
    for tag, run in runs.runs.items():
        if run.bends is not None and run.material != HOSE:
            found.append(("bend, formed or fitted", run.size, tag, float(run.bends)))
    return counted("joints", sorted(found, key=lambda row: (row[0], row[1])))


def clamp_parts(cuts: tuple[CutPiece, ...]) -> tuple[Part, ...]:
    """Hose clamps by the size of the hose, and a word where the height of an end is not known."""
    found = [("hose clamp", cut.size, cut.tag, float(sum(cut.clamps))) for cut in cuts if sum(cut.clamps)]
    unknown: dict[str, int] = {}
    for cut in cuts:
        lost = sum(end.height is None for end in (cut.start, cut.end)) if sum(cut.clamps) else 0
        unknown[cut.size] = unknown.get(cut.size, 0) + lost
    return tuple(replace(row, remark=_heights(unknown[row.size])) for row in counted("clamps", sorted(found)))


def _heights(unknown: int) -> str:
    if not unknown:
        return ""
    ends = "1 end" if unknown == 1 else f"{unknown} ends"
    return f"{ends} of unknown height counted with one clamp: two near the waterline or below it"


def run_parts(cuts: tuple[CutPiece, ...], runs: Runs) -> Iterator[Part]:
    """Insulation by size and thickness, clips where their distance is stated, vents and drains."""
    insulated: dict[tuple[str, str], dict[str, Real]] = {}
    small: list[tuple[str, str, str, float]] = []
    for cut in cuts:
        if cut.insulation:
            insulated.setdefault((cut.size, cut.insulation), {})[cut.tag] = cut.length
        if cut.supports is not None:
            small.append(("pipe clip", cut.size, cut.tag, float(cut.supports)))
        pipe = runs.runs[cut.tag].pipe
        if pipe is not None:
            small += [(f"vent, {v.kind or 'kind not stated'}", "", cut.tag, 1.0) for v in pipe.vents or ()]
            small += [("drain", "", cut.tag, float(len(pipe.drains or ())))]
    share = coefficient("parts.pipe_waste")
    for (size, thickness), lengths in sorted(insulated.items()):
        yield lot("insulation", "pipe insulation", f"{thickness} on {size}", lengths, share, cut=False)
    yield from counted("clips, vents and drains", sorted(small))


def coolant_parts(mix: Coolant | NotAssessed) -> Iterator[Part]:
    """Concentrate and water of the first filling."""
    if isinstance(mix, NotAssessed) or mix.volume is None:
        return
    if mix.concentrate is not None:
        kind = f"{mix.fluid.data_set.base}, {'inhibited' if mix.fluid.data_set.inhibited else 'pure'}"
        yield Part("coolant", "", "concentrate", kind, mix.concentrate, CUBIC_METRES)
    water = mix.volume if mix.concentrate is None else mix.water
    if water is not None:
        yield Part("coolant", "", "water", "as its maker asks", water, CUBIC_METRES)


def sizes_of(cuts: tuple[CutPiece, ...]) -> Mapping[str, tuple[str, ...]]:
    """Sizes of pipe and hose in use, by material."""
    found: dict[str, dict[str, None]] = {}
    for cut in cuts:
        found.setdefault(cut.material, {})[cut.size] = None
    return {material: tuple(sizes) for material, sizes in found.items()}
