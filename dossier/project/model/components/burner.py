"""The burner: an oil-fired heater of the coolant."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import Consumer, HydraulicUnit
from dossier.project.model.entry import COUNT, SHARE, TEMPERATURE, Entry, Likely, Needed, Objection


class BurnerOutput(Entry):
    """Heat given to the coolant at full and at the lowest output."""

    example: ClassVar[str] = "{max: 9 kW, min: 2.2 kW}"

    max: Annotated[
        float,
        q("Φ_max", "W", "full output", low=100, high=1e6),
        Likely(1000, 60000),
        Needed("the heat balance"),
        Field(description="Full output to the coolant"),
    ]
    min: Annotated[
        float | None,
        q("Φ_min", "W", "lowest output", low=50, high=1e6),
        Likely(500, 40000),
        Field(description="Lowest steady output"),
    ] = None

    def objections(self) -> Iterator[Objection]:
        """The lowest output is not above the full one."""
        if self.max is not None and self.min is not None and self.min > self.max:
            yield Objection("min", "the lowest output is above the full output", "swap min and max")


class Burner(HydraulicUnit):
    """A burner with its controls, by its maker's instructions."""

    example: ClassVar[str] = "{kind: burner, output: {max: 9 kW, min: 2.2 kW}}"

    kind: Literal["burner"] = "burner"
    output: Annotated[BurnerOutput | None, Field(description="Heat given to the coolant")] = None
    stages: Annotated[
        float | Literal["modulating"] | None,
        q("", "1", "stages", low=1, high=20),
        COUNT,
        Likely(1, 4),
        Field(description="Number of stages, or modulating"),
    ] = None
    efficiency: Annotated[
        float | None,
        q("η", "1", "efficiency", low=0.5, high=1),
        SHARE,
        Likely(0.65, 0.96),
        Field(description="Heat to the coolant over the fuel's lower heating value"),
    ] = None
    setpoint: Annotated[
        float | None,
        q("θ_set", "K", "setpoint", low=283, high=393),
        TEMPERATURE,
        Likely(313, 368),
        Field(description="Temperature at which it stops"),
    ] = None
    band: Annotated[
        float | None,
        q("Δθ_sw", "K", "switching band", low=0.1, high=80),
        Likely(2, 40),
        Field(description="Difference between stopping and starting again"),
    ] = None
    sensor: Annotated[
        Literal["outlet", "return", "store"] | None,
        Field(description="Where its switching sensor sits: outlet (assumed if left out), return or store"),
    ] = None
    supply_max: Annotated[
        float | None,
        q("θ_max", "K", "highest supply temperature allowed", low=283, high=423),
        TEMPERATURE,
        Likely(323, 383),
        Field(description="Highest supply temperature its maker allows"),
    ] = None
    return_min: Annotated[
        float | None,
        q("θ_R,min", "K", "lowest return temperature allowed", low=263, high=393),
        TEMPERATURE,
        Likely(283, 353),
        Field(description="Lowest steady return temperature its maker allows"),
    ] = None
    flow_min: Annotated[
        float | None,
        q("q_min", "m3/s", "least flow", low=1e-7, high=0.1),
        Likely(1.6e-5, 0.0017),
        Field(description="Least coolant flow its maker asks for"),
    ] = None
    run_min: Annotated[
        float | None,
        q("t_min", "s", "least running time", low=1, high=86400),
        Likely(60, 7200),
        Field(description="Least running time its maker asks for"),
    ] = None
    exhaust_outlet: Annotated[
        float | None,
        q("d", "m", "bore of its exhaust outlet", low=1e-4, high=20),
        Likely(0.002, 0.16),
        Field(description="Bore of its exhaust outlet"),
    ] = None
    air_opening: Annotated[
        float | None,
        q("A", "m2", "free opening for air, by the maker", low=1e-6, high=5),
        Likely(3e-4, 0.2),
        Field(description="Free opening into its space its maker asks for"),
    ] = None
    space_max: Annotated[
        float | None,
        q("θ_max", "K", "highest temperature of its space", low=273, high=423),
        TEMPERATURE,
        Likely(303, 373),
        Field(description="Highest temperature of its space its maker allows"),
    ] = None
    overheat_stat: Annotated[
        float | None,
        q("θ_stat", "K", "setting of the overheat stat", low=303, high=473),
        TEMPERATURE,
        Likely(343, 403),
        Field(description="Setting of the independent overheat stat, reset by hand"),
    ] = None
    flame_sensor: Annotated[bool | None, Field(description="Whether the fuel stops when the flame fails")] = (
        None
    )
    after_run: Annotated[
        float | None,
        q("t", "s", "after-run", low=0, high=7200),
        Likely(20, 900),
        Field(description="How long pump and fan run on after the flame"),
    ] = None
    start_time: Annotated[
        float | None,
        q("t", "s", "start time", low=0, high=3600),
        Likely(10, 400),
        Field(description="From the call for heat to the flame"),
    ] = None
    heat_after_stop: Annotated[
        float | None,
        q("Q", "J", "heat left in it after a stop", low=0, high=1e8),
        Likely(2000, 3e6),
        Field(description="Heat left in it after a stop without flow, by its maker"),
    ] = None
    back_pressure_max: Annotated[
        float | None,
        q("Δp_max", "Pa", "highest back pressure of the exhaust", low=0, high=1e5),
        Likely(5, 5000),
        Field(description="Highest back pressure of the exhaust its maker allows"),
    ] = None
    current: Annotated[Consumer | None, Field(description="Current at the start and running")] = None
    voltage_min: Annotated[
        float | None,
        q("U_min", "V", "lowest voltage", low=1, high=1000),
        Likely(9, 48),
        Field(description="Lowest voltage at which it starts, by its maker"),
    ] = None
