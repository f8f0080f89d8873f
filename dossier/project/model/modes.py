"""Modes of use: which valves are open, which sources run, which zones call."""

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import FROM_KEY, TEMPERATURE, Entry, Likely, No, Objection, Refers

VALVES = (
    "balancing_valve",
    "bypass_valve",
    "shut_valve",
    "check_valve",
    "thermostatic_valve",
    "motor_valve",
    "three_way_valve",
)
VALVE = Refers(("component",), kinds=VALVES)
Tag = Annotated[str, Refers(("component",))]
ValveTag = Annotated[str, VALVE]
ZoneName = Annotated[str, Refers(("zone",))]
Setting = Annotated[float, q("K_v", "m3/h", "flow factor it is set to", low=0, high=1000), Likely(0.01, 60)]
Target = Annotated[
    float, q("θ_i", "K", "target temperature", low=253, high=323), TEMPERATURE, Likely(273.15, 303.15)
]


class Mode(Entry):
    """One way of using the installation; ``heating`` is the design mode."""

    named_as: ClassVar[str] = "mode"
    example: ClassVar[str] = "{set: {V9: 0.3 m3/h}, calls: [wheelhouse, saloon]}"

    name: Annotated[str, FROM_KEY, Field(description="Name of the mode")] = ""
    set: Annotated[
        Mapping[ValveTag, Setting] | None, Field(description="Valves set to a flow factor, by tag")
    ] = None
    open: Annotated[tuple[ValveTag, ...] | None, Field(description="Valves opened fully")] = None
    shut: Annotated[tuple[ValveTag, ...] | None, Field(description="Valves shut")] = None
    stopped: Annotated[tuple[Tag, ...] | None, Field(description="Burners, pumps, fans that stand still")] = (
        None
    )
    recovering: Annotated[
        tuple[Annotated[str, Refers(("component",), kinds=("recovery_exchanger",))], ...] | None,
        Field(description="Exchangers that take heat from a running engine"),
    ] = None
    calls: Annotated[
        tuple[ZoneName, ...] | No | None,
        Field(description="Zones that want heat; all if left out, none if none"),
    ] = None
    targets: Annotated[
        Mapping[ZoneName, Target] | None, Field(description="Other target temperatures, by zone")
    ] = None
    outside_air: Annotated[
        float | None,
        q("θ_e", "K", "outside air in this mode", low=203, high=333),
        TEMPERATURE,
        Likely(223, 313),
        Field(description="Another temperature of the outside air"),
    ] = None
    reverse_allowed: Annotated[
        tuple[Annotated[str, Refers(("component", "pipe"))], ...] | None,
        Field(description="Units and pipes through which a backward flow is allowed"),
    ] = None

    def objections(self) -> Iterator[Objection]:
        """A valve is in one position; ``cold_start`` is a mode of our own."""
        if self.name.replace(" ", "_") == "cold_start":
            yield Objection(
                "", "cold_start is a mode of our own: heating from conditions.unheated_start", "rename it"
            )
        stated = {"set": self.set or {}, "open": self.open or (), "shut": self.shut or ()}
        for key, other in (("open", "set"), ("shut", "set"), ("shut", "open")):
            both = [tag for tag in stated[key] if tag in stated[other]]
            if both:
                yield Objection(key, f"{both[0]} is both in {other} and in {key}", "keep one of them")
