"""Results of the tests (sheets C1 to C12) and readings after hand-over."""

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import NUMBER, SHARE, TEMPERATURE, Entry, Likely, No, Refers
from dossier.project.model.values import Date

Hold = Literal["H1", "H2", "H3", "H4", "H5", "H6", "H7", "H8"]
PPM = Annotated[
    float | None, q("", "1", "carbon monoxide in air, by volume", low=0, high=0.1), SHARE, Likely(0, 0.002)
]
GLYCOL = Annotated[float | None, q("x", "1", "share of glycol", low=0, high=1), SHARE, Likely(0, 0.65)]
ACIDITY = Annotated[float | None, q("pH", "1", "pH", low=0, high=14), NUMBER, Likely(5, 11)]
SURFACE = Annotated[
    float | None, q("θ_s", "K", "temperature measured", low=243, high=1200), TEMPERATURE, Likely(268, 523)
]
FOUND = Annotated[str | No | None, Field(description="What leaked, in words, or none")]
Flow = Annotated[float, q("q_V", "m3/s", "flow measured", low=0, high=0.1), Likely(1e-6, 0.003)]


class Tightness(Entry):
    """The pressure test."""

    example: ClassVar[str] = "{pressure: 3.3 bar, held: 30 min, fall: 0.02 bar}"

    pressure: Annotated[
        float | None,
        q("p", "Pa", "test pressure, gauge", low=0, high=1e8),
        Likely(1e4, 2e6),
        Field(description="Pressure of the test, gauge"),
    ] = None
    held: Annotated[
        float | None,
        q("t", "s", "time it was held", low=0, high=1e7),
        Likely(60, 2e5),
        Field(description="How long it was held"),
    ] = None
    fall: Annotated[
        float | None,
        q("Δp", "Pa", "fall of the pressure", low=0, high=1e8),
        Likely(0, 2e5),
        Field(description="How much it fell"),
    ] = None


class CoolantFound(Entry):
    """The coolant as filled."""

    example: ClassVar[str] = "{volume: 21 l, share: 39 %, pH: 8.4}"

    volume: Annotated[
        float | None,
        q("V", "m3", "coolant filled", low=1e-4, high=100),
        Likely(0.001, 2),
        Field(description="Volume filled, metered"),
    ] = None
    share: Annotated[GLYCOL, Field(description="Share of glycol measured")] = None
    pH: Annotated[ACIDITY, Field(description="Its pH")] = None  # noqa: N815 - its name everywhere


class ExhaustLeak(Entry):
    """The leak tests of the exhaust's joints."""

    example: ClassVar[str] = "{cold: none, hot: none}"

    cold: FOUND = None
    hot: FOUND = None


class CarbonMonoxide(Entry):
    """Carbon monoxide measured in the test run."""

    example: ClassVar[str] = "{outside: 0 ppm, highest_inside: 0 ppm}"

    outside: Annotated[PPM, Field(description="Reading outside")] = None
    highest_inside: Annotated[PPM, Field(description="Highest reading in any closed space")] = None
    suction: Annotated[
        float | None,
        q("Δp", "Pa", "depression of the burner's space", low=-1000, high=10000),
        Likely(-50, 200),
        Field(description="Depression of the burner's space against outside"),
    ] = None


class OverheatTest(Entry):
    """The test of the overheat stat."""

    example: ClassVar[str] = "{trips_at: 97 degC, hand_reset: true}"

    trips_at: Annotated[SURFACE, Field(description="Temperature at which it tripped")] = None
    hand_reset: Annotated[bool | None, Field(description="Whether it needed a reset by hand")] = None


class SurfaceTemperatures(Entry):
    """Temperatures after an hour at full output."""

    example: ClassVar[str] = "{lagging: 61 degC, wood: 46 degC, compartment_air: 38 degC}"

    lagging: Annotated[SURFACE, Field(description="Surface of the lagging")] = None
    wood: Annotated[SURFACE, Field(description="Nearest wood")] = None
    compartment_air: Annotated[SURFACE, Field(description="Air of the burner's space")] = None


class TapTest(Entry):
    """The test of the tap."""

    example: ClassVar[str] = "{highest: 45 degC}"

    highest: Annotated[SURFACE, Field(description="Highest temperature at the tap")] = None


