"""All that is calculated for one project, in one place for checks and pages.

A calculation that could not be made is a ``NotAssessed`` with the keys it waits for.
"""

from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from dossier.notation import NotAssessed, Real
from dossier.notation.records import dataclass
from dossier.physics.zones import total_heat_flow
from dossier.sizing.branches import Branches, branches
from dossier.sizing.burner_day import burner_day
from dossier.sizing.circuit import Circuit, circuit
from dossier.sizing.cold_start import ColdStart, cold_start
from dossier.sizing.combustion_air import AirStudy, combustion_air
from dossier.sizing.coolant import Coolant, coolant_study
from dossier.sizing.day import DayStudy, day
from dossier.sizing.electrics import ElectricsStudy, electrics
from dossier.sizing.exhaust import ExhaustStudy, exhaust
from dossier.sizing.exhaust_candidates import candidates
from dossier.sizing.expansion import Expansion, expansion
from dossier.sizing.expansion_ways import ExpansionWays, expansion_ways
from dossier.sizing.fuel import FuelStudy, fuel
from dossier.sizing.header_margins import HeaderMargins, header_margins
from dossier.sizing.heat_loss import HeatLoss, heat_loss
from dossier.sizing.heat_recovery import Recovery, recovery_study
from dossier.sizing.held import HeldRooms, held_rooms
from dossier.sizing.index_profile import ProfilePoint, index_profile
from dossier.sizing.interaction import Interaction, interaction
from dossier.sizing.loss_by_way import LossByWay, loss_by_way
from dossier.sizing.masses import Masses, masses
from dossier.sizing.mix_curve import MixPoint, mix_curve
from dossier.sizing.moisture import Moisture, moisture_study
from dossier.sizing.nights import Nights, nights
from dossier.sizing.parts import Parts, parts
from dossier.sizing.pipe_choice import SizeChoice, pipe_choices
from dossier.sizing.placement import Placement, placement
from dossier.sizing.pressures import Pressures, pressures
from dossier.sizing.ring import Operation, RingStudy, ring_study
from dossier.sizing.route_points import RoutePoints, route_points
from dossier.sizing.season import Season, season
from dossier.sizing.store import StoreStudy, store_study
from dossier.sizing.strengths import Strength, strengths
from dossier.sizing.system_curves import SystemCurves, system_curves
from dossier.sizing.tap_water import TapWater, tap_water_study
from dossier.sizing.uncertainty import uncertainty
from dossier.sizing.uncertainty_results import Uncertainty
from dossier.sizing.wall_temperatures import WallTemperatures, wall_temperatures
from dossier.sizing.warm_up import WarmUp, warm_up

if TYPE_CHECKING:
    from dossier.project import Project


@dataclass(frozen=True)
class Study:
    """One project with everything calculated for it."""

    project: "Project"
    heat_loss: HeatLoss | NotAssessed
    circuit: Circuit | NotAssessed
    coolant: Coolant | NotAssessed
    ring: RingStudy | NotAssessed
    pressures: Pressures | NotAssessed
    expansion: Expansion | NotAssessed
    expansion_ways: ExpansionWays | NotAssessed
    route_points: RoutePoints | NotAssessed
    held: HeldRooms | NotAssessed
    cold_start: ColdStart | NotAssessed
    store: StoreStudy | NotAssessed
    day: DayStudy | NotAssessed
    warm_up: WarmUp | NotAssessed
    tap_water: TapWater | NotAssessed
    recovery: Recovery | NotAssessed
    moisture: Moisture | NotAssessed
    exhaust: ExhaustStudy | NotAssessed
    candidates: Mapping[str, ExhaustStudy]
    air: AirStudy | NotAssessed
    fuel: FuelStudy | NotAssessed
    season: Season | NotAssessed
    electrics: ElectricsStudy | NotAssessed
    placement: Placement | NotAssessed
    header_margins: HeaderMargins | NotAssessed
    masses: Masses | NotAssessed

    @property
    def operations(self) -> Mapping[str, Operation]:
        """Solved modes by name; none where the circuit could not be solved."""
        return {} if isinstance(self.ring, NotAssessed) else self.ring.operations

    @cached_property
    def parts(self) -> Parts:
        """Parts list and cut list; counted when first asked for."""
        return parts(self.project, self.circuit, self.coolant, self.exhaust)

    @cached_property
    def nights(self) -> Nights | NotAssessed:
        """What five nights take, for the crew; when first asked for, since no check rests on it."""
        return nights(self.project, self.heat_loss, self.fuel, self.ring, self.store)

    @cached_property
    def watched(self) -> Uncertainty | NotAssessed:
        """How sure load and burner runs are, for the checks; flows stay as solved. Sampled when asked for."""
        return uncertainty(self.project, (self.heat_loss, self.store), ranked=False)

    @cached_property
    def uncertainty(self) -> Uncertainty | NotAssessed:
        """How sure the results are; calculated when first asked for."""
        parts = (self.heat_loss, self.ring, self.store, self.tap_water, self.fuel)
        return uncertainty(self.project, parts, asked_again)

    @cached_property
    def interaction(self) -> tuple[Interaction, ...] | NotAssessed:
        """What shutting one emitter does to the others; calculated when first asked for."""
        return interaction(self.ring)

    @cached_property
    def index_profile(self) -> tuple[ProfilePoint, ...] | NotAssessed:
        """Pressure along the index circuit; calculated when first asked for."""
        return index_profile(self.ring)

    @cached_property
    def pipe_choices(self) -> Mapping[str, SizeChoice] | NotAssessed:
        """Every run in its own size and the sizes beside it; calculated when first asked for."""
        return pipe_choices(self.project, self.ring)

    @cached_property
    def mix_curve(self) -> tuple[MixPoint, ...] | NotAssessed:
        """The ring from −20 to 80 °C; calculated when first asked for."""
        return mix_curve(self.project, self.coolant, self.ring)

    @cached_property
    def strengths(self) -> tuple[Strength, ...] | NotAssessed:
        """What each strength of the mix does; calculated when first asked for."""
        return strengths(self.project, self.coolant, self.ring)

    @cached_property
    def branches(self) -> Branches | NotAssessed:
        """What each branch of the design mode gets and takes; calculated when first asked for."""
        return branches(self.ring)

    @cached_property
    def loss_by_way(self) -> LossByWay | NotAssessed:
        """The design load by the ways it takes; calculated when first asked for."""
        return loss_by_way(self.heat_loss)

    @cached_property
    def wall_temperatures(self) -> Mapping[str, WallTemperatures] | NotAssessed:
        """Temperatures through every build-up; calculated when first asked for."""
        return wall_temperatures(self.heat_loss)

    @cached_property
    def system_curves(self) -> SystemCurves | NotAssessed:
        """Pump against circuit, warm, cold and with water; calculated when first asked for."""
        return system_curves(self.ring, self.coolant, self.cold_start)


