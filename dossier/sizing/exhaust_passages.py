"""How wide is the gap where the exhaust passes a bulkhead, and how hot does the edge of the hole get?"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from typing import TYPE_CHECKING, Annotated

from dossier.data.coefficients import coefficient
from dossier.data.materials import materials
from dossier.data.recognised_words import says
from dossier.notation import Real, q
from dossier.notation.records import dataclass
from dossier.physics.annular_fin import edge_conductance
from dossier.physics.exhaust_heat import passage_gap
from dossier.physics.exhaust_passage import edge_temperature_air, edge_temperature_packed
from dossier.project.model.entry import Answer
from dossier.project.model.exhaust import Passage
from dossier.sizing.exhaust_heat import Cover, ExhaustHeat, Surface, hottest

if TYPE_CHECKING:
    from dossier.project import Project

EDGE = q("θ_e", "K", "edge of the hole")


@dataclass(frozen=True)
class PassageStudy:
    """One bulkhead, deck or hull the exhaust passes.

    ``combustible`` is None where the material is not stated, ``packed`` where the file does not tell whether
    the gap is air. ``gap`` is that of the lagged pipe where lagging is stated, ``bare_gap`` that of the bare
    one where the pipe is, or may be, bare here. The temperature is found for combustible material only, and
    is the hottest of what the file leaves open. ``lacking`` names, by field, the keys a figure waits for.
    """

    name: str
    key: str
    written: Passage
    combustible: bool | None
    packed: bool | None
    cover: Cover
    outside: Annotated[Real | None, q("D", "m", "outside diameter of pipe or lagging")]
    gap: Annotated[
        Real | None, q("s", "m", "between pipe or lagging and hole's edge", name="exhaust.passage.{name}.gap")
    ]
    bare_gap: Annotated[Real | None, q("s", "m", "between bare pipe and the hole's edge")]
    temperature: Annotated[
        Real | None,
        q("θ_e", "K", "combustible edge of the hole, solved", name="exhaust.passage.{name}.temperature"),
    ]
    lacking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def _material(project: "Project", name: str | None) -> tuple[Real | None, bool | None]:
    """Conductivity, and whether it burns; what only the project's own list knows counts as if it did."""
    if name is None:
        return None, None
    own = (project.materials or {}).get(name)
    if own is not None:
        return own.conductivity, True
    known = materials().get(name)
    return (known.conductivity, known.combustible) if known else (None, True)


def _is_packed(written: Passage) -> bool | None:
    """Whether the gap is packed; None where the words do not tell."""
    if written.closing is None:
        return None
    return False if isinstance(written.closing, Answer) else says("packing", written.closing)


def _here(
    heat: ExhaustHeat, hole: Real | None, *, combustible: bool | None
) -> tuple[Cover, tuple[Surface, ...]]:
    """How the exhaust is covered in this hole, and the outsides it may have there.

    Lagging that does not pass a hole in metal stops at the plate: the pipe is bare inside the fitting.
    """
    lagged, bare = heat.lagged, heat.bare
    if combustible is False and hole is not None and lagged and bare and lagged.outside > hole:
        return Cover.BARE, (bare,)
    return heat.cover, heat.surfaces


@dataclass(frozen=True)
class _Board:
    """A hole in a board, and what fills the gap."""

    hole: Real
    thickness: Real
    conductivity: Real
    packed: bool | None

    def edges(self, heat: ExhaustHeat, surface: Surface) -> Iterator[Real]:
        """Temperature of the edge with air or packing, or with both where that is not known."""
        hole, thickness = self.hole, self.thickness
        edge = edge_conductance(hole, thickness, self.conductivity, coefficient("exhaust.face_film"))
        way = (heat.gas, heat.surroundings, surface.resistance, surface.outside, hole, thickness, edge)
        if self.packed is not True:
            yield edge_temperature_air(*way, coefficient("exhaust.emissivity"))
        if self.packed is not False:
            yield edge_temperature_packed(*way, coefficient("exhaust.packing"))


def passage_study(
    project: "Project", heat: ExhaustHeat, written: Passage, name: str, key: str
) -> PassageStudy:
    """One passage of a run whose temperatures are known."""
    conductivity, combustible = _material(project, written.material)
    hole, thickness, packed = written.hole, written.thickness, _is_packed(written)
    cover, surfaces = _here(heat, hole, combustible=combustible)
    pipe = () if heat.bare is not None else ("exhaust.bore",)
    if cover is Cover.UNKNOWN:
        pipe = (*pipe, "exhaust.lagging.thickness")
    stated = {"material": conductivity, "hole": hole, "thickness": thickness}
    silent = {part: (f"{key}.{part}",) if number is None else () for part, number in stated.items()}
    lacking: dict[str, tuple[str, ...]] = {}
    gap = bare_gap = temperature = None
    if hole is None or not surfaces:
        lacking["gap"] = (*silent["hole"], *pipe)
    else:
        gap = passage_gap(hole, surfaces[0].outside)
        bare_gap = passage_gap(hole, surfaces[-1].outside) if cover.may_be_bare else None
    if combustible is not False:
        if hole is None or thickness is None or conductivity is None or not surfaces:
            lacking["temperature"] = (*silent["material"], *silent["hole"], *silent["thickness"], *pipe)
        else:
            board = _Board(hole, thickness, conductivity, packed)
            text = "θ_e = hottest of what the file leaves open: lagged or bare, air or packing"
            edges = [edge for surface in surfaces for edge in board.edges(heat, surface)]
            temperature = hottest(EDGE, text, *edges)
    return PassageStudy(
        name=name,
        key=key,
        written=written,
        combustible=combustible,
        packed=packed,
        cover=cover,
        outside=surfaces[0].outside if surfaces else None,
        gap=gap,
        bare_gap=bare_gap,
        temperature=temperature,
        lacking=lacking,
    )


def passage_studies(
    project: "Project", heat: ExhaustHeat, passes: Sequence[Passage], key: str
) -> tuple[PassageStudy, ...]:
    """All passages of a run in their order; ``key`` is that of their list."""
    return tuple(
        passage_study(
            project,
            heat,
            written,
            written.bulkhead or f"passage {n}",
            written.key or f"{key}.{written.bulkhead or n}",
        )
        for n, written in enumerate(passes, 1)
    )
