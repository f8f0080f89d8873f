"""Where the coolant expands: header tank and membrane vessel."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import Component
from dossier.project.model.entry import SHARE, Entry, Likely, No, Refers


class HeaderVent(Entry):
    """The vent and overflow of a header tank."""

    example: ClassVar[str] = "{bore: 16 mm, led_to: drip tray, valve: none}"

    bore: Annotated[
        float | None,
        q("d", "m", "bore of the vent", low=1e-4, high=20),
        Likely(0.002, 0.08),
        Field(description="Its bore"),
    ] = None
    led_to: Annotated[str | None, Field(description="Where it leads")] = None
    valve: Annotated[
        str | No | None,
        Refers(("component",), tags_only=True),
        Field(description="What could close it: a tag, words, or none"),
    ] = None


class HeaderTank(Component):
    """A header tank, open to the air or with a pressure cap."""

    example: ClassVar[str] = "{kind: header_tank, volume: 10 l, cold_level: 30 %, cap: vented}"

    kind: Literal["header_tank"] = "header_tank"
    volume: Annotated[
        float | None,
        q("V", "m3", "volume", low=1e-5, high=5),
        Likely(5e-4, 0.2),
        Field(description="Volume up to the overflow"),
    ] = None
    cold_level: Annotated[
        float | None,
        q("", "1", "cold level", low=0, high=1),
        SHARE,
        Likely(0.1, 0.9),
        Field(description="Share of the volume filled when cold"),
    ] = None
    cap: Annotated[
        Literal["vented", "pressure"] | None, Field(description="Its cap: vented, or with a pressure valve")
    ] = None
    cap_pressure: Annotated[
        float | None,
        q("p", "Pa", "pressure of the cap, gauge", low=0, high=1e6),
        Likely(1e4, 2.5e5),
        Field(description="Pressure at which its cap opens, gauge"),
    ] = None
    vent: Annotated[HeaderVent | No | None, Field(description="Its vent and overflow, or none")] = None
    sight_glass: Annotated[bool | None, Field(description="Whether its level is seen at a glance")] = None
    low_level_alarm: Annotated[bool | None, Field(description="Whether a low level sounds an alarm")] = None


class MembraneVessel(Component):
    """A membrane vessel of a sealed ring."""

    example: ClassVar[str] = "{kind: membrane_vessel, volume: 18 l, precharge: 0.8 bar, final: 2.5 bar}"

    kind: Literal["membrane_vessel"] = "membrane_vessel"
    volume: Annotated[
        float | None,
        q("V", "m3", "volume", low=1e-5, high=5),
        Likely(1e-3, 0.3),
        Field(description="Its nominal volume"),
    ] = None
    precharge: Annotated[
        float | None,
        q("p_0", "Pa", "pre-charge, gauge", low=0, high=2e6),
        Likely(1e4, 4e5),
        Field(description="Pressure of its gas side with the water side empty, gauge"),
    ] = None
    final: Annotated[
        float | None,
        q("p_e", "Pa", "final pressure, gauge", low=0, high=2e6),
        Likely(5e4, 6e5),
        Field(description="Highest working pressure, gauge"),
    ] = None
