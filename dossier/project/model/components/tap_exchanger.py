"""What heats the tap water: a plate exchanger, or a heater with a store."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import HydraulicUnit
from dossier.project.model.entry import COUNT, TEMPERATURE, Entry, Likely, No


class TapPoint(Entry):
    """Conditions of the rated output of a tap-water exchanger."""

    example: ClassVar[str] = (
        "{primary_in: 75 degC, primary_flow: 16 l/min, tap_in: 10 degC, tap_flow: 5 l/min}"
    )

    primary_in: Annotated[
        float | None,
        q("θ_1", "K", "entering coolant", low=273, high=423),
        TEMPERATURE,
        Likely(303, 373),
        Field(description="Temperature of the coolant entering"),
    ] = None
    primary_flow: Annotated[
        float | None,
        q("q_1", "m3/s", "coolant flow", low=1e-7, high=0.1),
        Likely(1e-5, 0.003),
        Field(description="Flow of the coolant"),
    ] = None
    tap_in: Annotated[
        float | None,
        q("θ_2", "K", "cold tap water", low=273, high=333),
        TEMPERATURE,
        Likely(273, 303),
        Field(description="Temperature of the cold tap water"),
    ] = None
    tap_flow: Annotated[
        float | None,
        q("q_2", "m3/s", "tap flow", low=1e-7, high=0.1),
        Likely(8e-6, 0.002),
        Field(description="Flow of the tap water"),
    ] = None


class ReliefValve(Entry):
    """Pressure and temperature relief of a store of tap water."""

    example: ClassVar[str] = "{setting: 6 bar, led_to: bilge well}"

    setting: Annotated[
        float | None,
        q("p", "Pa", "setting, gauge", low=1e4, high=1e8),
        Likely(5e4, 1.5e6),
        Field(description="Pressure at which it opens, gauge"),
    ] = None
    led_to: Annotated[str | None, Field(description="Where its outlet leads")] = None


class TapExchanger(HydraulicUnit):
    """A plate exchanger that heats tap water as it flows."""

    example: ClassVar[str] = (
        "{kind: tap_exchanger, walls: 1, output: 14 kW, at: {primary_in: 75 degC, primary_flow: 16 l/min, "
        "tap_in: 10 degC, tap_flow: 5 l/min}}"
    )

    kind: Literal["tap_exchanger", "water_heater"] = "tap_exchanger"
    walls: Annotated[
        float | None,
        q("", "1", "walls between coolant and tap water", low=1, high=2),
        COUNT,
        Field(description="Walls between coolant and tap water: 1, or 2 with a visible leak path"),
    ] = None
    output: Annotated[
        float | None,
        q("Φ", "W", "rated output", low=10, high=1e6),
        Likely(500, 60000),
        Field(description="Rated output"),
    ] = None
    at: Annotated[TapPoint | None, Field(description="Conditions of the rated output")] = None


class WaterHeater(TapExchanger):
    """A store of tap water with a coil."""

    example: ClassVar[str] = "{kind: water_heater, walls: 2, volume: 60 l, setpoint: 60 degC, output: 10 kW}"

    kind: Literal["water_heater"] = "water_heater"
    volume: Annotated[
        float | None,
        q("V", "m3", "tap water stored", low=1e-4, high=20),
        Likely(0.003, 0.5),
        Field(description="Tap water it stores"),
    ] = None
    setpoint: Annotated[
        float | None,
        q("θ_set", "K", "temperature of the store", low=278, high=373),
        TEMPERATURE,
        Likely(308, 358),
        Field(description="Temperature the store is kept at"),
    ] = None
    relief_valve: Annotated[ReliefValve | No | None, Field(description="Its relief valve, or none")] = None