class Heights(Entry):
    """Heights measured on the loaded waterline."""

    example: ClassVar[str] = '{outlet_upright: 0.93 m, loading: "fuel 80 %, water 60 %"}'

    outlet_upright: Annotated[
        float | None,
        q("z", "m", "lower edge of the outlet over the waterline", low=-10, high=50),
        Likely(-0.5, 6),
        Field(description="Lower edge of the outlet over the waterline, upright"),
    ] = None
    loading: Annotated[str | None, Field(description="How she was loaded")] = None


class Signature(Entry):
    """Who signed a hold point, and when."""

    example: ClassVar[str] = "{by: [The owner, The surveyor], date: 2026-09-20}"

    by: Annotated[tuple[str, ...] | None, Field(description="Names")] = None
    date: Annotated[Date | None, Field(description="Date")] = None


class Instrument(Entry):
    """An instrument of the tests."""

    example: ClassVar[str] = '{for: co, serial: "4711", calibrated: 2026-03}'

    for_: Annotated[str | None, Field(alias="for", description="What it measured")] = None
    serial: Annotated[str | None, Field(description="Its serial number")] = None
    calibrated: Annotated[Date | None, Field(description="When it was calibrated")] = None


class Commissioning(Entry):
    """Results of the tests."""

    example: ClassVar[str] = (
        "{date: 2026-09-28, tightness: {pressure: 3.3 bar, held: 30 min, fall: 0.02 bar}}"
    )

    date: Annotated[Date | None, Field(description="Date of the tests")] = None
    tightness: Annotated[Tightness | None, Field(description="Pressure test")] = None
    coolant: Annotated[CoolantFound | None, Field(description="Coolant as filled")] = None
    flows: Annotated[
        Mapping[Annotated[str, Refers(("component", "pipe", "branch"))], Flow] | None,
        Field(description="Flows measured, by tag, pipe or branch"),
    ] = None
    start_voltage: Annotated[
        float | None,
        q("U", "V", "voltage at the burner while starting", low=0, high=1000),
        Likely(8, 60),
        Field(description="Voltage at the burner's terminals while starting"),
    ] = None
    exhaust_leak: Annotated[ExhaustLeak | None, Field(description="Leak tests of the exhaust")] = None
    co: Annotated[CarbonMonoxide | None, Field(description="Carbon monoxide measured")] = None
    overheat: Annotated[OverheatTest | None, Field(description="Test of the overheat stat")] = None
    surface: Annotated[SurfaceTemperatures | None, Field(description="Temperatures of surfaces")] = None
    tap: Annotated[TapTest | None, Field(description="Test of the tap")] = None
    heights: Annotated[Heights | None, Field(description="Heights measured")] = None
    tags_seen: Annotated[
        tuple[Annotated[str, Refers(("component", "place", "pipe"), tags_only=True)], ...] | None,
        Field(description="Tags seen aboard"),
    ] = None
    signed: Annotated[
        Mapping[Hold, Signature | bool] | None,
        Field(description="Hold points H1 to H8: yes, no, or {by: [names], date: day}"),
    ] = None
    instruments: Annotated[tuple[Instrument, ...] | None, Field(description="Instruments used")] = None


class ServiceRecord(Entry):
    """One service."""

    example: ClassVar[str] = "{date: 2027-09-01, hours: 610 h, by: The technician, what: nozzle and seals}"

    date: Annotated[Date | None, Field(description="Date")] = None
    hours: Annotated[
        float | None,
        q("t", "s", "running hours", low=0, high=1e9),
        Likely(0, 3e8),
        Field(description="Running hours on the meter"),
    ] = None
    by: Annotated[str | None, Field(description="Who did it")] = None
    what: Annotated[str | None, Field(description="What was done")] = None


class CoolantRecord(Entry):
    """One test of the coolant."""

    example: ClassVar[str] = "{date: 2027-09-01, share: 39 %, pH: 8.2}"

    date: Annotated[Date | None, Field(description="Date")] = None
    share: Annotated[GLYCOL, Field(description="Share of glycol measured")] = None
    pH: Annotated[ACIDITY, Field(description="Its pH")] = None  # noqa: N815 - its name everywhere


class Records(Entry):
    """Readings after hand-over."""

    example: ClassVar[str] = "{service: [{date: 2027-09-01, hours: 610 h, by: The technician}]}"

    service: Annotated[tuple[ServiceRecord, ...] | None, Field(description="Services")] = None
    coolant: Annotated[tuple[CoolantRecord, ...] | None, Field(description="Tests of the coolant")] = None
