"""The exhaust's way out, and the burner's air."""

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import COUNT, FROM_KEY, TEMPERATURE, Entry, Likely, No, Objection, Refers
from dossier.project.model.values import Point

BORE = Annotated[float | None, q("d", "m", "bore", low=1e-4, high=20), Likely(0.002, 0.16)]
SPACE = Refers(("zone", "compartment"), words=("outside",))


class Lagging(Entry):
    """Lagging of the exhaust."""

    example: ClassVar[str] = "{thickness: 40 mm, conductivity: 0.06 W/m/K, extent: whole}"

    thickness: Annotated[
        float | None,
        q("d", "m", "thickness of the lagging", low=1e-4, high=0.5),
        Likely(0.003, 0.15),
        Field(description="Its thickness"),
    ] = None
    conductivity: Annotated[
        float | None,
        q("λ", "W/mK", "conductivity of the lagging", low=0.005, high=5),
        Likely(0.025, 0.3),
        Field(description="Its conductivity at its mean temperature"),
    ] = None
    extent: Annotated[
        str | None, Field(description="whole (from burner to hull fitting), or in words how far")
    ] = None


class Drain(Entry):
    """A condensate drain of the exhaust."""

    example: ClassVar[str] = "{at: [2.1 m, -1.2 m, 0.55 m], led_to: overboard}"

    at: Annotated[Point | None, Field(description="Where it sits")] = None
    led_to: Annotated[str | None, Field(description="Where it leads")] = None


class Passage(Entry):
    """Where the exhaust passes a bulkhead, deck or hull."""

    named_as: ClassVar[str] = "passage"
    name_field: ClassVar[str] = "bulkhead"
    example: ClassVar[str] = (
        "{bulkhead: lazarette, hole: 180 mm, material: plywood, thickness: 18 mm, sleeve: true}"
    )

    bulkhead: Annotated[str | None, Field(description="Which bulkhead, unique among the passages")] = None
    hole: Annotated[
        float | None,
        q("D", "m", "diameter of the hole", low=0.003, high=3),
        Likely(0.02, 0.6),
        Field(description="Diameter of the hole"),
    ] = None
    material: Annotated[str | None, Refers(("material",)), Field(description="Material of the bulkhead")] = (
        None
    )
    thickness: Annotated[
        float | None,
        q("t", "m", "thickness of the bulkhead", low=1e-4, high=2),
        Likely(0.001, 0.3),
        Field(description="Thickness of the bulkhead"),
    ] = None
    sleeve: Annotated[bool | None, Field(description="Whether a metal sleeve or collar is fitted")] = None
    closing: Annotated[
        str | No | None, Field(description="What closes the gap, in words, or none for an open air gap")
    ] = None


class HullFitting(Entry):
    """The fitting through which the exhaust leaves the hull."""

    example: ClassVar[str] = "{kind: double wall, material: stainless steel, isolated: true}"

    kind: Annotated[
        Literal["double wall", "insulated", "single wall"] | None,
        Field(description="double wall, insulated or single wall"),
    ] = None
    material: Annotated[str | None, Field(description="Its material")] = None
    isolated: Annotated[bool | None, Field(description="Whether it is isolated from a metal hull")] = None
    bore: Annotated[BORE, Field(description="Its bore")] = None


class ExhaustRun(Entry):
    """One way out for the exhaust, from the burner to the outlet."""

    named_as: ClassVar[str] = "candidate"
    example: ClassVar[str] = "{bore: 30 mm, route: [[2.1 m, -1.2 m, 0.55 m], [1.4 m, -2.05 m, 0.98 m]]}"

    name: Annotated[str, FROM_KEY, Field(description="Name of the candidate")] = ""
    bore: Annotated[BORE, Field(description="Bore of the exhaust")] = None
    length: Annotated[
        float | None,
        q("L", "m", "length of the exhaust", low=0.01, high=100),
        Likely(0.2, 12),
        Field(description="Length, where there is no route yet"),
    ] = None
    gas_temperature: Annotated[
        float | None,
        q("θ_g", "K", "gas leaving the burner", low=303, high=1500),
        TEMPERATURE,
        Likely(373, 1000),
        Field(description="Temperature of the gas leaving the burner"),
    ] = None
    lagging: Annotated[Lagging | No | None, Field(description="Its lagging, or none")] = None
    route: Annotated[
        tuple[Point, ...] | None, Field(description="Points of the pipe's axis from the burner to the outlet")
    ] = None
    drains: Annotated[tuple[Drain, ...] | None, Field(description="Condensate drains")] = None
    joints: Annotated[
        float | None,
        q("n", "1", "joints", low=0, high=100),
        COUNT,
        Likely(0, 20),
        Field(description="Number of joints"),
    ] = None
    silencer: Annotated[
        float | No | None,
        q("Δp", "Pa", "loss of the silencer at full output", low=0, high=1e5),
        Likely(0, 2000),
        Field(description="Loss of the silencer at full output, or none"),
    ] = None
    passes: Annotated[
        tuple[Passage, ...] | None, Field(description="Bulkheads, decks and hull it passes")
    ] = None
    hull_fitting: Annotated[HullFitting | No | None, Field(description="Its hull fitting")] = None

    def objections(self) -> Iterator[Objection]:
        """A route has legs."""
        if self.route is not None and not self.route[1:]:
            yield Objection(
                "route", "the route has fewer than two points", "write it from the burner to the outlet"
            )


class Exhaust(ExhaustRun):
    """The exhaust, with further candidate routes."""

    candidates: Annotated[
        Mapping[str, ExhaustRun] | None,
        Field(description="Further routes with the same keys; what they leave out is as in the exhaust"),
    ] = None


class Fan(Entry):
    """A fan that draws air from the burner's space."""

    example: ClassVar[str] = "{air_flow: 90 m3/h}"

    air_flow: Annotated[
        float | None,
        q("q_V", "m3/s", "air it draws", low=0, high=100),
        Likely(0.001, 3),
        Field(description="Air it draws"),
    ] = None


class CombustionAir(Entry):
    """Where the burner's air comes from."""

    example: ClassVar[str] = "{from: engine_room, opening: 80 cm2}"

    from_: Annotated[
        str | None, SPACE, Field(alias="from", description="Zone or compartment it is taken from, or outside")
    ] = None
    opening: Annotated[
        float | None,
        q("A", "m2", "free opening", low=0, high=20),
        Likely(3e-4, 0.5),
        Field(description="Free area of the opening into that space"),
    ] = None
    at: Annotated[Point | None, Field(description="Where the air enters from outside")] = None
    engine_opening: Annotated[
        float | None,
        q("A", "m2", "free opening for engine and fans", low=0, high=20),
        Likely(3e-4, 1),
        Field(description="Free area of the engine's own opening"),
    ] = None
    fans: Annotated[tuple[Fan, ...] | None, Field(description="Fans that draw from the same space")] = None
