"""The fan coil: a water coil with a fan that heats a cabin."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import HydraulicUnit
from dossier.project.model.entry import TEMPERATURE, Entry, Likely, Refers


class FanCoilPoint(Entry):
    """Conditions of a fan coil's rated output."""

    example: ClassVar[str] = "{water_in: 80 degC, air_in: 18 degC, flow: 9 l/min}"

    water_in: Annotated[
        float | None,
        q("θ_w", "K", "entering water", low=273, high=423),
        TEMPERATURE,
        Likely(303, 373),
        Field(description="Temperature of the water entering"),
    ] = None
    air_in: Annotated[
        float | None,
        q("θ_a", "K", "entering air", low=223, high=353),
        TEMPERATURE,
        Likely(253, 308),
        Field(description="Temperature of the air entering"),
    ] = None
    flow: Annotated[
        float | None,
        q("q_V", "m3/s", "water flow", low=1e-7, high=0.1),
        Likely(1e-5, 0.0017),
        Field(description="Flow of the water"),
    ] = None


class FanCoil(HydraulicUnit):
    """A fan coil by its rated point."""

    example: ClassVar[str] = (
        "{kind: fan_coil, zone: saloon, output: 4.0 kW, "
        "at: {water_in: 80 degC, air_in: 18 degC, flow: 9 l/min}}"
    )

    kind: Literal["fan_coil"] = "fan_coil"
    zone: Annotated[str | None, Refers(("zone",)), Field(description="Zone it heats")] = None
    air_from: Annotated[
        str | None,
        Refers(("zone", "compartment"), words=("outside",)),
        Field(description="Where its air comes from: a zone, or outside"),
    ] = None
    output: Annotated[
        float | None,
        q("Φ", "W", "rated output", low=10, high=200000),
        Likely(200, 20000),
        Field(description="Rated output"),
    ] = None
    at: Annotated[FanCoilPoint | None, Field(description="Conditions of the rated output")] = None
    air_flow: Annotated[
        float | None,
        q("q_V", "m3/s", "air flow at full speed", low=1e-4, high=20),
        Likely(0.005, 1),
        Field(description="Air flow at full speed, free-blowing"),
    ] = None
    quiet_air_flow: Annotated[
        float | None,
        q("q_V", "m3/s", "air flow at the quiet speed", low=1e-4, high=20),
        Likely(0.003, 1),
        Field(description="Air flow at the speed people sleep with"),
    ] = None
    ducted: Annotated[bool | None, Field(description="Whether ducts are fitted")] = None
    start_stat: Annotated[
        float | None,
        q("θ", "K", "water temperature at which the fan starts", low=273, high=373),
        TEMPERATURE,
        Likely(293, 343),
        Field(description="Water temperature at which its fan starts"),
    ] = None
    power: Annotated[
        float | None,
        q("P", "W", "electric power of the fan", low=0, high=5000),
        Likely(2, 300),
        Field(description="Electric power of its fan"),
    ] = None
