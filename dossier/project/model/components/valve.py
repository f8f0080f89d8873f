"""Valves in the coolant."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import Component
from dossier.project.model.entry import TEMPERATURE, Likely, Objection, Refers
from dossier.project.model.values import ValveSetting

WAYS = 2
KV = Annotated[
    float | None,
    q("K_v", "m3/h", "flow factor, fully open", low=1e-4, high=1000),
    Likely(0.02, 60),
    Field(description="Flow factor fully open: m3/h of water at 1 bar"),
]
Opening = Annotated[
    float | None,
    q("θ", "K", "temperature of the valve", low=253, high=423),
    TEMPERATURE,
    Likely(273, 373),
    Field(description="Temperature of the valve"),
]


class Valve(Component):
    """What all valves have."""

    kv: KV = None


class BalancingValve(Valve):
    """A valve preset to give its branch its flow."""

    example: ClassVar[str] = "{kind: balancing_valve, kv: 1.6 m3/h}"

    kind: Literal["balancing_valve"] = "balancing_valve"
    settings: Annotated[
        tuple[ValveSetting, ...] | None, Field(description="Its flow factor by turns: [turns, kv]")
    ] = None


class BypassValve(Valve):
    """A valve that lets the ring flow past the emitters."""

    example: ClassVar[str] = "{kind: bypass_valve, kv: 2.5 m3/h}"

    kind: Literal["bypass_valve"] = "bypass_valve"


class ShutValve(Valve):
    """A valve to take a part out."""

    example: ClassVar[str] = "{kind: shut_valve, kv: 6 m3/h}"

    kind: Literal["shut_valve"] = "shut_valve"


class CheckValve(Valve):
    """A valve that lets nothing back."""

    example: ClassVar[str] = "{kind: check_valve, kv: 3 m3/h}"

    kind: Literal["check_valve"] = "check_valve"


class ThermostaticValve(Valve):
    """A valve that opens with the temperature."""

    example: ClassVar[str] = "{kind: thermostatic_valve, kv: 2.5 m3/h, opens: 45 degC, full: 55 degC}"

    kind: Literal["thermostatic_valve"] = "thermostatic_valve"
    opens: Annotated[Opening, Field(description="Temperature at which it begins to open")] = None
    full: Annotated[Opening, Field(description="Temperature at which it is fully open")] = None

    def objections(self) -> Iterator[Objection]:
        """It is fully open at the higher temperature."""
        if self.opens is not None and self.full is not None and self.full < self.opens:
            yield Objection(
                "full", "the valve is fully open below the temperature it opens at", "swap opens and full"
            )


class MotorValve(Valve):
    """A valve worked by a motor."""

    example: ClassVar[str] = "{kind: motor_valve, kv: 2 m3/h, automatic: true}"

    kind: Literal["motor_valve"] = "motor_valve"


class ThreeWayValve(Valve):
    """A valve that mixes or diverts two branches of one group."""

    example: ClassVar[str] = "{kind: three_way_valve, kv: 2.5 m3/h, setting: 55 degC, ways: [bypass, saloon]}"

    kind: Literal["three_way_valve"] = "three_way_valve"
    setting: Annotated[Opening, Field(description="Temperature it holds")] = None
    ways: Annotated[
        tuple[str, ...] | None, Refers(("branch",)), Field(description="The two branches it mixes or diverts")
    ] = None

    def objections(self) -> Iterator[Objection]:
        """It has two ways besides its own."""
        if self.ways is not None and len(self.ways) != WAYS:
            yield Objection("ways", f"the valve has {len(self.ways)} ways", "name two branches of one group")


class SafetyValve(Component):
    """A valve that opens before a part bursts."""

    example: ClassVar[str] = "{kind: safety_valve, setting: 3 bar, capacity: 30 kW, led_to: catch bottle}"

    kind: Literal["safety_valve"] = "safety_valve"
    setting: Annotated[
        float | None,
        q("p", "Pa", "setting, gauge", low=1e4, high=1e8),
        Likely(3e4, 1.2e6),
        Field(description="Pressure at which it opens, gauge"),
    ] = None
    capacity: Annotated[
        float | None,
        q("Φ", "W", "output it can relieve", low=10, high=1e8),
        Likely(1000, 500000),
        Field(description="Output it can relieve"),
    ] = None
    led_to: Annotated[str | None, Field(description="Where its outlet leads")] = None


class FuelShutOff(Component):
    """A valve that stops the fuel."""

    example: ClassVar[str] = "{kind: fuel_shut_off, at_tank: true, operated_from: wheelhouse}"

    kind: Literal["fuel_shut_off"] = "fuel_shut_off"
    at_tank: Annotated[bool | None, Field(description="Whether it sits at the tank's connection")] = None
    operated_from: Annotated[str | None, Field(description="Where it is worked from")] = None
