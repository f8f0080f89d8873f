"""Tank, line and shut-offs of the fuel."""

from typing import Annotated, ClassVar

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import NUMBER, SHARE, TEMPERATURE, Entry, Likely, No, Refers
from dossier.project.model.values import Point

SHUT_OFF = Refers(("component",), kinds=("fuel_shut_off",))
DEPTH = Annotated[
    float | None,
    q("h", "m", "height of the pick-up over the tank's bottom", low=0, high=10),
    Likely(0.002, 1.5),
]


class FuelLine(Entry):
    """The line from the tank to the burner."""

    example: ClassVar[str] = "{bore: 4 mm, suction: 1.0 m, length: 3.2 m, material: copper}"

    bore: Annotated[
        float | None,
        q("d", "m", "bore of the fuel line", low=1e-4, high=20),
        Likely(0.0015, 0.016),
        Field(description="Its bore"),
    ] = None
    suction: Annotated[
        float | None,
        q("L", "m", "length before the fuel pump", low=0, high=200),
        Likely(0.05, 20),
        Field(description="Length from the tank to the fuel pump"),
    ] = None
    length: Annotated[
        float | None,
        q("L", "m", "length of the fuel line", low=0, high=200),
        Likely(0.1, 30),
        Field(description="Length from the fuel pump to the burner; the whole line if no suction is stated"),
    ] = None
    material: Annotated[str | None, Field(description="Its material")] = None
    support: Annotated[
        float | None,
        q("s", "m", "distance of its supports", low=0.01, high=20),
        Likely(0.05, 2),
        Field(description="Distance from support to support"),
    ] = None
    route: Annotated[tuple[Point, ...] | None, Field(description="Points of its axis")] = None


class PickUp(Entry):
    """How high over the tank's bottom the pick-ups end."""

    example: ClassVar[str] = "{heating: 120 mm, engine: 40 mm}"

    heating: Annotated[DEPTH, Field(description="The heating's")] = None
    engine: Annotated[DEPTH, Field(description="The engine's")] = None


class TankVent(Entry):
    """The vent of the fuel tank."""

    example: ClassVar[str] = "{led_to: coaming, flame_screen: true}"

    led_to: Annotated[str | None, Field(description="Where it leads")] = None
    flame_screen: Annotated[bool | None, Field(description="Whether a flame screen is fitted")] = None


class Fuel(Entry):
    """The fuel and its way to the burner."""

    example: ClassVar[str] = "{tank: 400 l, usable: 85 %, lift: 0.6 m, line: {bore: 4 mm, length: 3.2 m}}"

    tank: Annotated[
        float | None,
        q("V", "m3", "fuel tank", low=1e-4, high=1000),
        Likely(0.005, 20),
        Field(description="Volume of the tank"),
    ] = None
    usable: Annotated[
        float | None,
        q("", "1", "usable share of the tank", low=0, high=1),
        SHARE,
        Likely(0.4, 1),
        Field(description="Usable share of it"),
    ] = None
    tank_in: Annotated[
        str | None,
        Refers(("zone", "compartment")),
        Field(description="Zone or compartment the tank stands in"),
    ] = None
    tank_top: Annotated[
        float | None,
        q("z", "m", "top of the tank over the waterline", low=-20, high=60),
        Likely(-4, 6),
        Field(description="Height of the tank's top over the waterline"),
    ] = None
    lift: Annotated[
        float | None,
        q("h", "m", "suction lift", low=-20, high=20),
        Likely(-3, 4),
        Field(description="From the lowest usable level up to the fuel pump"),
    ] = None
    line: Annotated[FuelLine | None, Field(description="The line to the burner")] = None
    pick_up: Annotated[PickUp | None, Field(description="Heights of the pick-ups")] = None
    reserve_for_engine: Annotated[
        float | None,
        q("V", "m3", "reserve for the engine", low=0, high=1000),
        Likely(0, 20),
        Field(description="Fuel kept for the engine"),
    ] = None
    shut_off: Annotated[
        str | No | None, SHUT_OFF, Field(description="Tag of the shut-off at the tank, or none")
    ] = None
    shut_off_space: Annotated[
        str | No | None,
        SHUT_OFF,
        Field(description="Tag of the second valve, in the burner's space, or none"),
    ] = None
    anti_siphon: Annotated[
        bool | No | None, Field(description="Whether a solenoid or anti-siphon valve sits at the tank")
    ] = None
    cfpp: Annotated[
        float | None,
        q("θ_CFPP", "K", "cold filter plugging point", low=203, high=303),
        TEMPERATURE,
        Likely(223, 283),
        Field(description="Cold filter plugging point of the fuel aboard"),
    ] = None
    vent: Annotated[TankVent | No | None, Field(description="The tank's vent, or none")] = None
    days_wanted: Annotated[
        float | None,
        q("", "1", "days of heat wanted", low=0, high=1000),
        NUMBER,
        Likely(0.5, 120),
        Field(description="Days of heat wanted from one filling, as a plain number"),
    ] = None