def study(project: "Project") -> Study:
    """Calculate everything the file gives enough for."""
    loss = heat_loss(project)
    graph = circuit(project)
    mix = coolant_study(project, graph)
    ring = ring_study(project, graph, loss, mix)
    pressed = pressures(project, ring, mix)
    stored = store_study(project, ring, mix, loss)
    capacity = None if isinstance(stored, NotAssessed) else stored.heat_capacity
    way_out = exhaust(project, loss)
    heat = heat_at_burner(loss, ring)
    burnt = fuel(project, heat)
    recovered = recovery_study(project, ring, mix, loss)
    return Study(
        project=project,
        heat_loss=loss,
        circuit=graph,
        coolant=mix,
        ring=ring,
        pressures=pressed,
        expansion=expansion(project, ring, mix, pressed),
        expansion_ways=expansion_ways(project, graph),
        route_points=route_points(graph),
        held=held_rooms(loss, ring),
        cold_start=cold_start(project, mix, ring),
        store=stored,
        day=day(project, ring, mix, loss),
        warm_up=warm_up(project, loss, ring, mix),
        tap_water=tap_water_study(project, ring, mix, capacity),
        recovery=recovered,
        moisture=moisture_study(project, loss),
        exhaust=way_out,
        candidates=candidates(project, loss),
        air=combustion_air(project, way_out),
        fuel=burnt,
        season=season(project, loss, burnt, ring, stored, recovered),
        electrics=electrics(project, *burner_day(stored, heat)),
        placement=placement(project, project.exhaust.route if project.exhaust else None),
        header_margins=header_margins(project),
        masses=masses(project, content_by_tag(mix)),
    )


def asked_again(project: "Project") -> tuple[object, ...]:
    """What the study of uncertainty asks anew with other numbers."""
    loss, graph = heat_loss(project), circuit(project)
    mix = coolant_study(project, graph)
    ring = ring_study(project, graph, loss, mix)
    stored = store_study(project, ring, mix, loss)
    capacity = None if isinstance(stored, NotAssessed) else stored.heat_capacity
    drawn = tap_water_study(project, ring, mix, capacity)
    return loss, ring, stored, drawn, fuel(project, heat_at_burner(loss, ring))


def heat_at_burner(loss: HeatLoss | NotAssessed, ring: RingStudy | NotAssessed) -> Real | None:
    """Heat that the burner must give on the design night: the load, and what pipes lose outside the rooms."""
    if isinstance(loss, NotAssessed):
        return None
    heat = None if isinstance(ring, NotAssessed) or ring.design is None else ring.design.heat
    return loss.total if heat is None else total_heat_flow(loss.total, heat.outside)


def content_by_tag(mix: Coolant | NotAssessed) -> Mapping[str, Real] | None:
    """Coolant in each part, None where the content is not known."""
    if isinstance(mix, NotAssessed) or mix.volume is None:
        return None
    return {content.tag: content.volume for content in mix.contents}
