"""The cold the boat is to be kept warm in, and the year's course of it."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, ClassVar

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import COUNT, SHARE, TABLE, TEMPERATURE, Entry, Likely, Objection


@dataclass(frozen=True)
class Weather:
    """Hourly weather of a year, read from an open weather file: kelvin and metres a second."""

    name: str
    outside_air: tuple[float, ...]
    wind: tuple[float, ...]


class Month(Entry):
    """Means of one month, and the hours spent aboard and under engine."""

    named_as: ClassVar[str] = "month"
    name_field: ClassVar[str] = "month"
    example: ClassVar[str] = "{month: 1, outside_air: 2.1 degC, sea: 5 degC, hours_aboard: 520 h}"

    month: Annotated[
        float, q("", "1", "month", low=1, high=12), COUNT, Field(description="Number of the month, 1 to 12")
    ]
    outside_air: Annotated[
        float | None,
        q("θ_e", "K", "mean outside air of the month", low=203, high=333),
        TEMPERATURE,
        Likely(233, 308),
        Field(description="Mean temperature of the outside air"),
    ] = None
    sea: Annotated[
        float | None,
        q("θ_w", "K", "mean sea temperature of the month", low=268, high=313),
        TEMPERATURE,
        Likely(271, 305),
        Field(description="Mean temperature of the water the boat lies in"),
    ] = None
    hours_aboard: Annotated[
        float | None,
        q("t", "s", "time aboard in the month", low=0, high=2678400),
        Field(description="Hours in which the boat is heated for people"),
    ] = None
    engine_hours: Annotated[
        float | None,
        q("t", "s", "engine running in the month", low=0, high=2678400),
        Field(description="Running hours of the engine"),
    ] = None
    generator_hours: Annotated[
        float | None,
        q("t", "s", "generator running in the month", low=0, high=2678400),
        Field(description="Running hours of the generator"),
    ] = None


class Conditions(Entry):
    """Design conditions."""

    example: ClassVar[str] = "{outside_air: -8 degC, sea: 3 degC, wind: 10 m/s}"

    outside_air: Annotated[
        float | None,
        q("θ_e", "K", "outside air on the design night", low=213, high=333),
        TEMPERATURE,
        Likely(223, 298),
        Field(description="Outside air on the coldest night the boat is to be kept warm"),
    ] = None
    sea: Annotated[
        float | None,
        q("θ_w", "K", "water the boat lies in", low=268, high=313),
        TEMPERATURE,
        Likely(271, 298),
        Field(description="Temperature of the water the boat lies in, on that night"),
    ] = None
    wind: Annotated[
        float | None,
        q("v", "m/s", "wind", low=0, high=60),
        Likely(0, 40),
        Field(description="Wind on that night"),
    ] = None
    humidity_inside: Annotated[
        float | None,
        q("φ_i", "1", "relative humidity inside", low=0.01, high=1),
        SHARE,
        Likely(0.2, 0.95),
        Field(description="Relative humidity of the air in the cabins"),
    ] = None
    unheated_start: Annotated[
        float | None,
        q("θ_0", "K", "cold boat at the start", low=203, high=333),
        TEMPERATURE,
        Likely(233, 293),
        Field(description="Temperature of the boat and of the circuit before a first start"),
    ] = None
    lay_up_lowest: Annotated[
        float | None,
        q("θ_lay", "K", "lowest temperature of the lay-up", low=203, high=313),
        TEMPERATURE,
        Likely(223, 283),
        Field(description="Lowest temperature the laid-up boat may meet"),
    ] = None
    warm_up_within: Annotated[
        float | None,
        q("t", "s", "warm-up time wanted", low=60, high=604800),
        Likely(900, 86400),
        Field(description="Time within which the cold boat is to be warm"),
    ] = None
    inner_gains: Annotated[
        float | None,
        q("Φ_g", "W", "heat of people, lamps and cooking", low=0, high=50000),
        Likely(0, 5000),
        Field(description="Heat gained inside, counted in the season only"),
    ] = None
    altitude: Annotated[
        float | None,
        q("H", "m", "altitude of the place", low=-430, high=6000),
        Likely(-20, 2500),
        Field(description="Altitude of the water above the sea"),
    ] = None
    months: Annotated[
        tuple[Month, ...] | None, TABLE, Field(description="The year by months; a list or a CSV file")
    ] = None
    weather: Annotated[
        Weather | None,
        Field(description="Hourly weather file (EPW or TMY3) in the folder; its air replaces the months'"),
    ] = None

    def objections(self) -> Iterator[Objection]:
        """Air of the months and of the weather file together leave open which one counts."""
        if self.weather and any(month.outside_air is not None for month in self.months or ()):
            what = "months and weather both give the outside air"
            yield Objection("weather", what, "that of the weather file counts", doubt=True)
