"""The shell of the boat: zones and the sections of their envelopes."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.build_up import HeatFlow
from dossier.project.model.entry import (
    COUNT,
    TABLE,
    TEMPERATURE,
    Entry,
    Likely,
    Needed,
    Objection,
    Refers,
)

NEIGHBOUR = Refers(("zone",), words=("air", "sea"))
Width = Annotated[float, q("b", "m", "width", low=0.05, high=40), Likely(0.3, 12)]


class Glazing(Entry):
    """A window by its panes; also written ``single 8 mm`` or ``double acrylic 6 mm``."""

    example: ClassVar[str] = "{panes: double, material: acrylic, thickness: 6 mm, gap: 12 mm}"

    panes: Annotated[
        Literal["single", "double", "triple"],
        Needed("the transmittance of the window"),
        Field(description="single, double or triple"),
    ]
    material: Annotated[
        str | None, Refers(("material",)), Field(description="Material of the panes; glass if left out")
    ] = None
    thickness: Annotated[
        float | None,
        q("d", "m", "thickness of a pane", low=5e-4, high=0.1),
        Likely(0.002, 0.025),
        Field(description="Thickness of one pane"),
    ] = None
    gap: Annotated[
        float | None,
        q("s", "m", "gap between panes", low=0.001, high=0.3),
        Likely(0.003, 0.1),
        Field(description="Gap between the panes"),
    ] = None


class Beyond(Entry):
    """What a section faces if neither air nor sea: a stated temperature, or another zone."""

    example: ClassVar[str] = "{zone: engine_room}"

    temperature: Annotated[
        float | None,
        q("θ_e", "K", "temperature beyond the section", low=203, high=373),
        TEMPERATURE,
        Likely(223, 343),
        Field(description="A stated temperature: ground, a shed, a tank"),
    ] = None
    zone: Annotated[str | None, Refers(("zone",)), Field(description="Another zone, heated or floating")] = (
        None
    )

    def objections(self) -> Iterator[Objection]:
        """One of the two."""
        if (self.temperature is None) == (self.zone is None):
            yield Objection(
                "",
                "the section faces neither one temperature nor one zone",
                "write faces: {zone: engine_room} or faces: {temperature: 8 degC}",
            )


Faces = Literal["air", "sea"] | Beyond


class Section(Entry):
    """One part of a zone's envelope: a hull side, a deck, a window."""

    named_as: ClassVar[str] = "section"
    example: ClassVar[str] = "{name: Sides, build_up: topsides, area: 6.4 m2, faces: air}"

    name: Annotated[str, Needed("the heat loss by section"), Field(description="Name, unique in its zone")]
    area: Annotated[
        float,
        q("A", "m2", "area", low=0.001, high=2000),
        Likely(0.02, 300),
        Needed("the heat loss"),
        Field(description="Area, measured inside"),
    ]
    build_up: Annotated[
        str | None, Refers(("build_up",)), Field(description="Name of its build-up; or glazing or u_value")
    ] = None
    glazing: Annotated[Glazing | None, Field(description="Its glazing")] = None
    u_value: Annotated[
        float | None,
        q("U", "W/m2K", "thermal transmittance", low=0.02, high=50),
        Likely(0.08, 8),
        Field(description="Its transmittance, where that is known"),
    ] = None
    faces: Annotated[
        Faces, Field(description="air (if left out), sea, {temperature: 8 degC} or {zone: engine_room}")
    ] = "air"
    heat_flow: Annotated[
        HeatFlow | None, Field(description="Direction of the heat flow, instead of its build-up's")
    ] = None

    def objections(self) -> Iterator[Objection]:
        """One of build-up, glazing and U-value."""
        given = [key for key in ("build_up", "glazing", "u_value") if getattr(self, key) is not None]
        if not given:
            yield Objection(
                "",
                "the section has no build_up, glazing or u_value",
                f"write {self.example} (the heat loss needs it)",
                missing=True,
            )
        elif len(given) > 1:
            yield Objection(given[1], f"the section has both {given[0]} and {given[1]}", "keep one of them")


class Room(Entry):
    """Short form of a room by its inner measures; gives sides, sole, deck, ends and volume."""

    example: ClassVar[str] = "{long: 4.4 m, wide: [3.9 m, 3.6 m, 3.0 m], high: 1.95 m, under_water: 0.6 m}"

    long: Annotated[
        float,
        q("l", "m", "length of the room", low=0.1, high=100),
        Likely(0.6, 20),
        Needed("the areas of the room"),
        Field(description="Length inside"),
    ]
    wide: Annotated[
        Width | tuple[Width, ...],
        Needed("the areas of the room"),
        Field(description="Width inside, or widths at even stations from aft to fore"),
    ]
    high: Annotated[
        float,
        q("h", "m", "height of the room", low=0.1, high=20),
        Likely(0.6, 3.5),
        Needed("the areas of the room"),
        Field(description="Height inside"),
    ]
    under_water: Annotated[
        float | None,
        q("h_w", "m", "height of the sides below the waterline", low=0, high=20),
        Likely(0, 3),
        Field(description="How much of the height lies below the waterline"),
    ] = None


