"""Which parts of the ring stand still in a mode, and why? And can its pumps work at all?"""

from dossier.notation.records import dataclass
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.operation import Outcome
from dossier.sizing.setting import Setting


@dataclass(frozen=True)
class Standing:
    """A part whose coolant stands still in a mode; ``adrift`` where the header does not reach it either."""

    tag: str
    branch: str
    why: str
    adrift: bool


def standing_parts(hydraulics: Hydraulics, setting: Setting, outcome: Outcome) -> tuple[Standing, ...]:
    """Parts whose coolant stands still in a mode, each with the reason."""
    solution = outcome.solution
    loose = {solution.network.node_index[name] for part in solution.adrift for name in part}
    reasons = {}
    for number, chain in enumerate(hydraulics.circuit.chains):
        if solution.mass_flow[number] == 0:
            ends = (hydraulics.node_of[chain.start], hydraulics.node_of[chain.end])
            reasons[chain.name] = (
                _reason(hydraulics, setting, outcome, number),
                all(e in loose for e in ends),
            )
    found = []
    for tag, place in hydraulics.circuit.places.items():
        name = hydraulics.circuit.chain_of(tag).name
        if name in reasons:
            why, adrift = reasons[name]
            found.append(Standing(tag, place.branch, why, adrift))
    return tuple(found)


def _reason(hydraulics: Hydraulics, setting: Setting, outcome: Outcome, number: int) -> str:
    chain = hydraulics.circuit.chains[number]
    shut = [tag for tag in chain.tags if outcome.kv.get(tag) == 0]
    if shut:
        return f"{', '.join(shut)} is shut"
    if chain.name in setting.shut:
        stopped = [tag for tag in chain.tags if tag in setting.state.stopped | setting.state.shut]
        return f"{', '.join(stopped)} stands"
    if chain.name in outcome.solution.blocked:
        checks = [tag for tag in chain.tags if hydraulics.circuit.places[tag].kind == "check_valve"]
        return f"{', '.join(checks)} lets nothing back"
    return "nothing drives it"


def unusable(hydraulics: Hydraulics, setting: Setting, outcome: Outcome) -> str:
    """Why the pumps of a mode cannot work: against closed valves or each other; empty where they can."""
    solution = outcome.solution
    network = solution.network
    running = [p.tag for p in hydraulics.circuit.of_kind("pump") if p.tag not in setting.state.stopped]
    flows = {tag: float(solution.volume_flow[network.element_index[tag]]) for tag in running}
    if running and not any(flows.values()):
        shut = sorted(
            {tag for tag, kv in outcome.kv.items() if kv == 0}
            | {tag for tag in setting.state.shut if tag in hydraulics.circuit.places}
        )
        closed = ", ".join(shut) or "what stands in its way"
        return f"{', '.join(running)} pushes against closed valves ({closed}): no path is open"
    backward = [tag for tag in running if flows[tag] < 0]
    if backward:
        others = ", ".join(tag for tag in running if tag not in backward) or "another pump"
        return f"{', '.join(backward)} is driven backward by {others}: the pumps work against each other"
    stalled = [tag for tag in running if not flows[tag]]
    if stalled:
        others = ", ".join(tag for tag in running if tag not in stalled)
        return f"{', '.join(stalled)} moves nothing while {others} runs: the way of its flow is closed"
    return ""


def beyond_curve(hydraulics: Hydraulics, setting: Setting, outcome: Outcome) -> str:
    """Which pump would work beyond its curve, where its maker says nothing; empty where none would."""
    solution = outcome.solution
    for tag in solution.beyond:
        if tag in hydraulics.curves and tag not in setting.state.stopped:
            flow = float(solution.volume_flow[solution.network.element_index[tag]]) * 60000
            last = hydraulics.curves[tag].flows[-1] * 60000
            return (
                f"{tag} would work at {flow:.3g} l/min, beyond the last point of its curve ({last:.3g} l/min)"
                ": more points are needed, or another pump"
            )
    return ""


def way_out(reason: str) -> str:
    """What would let the pumps of a mode work that ``unusable`` gives a reason against."""
    if "each other" in reason:
        return "stop one of them in this mode, or set them in one line"
    return "open a way for the pumps in this mode, or stop them"
