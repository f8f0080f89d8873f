"""Where things are: x forward from the aft end, y to port, z up from the loaded waterline."""

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import FROM_KEY, TABLE, Entry, Likely, Needed, Objection, Refers
from dossier.project.model.values import Point, Size

FREE = Annotated[float | None, q("s", "m", "space kept free", low=0, high=10), Likely(0.005, 2.5)]


class Marking(Entry):
    """A mark aboard that places are given from."""

    named_as: ClassVar[str] = "mark"
    example: ClassVar[str] = "{along: 6.6 m}"

    name: Annotated[str, FROM_KEY, Field(description="Name of the mark")] = ""
    along: Annotated[
        float | None,
        q("x", "m", "distance forward from the aft end", low=-50, high=250),
        Field(description="Its distance forward from the aft end"),
    ] = None
    across: Annotated[
        float | None,
        q("y", "m", "distance to port", low=-30, high=30),
        Field(description="Its distance to port"),
    ] = None
    up: Annotated[
        float | None,
        q("z", "m", "height over the waterline", low=-20, high=60),
        Field(description="Its height over the loaded waterline"),
    ] = None


class Box(Entry):
    """A box between two corners."""

    from_: Annotated[
        Point | None,
        Field(alias="from", description="Corner nearest aft, starboard, keel"),
    ] = None
    to: Annotated[Point | None, Field(description="The opposite corner")] = None

    def objections(self) -> Iterator[Objection]:
        """The first corner lies aft, to starboard and below."""
        if self.from_ and self.to:
            turned = [n for n, a, b in zip("xyz", self.from_, self.to, strict=True) if a >= b]
            if turned:
                yield Objection(
                    "to",
                    f"the box has no size along {' and '.join(turned)}",
                    "write from: the corner nearest aft, starboard, keel; to: the opposite one",
                )


class Compartment(Box):
    """A compartment by its box, and what is kept in it."""

    named_as: ClassVar[str] = "compartment"
    example: ClassVar[str] = (
        "{from: [0.8 m, -2.0 m, -0.8 m], to: [3.4 m, 2.0 m, 1.1 m], holds: [diesel engine]}"
    )

    name: Annotated[str, FROM_KEY, Field(description="Name of the compartment")] = ""
    holds: Annotated[tuple[str, ...] | None, Field(description="What stands or is kept in it, in words")] = (
        None
    )
    stowage: Annotated[bool | None, Field(description="Whether loose gear is stowed in it")] = None
    guard: Annotated[bool | None, Field(description="Whether a guard keeps gear off hot parts")] = None
    sealed: Annotated[bool | None, Field(description="Whether it is gas-tight against the cabins")] = None


class Canopy(Box):
    """A canopy, cover or cockpit tent by its box."""

    example: ClassVar[str] = "{name: cockpit tent, from: [0.6 m, -1.6 m, 1.7 m], to: [3.2 m, 1.6 m, 3.4 m]}"

    name: Annotated[str | None, Field(description="Name of the canopy")] = None


class KeepFree(Entry):
    """Space to keep free on the sides of a part, for service."""

    example: ClassVar[str] = "{port: 90 mm, top: 120 mm}"

    port: Annotated[FREE, Field(description="On its port side")] = None
    starboard: Annotated[FREE, Field(description="On its starboard side")] = None
    fore: Annotated[FREE, Field(description="On its fore side")] = None
    aft: Annotated[FREE, Field(description="On its aft side")] = None
    top: Annotated[FREE, Field(description="Above it")] = None
    bottom: Annotated[FREE, Field(description="Below it")] = None


