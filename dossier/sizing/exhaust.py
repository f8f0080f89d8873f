"""Does the exhaust carry the gas out of the boat, clear of water, people and wood?

One study holds one way out: the exhaust as it is, or a candidate. What the file does not give enough for is
``None`` or a ``NotAssessed``, and the keys it waits for are remembered beside it.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

from dossier.notation import NotAssessed, Real, q, slug
from dossier.notation.records import dataclass
from dossier.physics.route import Point, point_distance
from dossier.project.model.entry import Answer
from dossier.project.model.exhaust import ExhaustRun
from dossier.sizing.exhaust_gas import GasFlow, gas_flow
from dossier.sizing.exhaust_heat import ExhaustHeat, exhaust_heat
from dossier.sizing.exhaust_passages import PassageStudy, passage_studies
from dossier.sizing.exhaust_route import (
    ExhaustRoute,
    LoopHeights,
    OutletHeights,
    exhaust_route,
    loop_heights,
    outlet_heights,
    without_repeats,
)
from dossier.sizing.spaces import burner_space

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.heat_loss import HeatLoss

QUESTION = "Does the exhaust carry the gas out of the boat?"
AIR_INTAKE = "combustion air intake"


@dataclass(frozen=True)
class OutletDistance:
    """From the outlet to an opening, a fuel point or the air intake; ``kind`` as in the list of openings."""

    name: str
    kind: str | None
    at: Point | None
    key: str
    distance: Annotated[
        Real | None,
        q("s", "m", "outlet to opening, fuel point or air intake", name="exhaust.outlet_distance.{name}"),
    ]


@dataclass(frozen=True)
class ExhaustStudy:
    """One way out for the gas: its line, heights, distances, temperatures and pressure.

    ``run`` is what the file says of it, a candidate's gaps filled from the exhaust; ``own`` are the keys a
    candidate states itself; ``candidate`` is empty for the exhaust as it is. ``bore`` is that of the outlet.
    """

    run: ExhaustRun
    candidate: str
    own: frozenset[str]
    length: Annotated[Real | None, q("L", "m", "developed length", name="exhaust.length")]
    bore: Annotated[Real | None, q("d", "m", "bore of the outlet")]
    route: ExhaustRoute | NotAssessed
    outlet: OutletHeights | NotAssessed
    loop: LoopHeights | NotAssessed
    distances: tuple[OutletDistance, ...]
    heat: ExhaustHeat
    passages: tuple[PassageStudy, ...]
    gas: GasFlow

    def key(self, of: str) -> str:
        """Full key of something the run says: ``route``, ``hull_fitting.kind``."""
        field = of.partition(".")[0]
        return f"exhaust.candidates.{self.candidate}.{of}" if field in self.own else f"exhaust.{of}"

    def result_name(self, name: str) -> str:
        """Name under which one of its results stands: a candidate's bears the candidate."""
        if not self.candidate:
            return name
        return f"exhaust.candidate.{slug(self.candidate)}.{name.removeprefix('exhaust.')}"

    def near(self, *kinds: str | None) -> tuple[OutletDistance, ...]:
        """Distances to openings of these kinds, in the order of the file."""
        return tuple(each for each in self.distances if each.kind in kinds)

    @property
    def nearest(self) -> OutletDistance | None:
        """What lies nearest to the outlet."""
        known = [each for each in self.distances if each.distance is not None]
        return min(known, key=lambda each: float(each.distance or 0.0), default=None)


def outlet_bore(run: ExhaustRun) -> Real | None:
    """Bore of the outlet: of the hull fitting where it is stated, else of the exhaust."""
    fitting = run.hull_fitting
    if fitting is None or isinstance(fitting, Answer) or fitting.bore is None:
        return run.bore
    return fitting.bore


def _distances(project: "Project", outlet: Point | None) -> Iterator[OutletDistance]:
    def to(name: str, kind: str | None, at: Point | None, key: str) -> OutletDistance:
        reached = point_distance(*outlet, *at) if outlet is not None and at is not None else None
        return OutletDistance(name, kind, at, key, reached)

    for opening in (project.layout.openings if project.layout else None) or ():
        yield to(opening.name, opening.kind, opening.at, opening.key or f"layout.openings.{opening.name}")
    if project.combustion_air is not None and project.combustion_air.at is not None:
        yield to(AIR_INTAKE, AIR_INTAKE, project.combustion_air.at, "combustion_air.at")


def study_of(
    project: "Project",
    heat_loss: "HeatLoss | NotAssessed",
    run: ExhaustRun,
    candidate: str = "",
    own: frozenset[str] = frozenset(),
) -> ExhaustStudy:
    """Study of one way out, as far as the file gives enough for it.

    The clearance along the run was measured for the exhaust as it is, so a candidate with a route of its own
    has none.
    """
    points = without_repeats(run.route or ())
    route: ExhaustRoute | NotAssessed
    loop: LoopHeights | NotAssessed
    outlet: OutletHeights | NotAssessed
    if points[1:]:
        route = exhaust_route(project, points, run.drains or ())
        loop = loop_heights(project, points)
        outlet = outlet_heights(project, points[-1], outlet_bore(run), "exhaust.bore")
    else:
        route = loop = outlet = NotAssessed(QUESTION, ("exhaust.route",))
    lies = route if isinstance(route, ExhaustRoute) else None
    around = [name for name, _ in lies.spaces] if lies else [burner_space(project) or ""]
    clearances = project.clearances if "route" not in own else None
    distance = clearances.exhaust_run if clearances else None
    heat = exhaust_heat(project, heat_loss, run, tuple(around), distance)
    return ExhaustStudy(
        run=run,
        candidate=candidate,
        own=own,
        length=lies.length if lies else run.length,
        bore=outlet_bore(run),
        route=route,
        outlet=outlet,
        loop=loop,
        distances=tuple(_distances(project, lies.outlet if lies else None)),
        heat=heat,
        passages=passage_studies(project, heat, run.passes or (), _passes_key(candidate, own)),
        gas=gas_flow(
            project, run, heat.gas, lies.length if lies else run.length, lies.bends if lies else None
        ),
    )


def _passes_key(candidate: str, own: frozenset[str]) -> str:
    return f"exhaust.candidates.{candidate}.passes" if "passes" in own else "exhaust.passes"


def exhaust(project: "Project", heat_loss: "HeatLoss | NotAssessed") -> ExhaustStudy | NotAssessed:
    """The exhaust as it is; not assessed where the file says nothing of it."""
    if project.exhaust is None:
        return NotAssessed(QUESTION, ("exhaust.route",))
    return study_of(project, heat_loss, project.exhaust)
