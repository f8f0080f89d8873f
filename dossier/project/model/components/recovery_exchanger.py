"""The exchanger that takes heat from an engine or generator."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import HydraulicUnit
from dossier.project.model.entry import COUNT, TEMPERATURE, Entry, Likely, Refers


class RecoveryPoint(Entry):
    """Conditions of the rated output of a recovery exchanger."""

    example: ClassVar[str] = (
        "{engine_in: 82 degC, engine_flow: 18 l/min, ring_in: 60 degC, ring_flow: 18 l/min}"
    )

    engine_in: Annotated[
        float | None,
        q("θ_1", "K", "engine coolant entering", low=273, high=423),
        TEMPERATURE,
        Likely(303, 383),
        Field(description="Temperature of the engine's coolant entering"),
    ] = None
    engine_flow: Annotated[
        float | None,
        q("q_1", "m3/s", "flow of the engine's coolant", low=1e-7, high=0.1),
        Likely(1e-5, 0.005),
        Field(description="Flow of the engine's coolant"),
    ] = None
    ring_in: Annotated[
        float | None,
        q("θ_2", "K", "heating coolant entering", low=253, high=423),
        TEMPERATURE,
        Likely(273, 363),
        Field(description="Temperature of the heating coolant entering"),
    ] = None
    ring_flow: Annotated[
        float | None,
        q("q_2", "m3/s", "flow of the heating coolant", low=1e-7, high=0.1),
        Likely(1e-5, 0.005),
        Field(description="Flow of the heating coolant"),
    ] = None


class RecoveryExchanger(HydraulicUnit):
    """An exchanger between an engine's coolant and the ring."""

    example: ClassVar[str] = "{kind: recovery_exchanger, serves: G1, engine_side: jacket, output: 8 kW}"

    kind: Literal["recovery_exchanger"] = "recovery_exchanger"
    serves: Annotated[
        str | None,
        Refers(("component",), kinds=("engine", "generator")),
        Field(description="Engine or generator it takes heat from"),
    ] = None
    engine_side: Annotated[
        Literal["jacket", "sea water"] | None,
        Field(description="What flows on its engine side: jacket (fresh coolant) or sea water"),
    ] = None
    engine_valves: Annotated[
        float | None,
        q("", "1", "valves on the engine side", low=0, high=10),
        COUNT,
        Field(description="Valves at the engine that shut it off"),
    ] = None
    vented: Annotated[bool | None, Field(description="Whether its engine side has a vent")] = None
    output: Annotated[
        float | None,
        q("Φ", "W", "rated output", low=10, high=1e6),
        Likely(300, 60000),
        Field(description="Rated output"),
    ] = None
    at: Annotated[RecoveryPoint | None, Field(description="Conditions of the rated output")] = None