class Place(Entry):
    """Where a part stands, as a box with its service space."""

    named_as: ClassVar[str] = "place"
    example: ClassVar[str] = "{at: [1.6 m, -1.5 m, 0.1 m], size: [0.5 m, 0.3 m, 0.3 m]}"

    name: Annotated[str, FROM_KEY, Field(description="Tag or name of the part")] = ""
    at: Annotated[Point | None, Field(description="Its corner nearest aft, starboard, keel")] = None
    size: Annotated[Size | None, Field(description="Its size along, across and up")] = None
    keep_free: Annotated[KeepFree | None, Field(description="Space to keep free for service")] = None


class Opening(Entry):
    """An opening through which gas could come in, or a fuel point."""

    named_as: ClassVar[str] = "opening"
    example: ClassVar[str] = "{name: Galley hatch, kind: hatch, at: [5.2 m, 0.2 m, 1.4 m]}"

    name: Annotated[
        str, Needed("its distance to the outlet"), Field(description="Name, unique among the openings")
    ]
    kind: Annotated[
        Literal[
            "door", "hatch", "opening window", "opening port", "ventilator", "cockpit", "boarding", "fuel"
        ]
        | None,
        Field(description="door, hatch, opening window, opening port, ventilator, cockpit, boarding or fuel"),
    ] = None
    at: Annotated[Point | None, Field(description="Its point nearest the outlet")] = None


class NamedPoint(Entry):
    """A point with a name."""

    example: ClassVar[str] = "{name: F1 vent, at: [4.0 m, 0.5 m, 1.5 m]}"

    name: Annotated[str | None, Field(description="What it is")] = None
    at: Annotated[Point | None, Field(description="Where it is")] = None


class Layout(Entry):
    """Compartments, places and openings."""

    example: ClassVar[str] = "{openings: [{name: Galley hatch, kind: hatch, at: [5.2 m, 0.2 m, 1.4 m]}]}"

    compartments: Annotated[Mapping[str, Compartment] | None, Field(description="Compartments by name")] = (
        None
    )
    canopies: Annotated[
        tuple[Canopy, ...] | None, Field(description="Canopies, covers, cockpit tents; [] if there are none")
    ] = None
    places: Annotated[
        Mapping[str, Place] | None, Field(description="Parts by tag or name, with their boxes")
    ] = None
    openings: Annotated[
        tuple[Opening, ...] | None,
        TABLE,
        Field(description="Openings and fuel points; a list or a CSV file"),
    ] = None
    openings_complete: Annotated[bool | None, Field(description="Whether the list of openings is whole")] = (
        None
    )
    highest_wetted: Annotated[
        NamedPoint | None, Field(description="Highest wetted point of the ring, where runs have no route")
    ] = None
    flooding_level: Annotated[
        float | None,
        q("z", "m", "level of the bilge alarm", low=-20, high=20),
        Likely(-4, 1),
        Field(description="Level at which the bilge alarm sounds, over the waterline"),
    ] = None
    reached_without_tools: Annotated[
        tuple[Annotated[str, Refers(("component", "place"), tags_only=True)], ...] | None,
        Field(description="What is reached without tools or removing fixed parts: tags or words"),
    ] = None


class Clearances(Entry):
    """Least distances of hot parts to what can burn."""

    example: ClassVar[str] = "{exhaust_run: 70 mm, burner: 150 mm, hot_to_fuel: 600 mm}"

    exhaust_run: Annotated[
        float | None,
        q("s", "m", "exhaust to combustible", low=0, high=20),
        Likely(0, 3),
        Field(description="From pipe or lagging to the nearest combustible material, hose or cable"),
    ] = None
    burner: Annotated[
        float | None,
        q("s", "m", "burner to combustible", low=0, high=20),
        Likely(0, 3),
        Field(description="From the burner to the nearest combustible material"),
    ] = None
    hot_to_fuel: Annotated[
        float | None,
        q("s", "m", "hot parts to fuel", low=0, high=50),
        Likely(0, 10),
        Field(description="From burner or exhaust to tank, filter or line of the fuel"),
    ] = None
    fuel_screen: Annotated[bool | None, Field(description="Whether a metal screen stands between")] = None
