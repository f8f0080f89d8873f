"""Engine and generator as sources of heat."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import Component
from dossier.project.model.entry import NUMBER, TEMPERATURE, Likely


class Engine(Component):
    """An engine whose jacket can heat the ring."""

    example: ClassVar[str] = "{kind: engine, jacket_heat: 12 kW, thermostat: 76 degC, own_cooler: true}"

    kind: Literal["engine", "generator"] = "engine"
    jacket_heat: Annotated[
        float | None,
        q("Φ_j", "W", "jacket heat at its usual load", low=10, high=1e7),
        Likely(500, 300000),
        Field(description="Heat in its jacket at its usual load"),
    ] = None
    thermostat: Annotated[
        float | None,
        q("θ_th", "K", "thermostat opens", low=273, high=403),
        TEMPERATURE,
        Likely(313, 373),
        Field(description="Temperature at which its thermostat opens"),
    ] = None
    jacket_highest: Annotated[
        float | None,
        q("θ_j", "K", "highest jacket temperature", low=273, high=423),
        TEMPERATURE,
        Likely(323, 393),
        Field(description="Highest temperature of its jacket"),
    ] = None
    own_cooler: Annotated[
        bool | None, Field(description="Whether its own cooler carries all heat with the heating shut")
    ] = None
    filler_level: Annotated[
        float | None,
        q("z", "m", "height of its coolant filler over the waterline", low=-20, high=60),
        Likely(-3, 6),
        Field(description="Height of its coolant filler over the waterline"),
    ] = None
    cap_pressure: Annotated[
        float | None,
        q("p", "Pa", "pressure of its cap, gauge", low=0, high=1e6),
        Likely(0, 2.5e5),
        Field(description="Pressure at which its cap opens, gauge"),
    ] = None
    air_flow: Annotated[
        float | None,
        q("q_V", "m3/s", "air it draws", low=0, high=100),
        Likely(0.001, 3),
        Field(description="Air it draws from its space"),
    ] = None
    hours_per_day: Annotated[
        float | None,
        q("", "1", "running hours a day", low=0, high=24),
        NUMBER,
        Field(description="Hours a day it runs, as a plain number"),
    ] = None


class Generator(Engine):
    """A generator: an engine that makes current."""

    example: ClassVar[str] = "{kind: generator, jacket_heat: 7 kW, thermostat: 70 degC, own_cooler: true}"

    kind: Literal["generator"] = "generator"