class Zone(Entry):
    """A cabin or compartment with one air temperature."""

    named_as: ClassVar[str] = "zone"
    name_field: ClassVar[str] = "id"
    example: ClassVar[str] = "{id: saloon, target: 20 degC, volume: 24 m3, sections: [...]}"

    id: Annotated[str, Needed("every result of the zone"), Field(description="Name of the zone, unique")]
    target: Annotated[
        float | None,
        q("θ_i", "K", "target temperature", low=253, high=323),
        TEMPERATURE,
        Likely(273.15, 303.15),
        Field(description="Temperature it is to be kept at"),
    ] = None
    floats: Annotated[
        bool | None, Field(description="true where nothing heats it: its temperature is a result")
    ] = None
    volume: Annotated[
        float | None,
        q("V", "m3", "volume", low=0.01, high=2000),
        Likely(0.3, 400),
        Field(description="Volume of its air"),
    ] = None
    air_changes: Annotated[
        float | None,
        q("n", "1/s", "air changes", low=0, high=0.1),
        Likely(2.7e-5, 0.0056),
        Field(description="Outside air, as changes of the volume in an hour"),
    ] = None
    people: Annotated[
        float | None,
        q("", "1", "people", low=0, high=500),
        COUNT,
        Likely(0, 30),
        Field(description="People in it"),
    ] = None
    berths: Annotated[
        float | None,
        q("", "1", "berths", low=0, high=500),
        COUNT,
        Likely(0, 30),
        Field(description="Berths: how many sleep here"),
    ] = None
    heat_capacity: Annotated[
        float | None,
        q("C/V", "J/m3K", "heat capacity of lining, furniture and air", low=1000, high=1e6),
        Likely(5000, 200000),
        Field(description="Heat capacity of lining, furniture and air, by volume"),
    ] = None
    fresh_water: Annotated[bool | None, Field(description="Whether drinking-water pipes pass here")] = None
    sections: Annotated[
        tuple[Section, ...] | None, TABLE, Field(description="Parts of its envelope; a list or a CSV file")
    ] = None
    room: Annotated[Room | None, Field(description="Short form: the room by its measures")] = None
    aft: Annotated[str | None, NEIGHBOUR, Field(description="Short form: what its aft end faces")] = None
    fore: Annotated[str | None, NEIGHBOUR, Field(description="Short form: what its fore end faces")] = None
    port: Annotated[str | None, NEIGHBOUR, Field(description="Short form: what its port side faces")] = None
    starboard: Annotated[
        str | None, NEIGHBOUR, Field(description="Short form: what its starboard side faces")
    ] = None
    below: Annotated[str | None, NEIGHBOUR, Field(description="Short form: what its sole faces")] = None
    above: Annotated[str | None, NEIGHBOUR, Field(description="Short form: what its deck faces")] = None
    hull: Annotated[
        str | None, Refers(("build_up",)), Field(description="Short form: build-up of the sides")
    ] = None
    below_water: Annotated[
        str | None, Refers(("build_up",)), Field(description="Short form: build-up of the sides below water")
    ] = None
    deck: Annotated[
        str | None, Refers(("build_up",)), Field(description="Short form: build-up of the deck")
    ] = None
    sole: Annotated[
        str | None, Refers(("build_up",)), Field(description="Short form: build-up of the sole")
    ] = None
    bulkhead: Annotated[
        str | None, Refers(("build_up",)), Field(description="Short form: build-up of the ends")
    ] = None
    windows: Annotated[
        tuple[str, ...] | None,
        Field(description='Short form: windows as "6 x 500 mm x 300 mm double 6 mm"'),
    ] = None
    air: Annotated[
        Literal["tight", "ordinary", "draughty"] | None,
        Field(description="Short form: outside air as tight, ordinary or draughty"),
    ] = None

    def objections(self) -> Iterator[Objection]:
        """A zone is heated to a target, or floats."""
        if self.target is None and not self.floats:
            yield Objection(
                "",
                f"zone {self.id} has no target",
                "write target: 20 degC, or floats: true where nothing heats it (the heat loss needs it)",
                missing=True,
            )
        elif self.target is not None and self.floats:
            yield Objection("floats", f"zone {self.id} has a target and floats", "keep one of them")
