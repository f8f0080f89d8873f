"""What all components share, whatever their kind."""

from typing import Annotated, ClassVar

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import FROM_KEY, NUMBER, TEMPERATURE, Entry, Likely
from dossier.project.model.values import FLOW, At, Rated


class Component(Entry):
    """A part of the installation under its reference designation, the tag."""

    named_as: ClassVar[str] = "component"
    name_field: ClassVar[str] = "tag"
    kinds: ClassVar[dict[str, type["Component"]]] = {}
    """Classes by the word that stands under ``kind``."""

    tag: Annotated[
        str, FROM_KEY, Field(description="Reference designation, as on the schematic and aboard")
    ] = ""
    kind: Annotated[str, Field(description="Kind of component")] = ""
    typical: Annotated[
        str | None,
        Field(description="Short form: a row of the table of typical parts, assumed until its plate is read"),
    ] = None
    where: Annotated[str | None, Field(description="Where it is aboard, in words")] = None
    mass: Annotated[
        float | None,
        q("m", "kg", "mass, dry", low=0, high=100000),
        Likely(0.02, 3000),
        Field(description="Mass without liquid"),
    ] = None
    metal: Annotated[
        float | None,
        q("m", "kg", "metal that warms up with the coolant", low=0, high=10000),
        Likely(0.02, 300),
        Field(description="Mass of the metal that warms up with the coolant"),
    ] = None
    water_volume: Annotated[
        float | None,
        q("V", "m3", "coolant in it", low=0, high=20),
        Likely(2e-5, 0.5),
        Field(description="Coolant in it"),
    ] = None
    wetted: Annotated[
        tuple[str, ...] | None, Field(description="Metals the coolant touches: copper, steel, aluminium …")
    ] = None
    fixing: Annotated[str | None, Field(description="How it is fixed, in words")] = None
    automatic: Annotated[
        bool | None, Field(description="Whether a thermostat or motor works it by itself")
    ] = None
    test_liquid: Annotated[
        str | None, Field(description="Liquid its pressure drop was rated with; water if left out")
    ] = None
    viscosity_exponent: Annotated[
        float | None,
        q("n", "1", "exponent of the viscosity in its pressure drop", low=0, high=1),
        NUMBER,
        Field(description="Exponent of the viscosity in its pressure drop"),
    ] = None
    voltage_max: Annotated[
        float | None,
        q("U_max", "V", "highest voltage", low=1, high=1000),
        Likely(12, 64),
        Field(description="Highest voltage it stands, by its maker"),
    ] = None
    pressure_rating: Annotated[
        float | None,
        q("p_max", "Pa", "highest pressure, gauge", low=1000, high=1e8),
        Likely(20000, 2.5e6),
        Field(description="Highest pressure it stands, gauge"),
    ] = None
    temperature_rating: Annotated[
        float | None,
        q("θ_max", "K", "highest temperature", low=273, high=1000),
        TEMPERATURE,
        Likely(313, 473),
        Field(description="Highest coolant temperature it stands"),
    ] = None

    @classmethod
    def __pydantic_init_subclass__(cls, **kwargs: object) -> None:
        """Enter the class under the word of its kind."""
        super().__pydantic_init_subclass__(**kwargs)
        word = cls.model_fields["kind"].default
        if word:
            Component.kinds[word] = cls


class HydraulicUnit(Component):
    """A component the coolant flows through, with one rated point of pressure drop."""

    pressure_drop: Annotated[
        Rated | None,
        q("Δp", "Pa", "pressure drop at the rated flow", low=0, high=1e6),
        At(FLOW),
        Likely(50, 1e5),
        Field(description="Pressure drop at a flow, as 8 kPa at 25 l/min"),
    ] = None


class Consumer(Entry):
    """Current at the start and running."""

    example: ClassVar[str] = "{start: 12 A, run: 2.4 A}"

    start: Annotated[
        float | None,
        q("I", "A", "starting current", low=0, high=2000),
        Likely(0.1, 100),
        Field(description="Largest current while starting"),
    ] = None
    run: Annotated[
        float | None,
        q("I", "A", "running current", low=0, high=2000),
        Likely(0.05, 60),
        Field(description="Current while running"),
    ] = None
