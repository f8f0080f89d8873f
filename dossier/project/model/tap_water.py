"""Hot tap water: what is wanted, and the water aboard."""

from typing import Annotated, ClassVar

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import TEMPERATURE, Entry, Likely, No

COLD = Annotated[
    float | None,
    q("θ_c", "K", "cold tap water", low=273, high=318),
    TEMPERATURE,
    Likely(273.15, 303.15),
]


class ColdWater(Entry):
    """Temperature of the water in the tank, by season."""

    example: ClassVar[str] = "{winter: 4 degC, summer: 18 degC}"

    winter: Annotated[COLD, Field(description="In winter")] = None
    summer: Annotated[COLD, Field(description="In summer")] = None


class TapWater(Entry):
    """What the crew wants at the tap, and what guards it."""

    example: ClassVar[str] = (
        "{cold: {winter: 4 degC, summer: 18 degC}, at_tap: 40 degC, shower_flow: 5 l/min}"
    )

    cold: Annotated[ColdWater | None, Field(description="Cold water by season")] = None
    at_tap: Annotated[
        float | None,
        q("θ_t", "K", "temperature wanted at the tap", low=283, high=363),
        TEMPERATURE,
        Likely(303, 333),
        Field(description="Temperature wanted at the tap"),
    ] = None
    shower_flow: Annotated[
        float | None,
        q("q_V", "m3/s", "shower flow wanted", low=1e-7, high=0.01),
        Likely(1.6e-5, 4e-4),
        Field(description="Flow wanted in the shower"),
    ] = None
    shower: Annotated[
        float | None,
        q("t", "s", "length of a shower", low=1, high=86400),
        Likely(60, 2400),
        Field(description="How long a shower lasts"),
    ] = None
    tank: Annotated[
        float | None,
        q("V", "m3", "fresh water aboard", low=1e-4, high=1000),
        Likely(0.01, 10),
        Field(description="Fresh water aboard"),
    ] = None
    mixing_valve: Annotated[
        float | No | None,
        q("θ_m", "K", "setting of the mixing valve", low=293, high=363),
        TEMPERATURE,
        Likely(308, 333),
        Field(description="Setting of the thermostatic mixing valve, or none"),
    ] = None
    outlets: Annotated[
        tuple[str, ...] | None, Field(description="Outlets of hot water: shower, galley …")
    ] = None
    hardness: Annotated[
        float | None,
        q("c", "mol/m3", "hardness of the water", low=0, high=100),
        Likely(0, 15),
        Field(description="Hardness, as calcium and magnesium"),
    ] = None
    chloride: Annotated[
        float | None,
        q("ρ", "kg/m3", "chloride in the water", low=0, high=50),
        Likely(0, 2),
        Field(description="Chloride in the water"),
    ] = None
    check_valve: Annotated[
        bool | No | None, Field(description="Whether a check valve closes the cold side")
    ] = None
    accumulator: Annotated[
        bool | No | None, Field(description="Whether an accumulator sits on the hot side")
    ] = None
