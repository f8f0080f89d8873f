"""The ring: coolant, the order of units and pipes, branches, and where it expands."""

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal, TypeAlias, Union

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import (
    COUNT,
    NUMBER,
    SHARE,
    TABLE,
    TEMPERATURE,
    Entry,
    Likely,
    Needed,
    No,
    Objection,
    Refers,
)
from dossier.project.model.values import Point

UNIT = Refers(("component",))
IN_CIRCUIT = Refers(("unit",))


class Inhibitor(Entry):
    """The inhibitor of the coolant, by its data sheet."""

    example: ClassVar[str] = "{metals: [steel, copper, aluminium], food_grade: true}"

    metals: Annotated[tuple[str, ...] | None, Field(description="Metals its data sheet names")] = None
    food_grade: Annotated[bool | None, Field(description="Whether it is approved for food plants")] = None


class Coolant(Entry):
    """The liquid in the ring."""

    example: ClassVar[str] = "{base: propylene glycol, share: 40 %, by: volume}"

    base: Annotated[
        Literal["water", "ethylene glycol", "propylene glycol"] | None,
        Field(description="water, ethylene glycol or propylene glycol"),
    ] = None
    share: Annotated[
        float | None,
        q("x", "1", "share of glycol", low=0, high=1),
        SHARE,
        Likely(0.1, 0.65),
        Field(description="Share of glycol, or of concentrate where that is sold mixed"),
    ] = None
    by: Annotated[
        Literal["volume", "mass"] | None, Field(description="Share by volume (if left out) or by mass")
    ] = None
    inhibitor: Annotated[
        Inhibitor | No | None, Field(description="Its inhibitor; none means pure glycol and its data")
    ] = None

    def objections(self) -> Iterator[Objection]:
        """Plain water has no share of glycol."""
        if self.base == "water" and self.share:
            yield Objection(
                "share", "the coolant is water and has a share of glycol", "name the glycol under base"
            )


class PipeVent(Entry):
    """A vent in a run of pipe."""

    example: ClassVar[str] = "{at: [3.0 m, 0.4 m, 0.5 m], kind: manual, reachable: true}"

    at: Annotated[Point | None, Field(description="Where it sits")] = None
    kind: Annotated[Literal["manual", "automatic"] | None, Field(description="manual or automatic")] = None
    reachable: Annotated[bool | None, Field(description="Whether it is reached without dismantling")] = None


class Insulation(Entry):
    """Insulation of a pipe."""

    example: ClassVar[str] = "{thickness: 13 mm, conductivity: 0.04 W/m/K}"

    thickness: Annotated[
        float | None,
        q("d", "m", "thickness of the insulation", low=1e-4, high=0.5),
        Likely(0.003, 0.1),
        Field(description="Its thickness"),
    ] = None
    conductivity: Annotated[
        float | None,
        q("λ", "W/mK", "conductivity of the insulation", low=0.005, high=5),
        Likely(0.02, 0.1),
        Field(description="Its conductivity"),
    ] = None


class Unit(Entry):
    """A component in the ring or in a branch."""

    name_field: ClassVar[str] = "unit"
    example: ClassVar[str] = "{unit: B1}"

    unit: Annotated[str, UNIT, Field(description="Tag of the component")]


class Pipe(Entry):
    """A run of pipe or hose of one size."""

    name_field: ClassVar[str] = "id"
    example: ClassVar[str] = "{size: hose 19, length: 1.2 m, bends: 2}"

    id: Annotated[
        str, Field(description="Its name; else its list and its number among the pipes of it, as ring_1")
    ] = ""
    size: Annotated[
        str | None, Refers(("pipe_size",)), Field(description="Size out of the table of pipes; or bore")
    ] = None
    bore: Annotated[
        float | None,
        q("d", "m", "bore", low=1e-4, high=20),
        Likely(0.002, 0.15),
        Field(description="Bore, where the size is not in the table"),
    ] = None
    roughness: Annotated[
        float | None,
        q("ε", "m", "roughness", low=0, high=0.01),
        Likely(0, 0.001),
        Field(description="Roughness of the wall, with bore"),
    ] = None
    length: Annotated[
        float | None,
        q("L", "m", "length", low=0.001, high=2000),
        Likely(0.03, 120),
        Field(description="Developed length"),
    ] = None
    bends: Annotated[
        float | None,
        q("n", "1", "bends", low=0, high=1000),
        COUNT,
        Likely(0, 40),
        Field(description="Number of bends, 0.9 each unless k is given"),
    ] = None
    k: Annotated[
        float | None,
        q("ζ", "1", "sum of loss factors", low=0, high=10000),
        NUMBER,
        Likely(0, 200),
        Field(description="Sum of the loss factors of the run, instead of bends"),
    ] = None
    through: Annotated[
        str | None,
        Refers(("zone", "compartment"), words=("outside",)),
        Field(description="Zone or compartment it runs through"),
    ] = None
    insulation: Annotated[Insulation | No | None, Field(description="Its insulation, or none")] = None
    route: Annotated[tuple[Point, ...] | None, Field(description="Points of its axis, in flow order")] = None
    vents: Annotated[tuple[PipeVent, ...] | None, Field(description="Vents in it")] = None
    drains: Annotated[tuple[Point, ...] | None, Field(description="Where it can be drained")] = None
    within_reach: Annotated[bool | None, Field(description="Whether a hand can touch it bare")] = None
    oxygen_tight: Annotated[bool | None, Field(description="Whether it has a barrier against oxygen")] = None
    support: Annotated[
        float | None,
        q("s", "m", "distance of its supports", low=0.01, high=20),
        Likely(0.08, 2),
        Field(description="Distance from support to support"),
    ] = None
    sleeved: Annotated[bool | None, Field(description="Whether it is sleeved where it passes bulkheads")] = (
        None
    )
    pressure_rating: Annotated[
        float | None,
        q("p_max", "Pa", "highest pressure, gauge", low=1000, high=1e8),
        Likely(50000, 2.5e6),
        Field(description="Highest pressure it stands, gauge"),
    ] = None
    temperature_rating: Annotated[
        float | None,
        q("θ_max", "K", "highest temperature", low=273, high=1000),
        TEMPERATURE,
        Likely(313, 473),
        Field(description="Highest temperature it stands"),
    ] = None

    def objections(self) -> Iterator[Objection]:
        """A pipe has a bore and a length."""
        if self.size is None and self.bore is None:
            yield Objection("", "the pipe has no size", "write size: hose 19, or bore: 19 mm", missing=True)
        if self.length is None and not self.route:
            yield Objection(
                "", "the pipe has no length", "write length: 2.0 m (flow and volume need it)", missing=True
            )


