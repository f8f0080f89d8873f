"""Radiators and towel rails."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import HydraulicUnit
from dossier.project.model.entry import NUMBER, TEMPERATURE, Entry, Likely, Refers


class RadiatorPoint(Entry):
    """Conditions of a radiator's rated output."""

    example: ClassVar[str] = "{water_in: 75 degC, water_out: 65 degC, air_in: 20 degC}"

    water_in: Annotated[
        float | None,
        q("θ_V", "K", "entering water", low=273, high=423),
        TEMPERATURE,
        Likely(303, 373),
        Field(description="Temperature of the water entering"),
    ] = None
    water_out: Annotated[
        float | None,
        q("θ_R", "K", "leaving water", low=273, high=423),
        TEMPERATURE,
        Likely(293, 368),
        Field(description="Temperature of the water leaving"),
    ] = None
    air_in: Annotated[
        float | None,
        q("θ_i", "K", "room air", low=223, high=353),
        TEMPERATURE,
        Likely(273, 308),
        Field(description="Temperature of the room"),
    ] = None


class Radiator(HydraulicUnit):
    """A radiator by its rated point and exponent."""

    example: ClassVar[str] = (
        "{kind: radiator, zone: saloon, output: 0.9 kW, "
        "at: {water_in: 75 degC, water_out: 65 degC, air_in: 20 degC}}"
    )

    kind: Literal["radiator", "towel_rail"] = "radiator"
    zone: Annotated[str | None, Refers(("zone",)), Field(description="Zone it heats")] = None
    output: Annotated[
        float | None,
        q("Φ", "W", "rated output", low=1, high=100000),
        Likely(50, 10000),
        Field(description="Rated output"),
    ] = None
    at: Annotated[RadiatorPoint | None, Field(description="Conditions of the rated output")] = None
    exponent: Annotated[
        float | None,
        q("n", "1", "exponent of the output", low=1, high=2),
        NUMBER,
        Likely(1.1, 1.5),
        Field(description="Exponent of the output over the excess temperature; 1.3 if left out"),
    ] = None


class TowelRail(Radiator):
    """A towel rail: a radiator of pipes."""

    example: ClassVar[str] = (
        "{kind: towel_rail, zone: heads, output: 0.9 kW, "
        "at: {water_in: 75 degC, water_out: 65 degC, air_in: 20 degC}}"
    )

    kind: Literal["towel_rail"] = "towel_rail"
