"""What does each branch get, and where does its pressure go? One row a branch, one for the ring."""

from collections.abc import Iterable, Mapping
from typing import Annotated, Any

from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.sizing.flows import EdgeFlow, total_drop, way_through
from dossier.sizing.presets import Preset, cooling
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.system_curves import flow_in_hand

QUESTION = "Does each branch get its share?"
VALVES = frozenset(
    {
        "balancing_valve",
        "bypass_valve",
        "shut_valve",
        "check_valve",
        "thermostatic_valve",
        "motor_valve",
        "three_way_valve",
        "way",
    }
)


@formula("q = q_V·(1 + δ)", ARITHMETIC)
def flow_off_by(
    flow: Annotated[Real, q("q_V", "m3/s", "flow", low=-10, high=10)],
    deviation: Annotated[Real, q("δ", "1", "deviation, as a share", low=-1, high=1)],
) -> Annotated[Real, q("q", "m3/s", "flow that is off by that much")]:
    """End of the range of readings that agree with an expected flow."""
    return flow * (1 + deviation)


@dataclass(frozen=True)
class Parted:
    """Drop of a way by what causes it (Pa); what is not there is None."""

    pipes: Annotated[Real | None, q("Δp", "Pa", "in pipes")]
    units: Annotated[Real | None, q("Δp", "Pa", "in units")]
    valves: Annotated[Real | None, q("Δp", "Pa", "in valves")]


@dataclass(frozen=True)
class BranchRow:
    """One branch: what it wants and gets, its fastest pipe, its drop by cause, its preset.

    ``margin`` is flow beyond what is wanted. ``tags`` are its valves and emitters in the order of the flow.
    """

    name: str
    tags: tuple[str, ...]
    is_index: bool
    wanted: Annotated[Real | None, q("q_V", "m3/s", "called for by the zone's load")]
    flow: Annotated[Real, q("q_V", "m3/s", "through the branch")]
    margin: Annotated[Real | None, q("Δq", "m3/s", "flow beyond what is wanted")]
    velocity: Annotated[Real | None, q("v", "m/s", "in its fastest pipe")]
    reynolds: Annotated[Real | None, q("Re", "1", "in its fastest pipe")]
    drops: Parted
    total: Annotated[Real, q("Δp", "Pa", "over the branch")]
    preset: Preset | None
    cooling: Annotated[Real | None, q("Δθ", "K", "cooling of the water")]


@dataclass(frozen=True)
class RingPart:
    """A unit or pipe of the ring itself, or the branches together, with its drop."""

    tag: str
    kind: str
    drop: Annotated[Real, q("Δp", "Pa", "pressure drop")]


@dataclass(frozen=True)
class BurnerRow:
    """The burner: its least flow, what it gets, the pump's rise, and the rise of the water at full output."""

    tag: str
    least: Annotated[Real | None, q("q_min", "m3/s", "least flow")]
    flow: Annotated[Real, q("q_V", "m3/s", "through the burner")]
    margin: Annotated[Real | None, q("Δq", "m3/s", "flow beyond the least")]
    rise: Annotated[Real | None, q("Δp", "Pa", "rise of the pump")]
    warming: Annotated[Real | None, q("Δθ", "K", "rise of the water at full output")]


@dataclass(frozen=True)
class Branches:
    """All branches of the design mode, the burners, and the parts of the ring with drops of their own."""

    rows: tuple[BranchRow, ...]
    burners: tuple[BurnerRow, ...]
    ring: tuple[RingPart, ...]

    @property
    def short(self) -> tuple[BranchRow, ...]:
        """Branches that get less than they call for."""
        return tuple(row for row in self.rows if row.margin is not None and float(row.margin) < 0)


def branches(ring: RingStudy | NotAssessed) -> Branches | NotAssessed:
    """Rows of the design mode."""
    if isinstance(ring, NotAssessed):
        return ring
    design = ring.design
    if design is None:
        return NotAssessed(QUESTION, ("modes.heating",), next(iter(ring.not_solved.values()), ""))
    circuit = ring.hydraulics.circuit
    rows = tuple(_row(ring, design, name) for name in circuit.branches)
    parts = tuple(
        RingPart(tag, place.kind, design.flows.edges[tag].drop)
        for tag, place in circuit.places.items()
        if not place.branches and place.kind != "pump" and float(design.flows.edges[tag].drop) > 0
    )
    burners = tuple(_burner(design, place.unit) for place in circuit.of_kind("burner"))
    return Branches(rows, burners, parts)


def _row(ring: RingStudy, design: Operation, name: str) -> BranchRow:
    circuit = ring.hydraulics.circuit
    branch, found = circuit.branches[name], design.flows.branches[name]
    way = way_through(circuit, branch.start, branch.end, name)
    edges = [design.flows.edges[tag] for tag in way]
    wanted = ring.wanted.get(name)
    fastest = max(
        (edge for edge in edges if edge.velocity is not None),
        key=lambda edge: abs(float(edge.velocity or 0.0)),
        default=None,
    )
    places = [place for place in circuit.in_branch(name) if place.kind not in {"pipe", "way"}]
    return BranchRow(
        name,
        tuple(place.tag for place in places),
        name == ring.index,
        None if wanted is None else wanted.flow,
        found.flow,
        None if wanted is None else flow_in_hand(found.flow, wanted.flow),
        fastest.velocity if fastest else None,
        fastest.reynolds if fastest else None,
        _parted(edges),
        found.drop,
        next((ring.presets[tag] for tag in way if tag in ring.presets), None),
        _cooled(design, way),
    )


def _parted(edges: Iterable[EdgeFlow]) -> Parted:
    by_cause: dict[str, list[Real]] = {}
    for edge in edges:
        cause = "valves" if edge.kind in VALVES else "pipes" if edge.velocity is not None else "units"
        by_cause.setdefault(cause, []).append(edge.drop)
    sums = {cause: total_drop(*drops) for cause, drops in by_cause.items()}
    return Parted(sums.get("pipes"), sums.get("units"), sums.get("valves"))


def _cooled(design: Operation, way: Iterable[str]) -> Real | None:
    """Cooling over the emitters of a way, the first to the last."""
    emitters: Mapping[str, Any] = design.heat.emitters if design.heat else {}
    line = [emitters[tag] for tag in way if tag in emitters]
    return cooling(line[0].supply, line[-1].back) if line else None


def _burner(design: Operation, unit: Any) -> BurnerRow:
    edge = design.flows.edges[unit.tag]
    least = unit.flow_min
    source = design.heat.sources.get(unit.tag) if design.heat else None
    pump = next((p for tag, p in design.flows.pumps.items() if tag not in design.state.stopped), None)
    return BurnerRow(
        unit.tag,
        least,
        edge.flow,
        None if least is None else flow_in_hand(edge.flow, least),
        None if pump is None else pump.pressure_rise,
        None if source is None else source.rise_at_full,
    )
