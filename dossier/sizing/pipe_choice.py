"""Would the next size of pipe do better? Every run at its design flow in the sizes below and above its own.

A size suits where the water is no faster than the limit and the pump keeps its reserve. The own size stays
where it suits, unless a smaller one takes no more than the run's balancing valve gives back. Each run is
looked at alone: two changes at once want a new calculation.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Annotated

from dossier.data.catalogue import catalogue, further_limit
from dossier.data.pipes import PipeSize, pipe_size, pipe_sizes
from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.physics.fittings import fitting_drop
from dossier.physics.pipe import friction_factor, pipe_drop, relative_roughness, reynolds_number, velocity
from dossier.sizing.coolant import pipe_content
from dossier.sizing.index_profile import index_profile
from dossier.sizing.ring import Operation, RingStudy

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.circuit import Pipe

QUESTION = "Would the next size of pipe do better?"
STEP = 0.1
"""Least difference of the bore, over itself, from one size to the next."""

VELOCITY, RESERVE = "flow.velocity_max", "flow.pump_reserve"


@dataclass(frozen=True)
class SizeOption:
    """A run in one size at its design flow.

    ``index`` is what the size adds to the drop of the index circuit: of a run off that circuit, what its
    balancing valve cannot give back. ``reserve`` is the pump's rise over its need with it, None where that
    is not known.
    """

    size: str
    bore: Annotated[Real, q("d", "m", "bore")]
    velocity: Annotated[Real, q("v", "m/s", "mean velocity")]
    drop: Annotated[Real, q("Δp", "Pa", "pressure drop")]
    index: Annotated[Real, q("Δp", "Pa", "added to the index circuit")]
    volume: Annotated[Real, q("V", "m3", "added to the coolant")]
    reserve: Annotated[Real | None, q("r", "1", "rise of the pump over its need")]
    why_not: str


@dataclass(frozen=True)
class SizeChoice:
    """A run with its own size and its neighbours, and the size recommended; ``reason`` says why."""

    tag: str
    branch: str
    on_index: bool
    options: tuple[SizeOption, ...]
    own: str
    recommended: str
    reason: str


def neighbours(size: PipeSize) -> tuple[PipeSize, ...]:
    """The next smaller size of the same kind, the size itself, and the next larger, as far as there are.

    A size counts as another from a tenth of the bore on; of several as near, the one with the nearest wall.
    """
    kind = size.name.split()[0]
    others = [other for other in pipe_sizes().values() if other.name.split()[0] == kind]
    below = [other for other in others if other.bore <= (1 - STEP) * size.bore]
    above = [other for other in others if other.bore >= (1 + STEP) * size.bore]

    def nearest(candidates: list[PipeSize]) -> list[PipeSize]:
        return sorted(candidates, key=lambda o: (round(abs(o.bore - size.bore), 4), abs(o.wall - size.wall)))[
            :1
        ]

    return (*nearest(below), size, *nearest(above))


def pipe_choices(project: "Project", ring: RingStudy | NotAssessed) -> Mapping[str, SizeChoice] | NotAssessed:
    """All runs whose size is in the table of pipes, by tag."""
    if isinstance(ring, NotAssessed):
        return ring
    profile = index_profile(ring)
    if isinstance(profile, NotAssessed) or ring.design is None:
        return NotAssessed(QUESTION, ("modes.heating",), next(iter(ring.not_solved.values()), ""))
    choices = _Choices(project, ring, ring.design, {point.tag for point in profile})
    return {choice.tag: choice for choice in choices.all()}


class _Choices:
    """Choices of one ring, with what they are judged by."""

    def __init__(self, project: "Project", ring: RingStudy, design: Operation, index: set[str]) -> None:
        self.ring, self.design, self.index = ring, design, index
        stated = project.limits or {}
        own = {name: limit for name, limit in stated.items() if name in {VELOCITY, RESERVE}}
        self.fastest_stated = own[VELOCITY].at_most if VELOCITY in own else None
        least = own[RESERVE].at_least if RESERVE in own else None
        self.least_reserve = float(least if least is not None else catalogue()[RESERVE].limit or 0.0)
        needs = list(design.pump_needs.values())
        self.need = needs[0] if needs else None

    def all(self) -> Iterator[SizeChoice]:
        """Every run whose size is in the table."""
        for place in self.ring.hydraulics.circuit.places.values():
            if place.pipe is not None and place.pipe.size and float(self.design.flows.edges[place.tag].flow):
                yield self._choice(place.tag, place.branch, place.pipe)

    def _fastest(self, size: PipeSize) -> float:
        if self.fastest_stated is not None:
            return float(self.fastest_stated)
        if size.material == "copper":
            return float(further_limit(VELOCITY, "copper in accommodation").limit)
        return float(catalogue()[VELOCITY].limit or 0.0)

    def _drop(self, tag: str, size: PipeSize, share: float) -> float:
        """Drop of a run in another size, at a share of its design flow."""
        place = self.ring.hydraulics.network.element_index[tag]
        measure = self.ring.hydraulics.pipes[tag]
        outcome = self.design.outcome
        density, viscosity = float(outcome.density[place]), float(outcome.viscosity[place])
        speed = float(velocity.function(abs(float(self.design.flows.edges[tag].flow)) * share, size.bore))
        reynolds = reynolds_number.function(speed, size.bore, density, viscosity)
        factor = friction_factor(
            float(reynolds), float(relative_roughness.function(size.roughness, size.bore))
        )
        straight = pipe_drop.function(factor, float(measure.length), size.bore, density, speed)
        return float(straight + fitting_drop.function(float(measure.loss), density, speed))

    def _slack(self, tag: str) -> float:
        """What the balancing valves of a run's branch take beyond what they would fully open (Pa)."""
        circuit = self.ring.hydraulics.circuit
        spare = 0.0
        for other in circuit.chain_of(tag).tags:
            preset = self.ring.presets.get(other)
            if preset is not None and not preset.stated:
                taken = float(self.design.flows.edges[other].drop)
                spare += taken * (1 - (float(preset.kv) / float(preset.full_kv)) ** 2)
        return spare

    def _choice(self, tag: str, branch: str, pipe: "Pipe") -> SizeChoice:
        own = pipe_size(pipe.size or "")
        on_index = tag in self.index
        options = [self._option(tag, size, own, on_index=on_index) for size in neighbours(own)]
        recommended, reason = _recommended(options, own.name, on_index=on_index)
        return SizeChoice(tag, branch, on_index, tuple(options), own.name, recommended, reason)

    def _option(self, tag: str, size: PipeSize, own: PipeSize, *, on_index: bool) -> SizeOption:
        measure = self.ring.hydraulics.pipes[tag]
        flow = abs(float(self.design.flows.edges[tag].flow))
        drop, present = self._drop(tag, size, 1.0), self._drop(tag, own, 1.0)
        added = drop - present if on_index else max(drop - present - self._slack(tag), 0.0)
        speed = float(velocity.function(flow, size.bore))
        content = pipe_content.function
        volume = float(content(size.bore, measure.length)) - float(content(own.bore, measure.length))
        reserve = self._reserve(tag, added, drop - present, size, own)
        fastest = self._fastest(size)
        faults = []
        if speed > fastest:
            faults.append(f"the water runs at {speed:.2f} m/s, {fastest:.2f} m/s allowed")
        if reserve is not None and reserve < self.least_reserve:
            faults.append(
                f"the pump has {reserve:.2f} times the rise it needs, {self.least_reserve:.2f} asked for"
            )
        return SizeOption(size.name, size.bore, speed, drop, added, volume, reserve, " and ".join(faults))

    def _reserve(self, tag: str, added: float, more: float, size: PipeSize, own: PipeSize) -> float | None:
        """Rise of the pump over its need at the wanted flows, with what the size adds to the index."""
        if self.need is None:
            return None
        share = 1 / self.ring.share if self.ring.share else 1.0
        at_wanted = self._drop(tag, size, share) - self._drop(tag, own, share)
        counted = at_wanted * (added / more) if more else 0.0
        needed = float(self.need.needed) + counted
        return float(self.need.available) / needed if needed > 0 else None


def _recommended(options: Sequence[SizeOption], own: str, *, on_index: bool) -> tuple[str, str]:
    """The size to take, and why."""
    place = next(n for n, option in enumerate(options) if option.size == own)
    present, smaller, larger = options[place], options[:place], options[place + 1 :]
    if present.why_not:
        better = [option for option in (*larger, *smaller) if not option.why_not]
        if better:
            return better[0].size, f"{own} does not suit: {present.why_not}"
        nearest = max(options, key=lambda option: float(option.bore))
        return nearest.size, f"no size beside it suits: {nearest.why_not or present.why_not}"
    if smaller and smaller[0].why_not:
        return own, f"it suits; {smaller[0].size} would not: {smaller[0].why_not}"
    if smaller and not on_index and float(smaller[0].index) == 0:
        return (
            smaller[0].size,
            "it suits as well, its balancing valve gives back what it takes, and it holds less coolant",
        )
    return own, "it suits" + ("; a smaller one would take from the index circuit" if smaller else "")