class Group(Entry):
    """Parallel branches between two manifolds or tees."""

    example: ClassVar[str] = "{between: [M1, M2], branches: {saloon: [{unit: V1}, {unit: F1}]}}"

    between: Annotated[
        tuple[Annotated[str, UNIT], Annotated[str, UNIT]],
        Field(description="Tags of the two manifolds or tees"),
    ]
    branches: Annotated[
        Mapping[str, tuple["Item", ...]],
        TABLE,
        Field(description="Branches by name, each a list in flow order"),
    ]


Item: TypeAlias = Union[Unit, Pipe, Group]  # noqa: UP007 - named inside a string above, for Python 3.10


class Link(Entry):
    """A cross-connection outside the tree, from the outlet of one unit to the inlet of another."""

    example: ClassVar[str] = "{from: X1, to: T1, pipe: {size: hose 19, length: 1.5 m}}"

    from_: Annotated[str, IN_CIRCUIT, Field(alias="from", description="Unit at whose outlet it leaves")]
    to: Annotated[str, IN_CIRCUIT, Field(description="Unit at whose inlet it arrives")]
    pipe: Annotated[Pipe, Needed("the flow through it"), Field(description="Its pipe")]


class Connection(Entry):
    """Where header tank or vessel joins the ring."""

    example: ClassVar[str] = "{unit: T2, joins_before: P1, valves_to_burner: none}"

    unit: Annotated[
        str | None,
        Refers(("component",), kinds=("header_tank", "membrane_vessel")),
        Field(description="Tag of the header tank or vessel"),
    ] = None
    joins_before: Annotated[
        str | None, IN_CIRCUIT, Field(description="Unit of the ring at whose inlet it joins")
    ] = None
    valves_to_burner: Annotated[
        tuple[Annotated[str, Refers(("component",), tags_only=True)], ...] | No | None,
        Field(description="What could cut it off from the burner: a list of tags, or none"),
    ] = None


class FillConnection(Entry):
    """A link from the drinking water to the ring, for filling."""

    example: ClassVar[str] = "{backflow_preventer: true, hose_kept_off: true}"

    backflow_preventer: Annotated[
        bool | None, Field(description="Whether a backflow preventer is fitted")
    ] = None
    hose_kept_off: Annotated[
        bool | None, Field(description="Whether its hose is taken off after filling")
    ] = None


class Circuit(Entry):
    """The heating circuit; once it is written out, what is not in it is not aboard."""

    example: ClassVar[str] = "{coolant: {base: water}, system: open, ring: [{unit: B1}, {unit: P1}]}"

    coolant: Annotated[Coolant | None, Field(description="The liquid in the ring")] = None
    system: Annotated[
        Literal["open", "sealed"] | None, Field(description="open (vented header) or sealed")
    ] = None
    design_drop: Annotated[
        float | None,
        q("Δθ", "K", "cooling of the water at the emitters", low=0.5, high=80),
        Likely(3, 30),
        Field(description="How much the water cools at the emitters, for the wanted flows"),
    ] = None
    ring: Annotated[
        tuple[Item, ...] | None, Field(description="Units, pipes and groups in flow order, once round")
    ] = None
    header: Annotated[Connection | No | None, Field(description="Where the header tank joins")] = None
    expansion: Annotated[
        Connection | No | None, Field(description="Where the vessel of a sealed ring joins")
    ] = None
    fill_connection: Annotated[
        FillConnection | No | None, Field(description="A fixed link from the drinking water, or none")
    ] = None
    fill_pressure: Annotated[
        float | None,
        q("p_fill", "Pa", "fill pressure, gauge", low=0, high=2e6),
        Likely(1e4, 4e5),
        Field(description="Pressure it is filled to when cold, gauge"),
    ] = None
    gauge: Annotated[bool | None, Field(description="Whether a pressure gauge is fitted")] = None
    fill_valve: Annotated[bool | None, Field(description="Whether a fill valve with cap is fitted")] = None
    links: Annotated[tuple[Link, ...] | None, Field(description="Cross-connections outside the tree")] = None
    branches: Annotated[
        Mapping[str, tuple[Item, ...]] | None,
        TABLE,
        Field(description='Short form: branches of the one group written "M1 to M2" in the ring'),
    ] = None
