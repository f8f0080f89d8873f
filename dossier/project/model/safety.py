"""Alarms, stop, extinguishers, signs."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import Entry, Likely, No, Refers
from dossier.project.model.values import Date

AT_ZONE = Annotated[str | None, Refers(("zone",)), Field(description="Zone it hangs in")]
REPLACE = Annotated[Date | None, Field(description="Date or month by which it is to be replaced")]


class CoAlarm(Entry):
    """A carbon monoxide alarm."""

    name_field: ClassVar[str] = "at"
    example: ClassVar[str] = "{at: saloon, replace_by: 2033-06, tested: 2026-11-01}"

    at: AT_ZONE = None
    replace_by: REPLACE = None
    tested: Annotated[Date | None, Field(description="When its test button was last pressed")] = None
    from_source: Annotated[
        float | None,
        q("s", "m", "distance to the possible source", low=0, high=100),
        Likely(0.1, 20),
        Field(description="Distance to the possible source in the same space"),
    ] = None
    standard: Annotated[str | None, Field(description="Standard it is marked with")] = None


class SmokeAlarm(Entry):
    """A smoke alarm."""

    name_field: ClassVar[str] = "at"
    example: ClassVar[str] = "{at: saloon, replace_by: 2033-06}"

    at: AT_ZONE = None
    replace_by: REPLACE = None


class Stop(Entry):
    """The switch that stops the burner in an emergency."""

    example: ClassVar[str] = "{at: wheelhouse console, reach: on the way out}"

    at: Annotated[str | None, Field(description="Where it is")] = None
    reach: Annotated[
        Literal["from outside", "on the way out", "inside"] | None,
        Field(description="from outside, on the way out, or inside the burner's space"),
    ] = None


class Extinguisher(Entry):
    """A fire extinguisher."""

    name_field: ClassVar[str] = "at"
    example: ClassVar[str] = "{at: wheelhouse door, size: 2 kg, from_entry: 1.5 m}"

    at: Annotated[str | None, Field(description="Where it hangs")] = None
    size: Annotated[
        float | None,
        q("m", "kg", "charge", low=0.05, high=500),
        Likely(0.4, 60),
        Field(description="Its charge"),
    ] = None
    from_entry: Annotated[
        float | None,
        q("s", "m", "distance to the way into the burner's space", low=0, high=100),
        Likely(0, 20),
        Field(description="Distance to the way into the burner's space"),
    ] = None
    replace_by: REPLACE = None


class FirePort(Entry):
    """A port to put out a fire without opening the lid."""

    example: ClassVar[str] = "{at: wheelhouse sole, bore: 50 mm}"

    at: Annotated[str | None, Field(description="Where it is")] = None
    bore: Annotated[
        float | None,
        q("d", "m", "bore of the fire port", low=1e-4, high=20),
        Likely(0.002, 0.2),
        Field(description="Its bore"),
    ] = None


class FixedSystem(Entry):
    """A fixed extinguishing system."""

    example: ClassVar[str] = "{stops_burner: true}"

    stops_burner: Annotated[bool | None, Field(description="Whether its release stops burner and fans")] = (
        None
    )


class Safety(Entry):
    """What guards the crew."""

    example: ClassVar[str] = (
        "{co_alarms: [{at: saloon, replace_by: 2033-06}], stop: {at: console, reach: on the way out}}"
    )

    co_alarms: Annotated[
        tuple[CoAlarm, ...] | None, Field(description="Carbon monoxide alarms; [] if there are none")
    ] = None
    stop: Annotated[Stop | No | None, Field(description="Emergency stop of the burner, or none")] = None
    extinguishers: Annotated[
        tuple[Extinguisher, ...] | None, Field(description="Fire extinguishers; [] if there are none")
    ] = None
    fire_port: Annotated[
        FirePort | No | None, Field(description="Fire port to the burner's space, or none")
    ] = None
    smoke_alarms: Annotated[
        tuple[SmokeAlarm, ...] | None, Field(description="Smoke alarms; [] if there are none")
    ] = None
    fixed_system: Annotated[
        FixedSystem | No | None, Field(description="Fixed extinguishing system, or none")
    ] = None
    signs: Annotated[
        tuple[str, ...] | None,
        Field(description="Signs fitted: stop, fuel shut-off, isolator, header, exhaust, co alarm"),
    ] = None
