"""Battery, cables and fuses."""

from typing import Annotated, ClassVar

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import COUNT, SHARE, TEMPERATURE, Entry, Likely, Needed, No, Refers

CURRENT = Annotated[float | None, q("I", "A", "current", low=0, high=5000), Likely(0.02, 200)]


class ElectricCircuit(Entry):
    """One circuit: fuse, cable, consumers."""

    named_as: ClassVar[str] = "circuit"
    example: ClassVar[str] = "{name: burner, feeds: [B1], length: 4.2 m, section: 6 mm2, fuse: 20 A}"

    name: Annotated[str, Needed("every result of it"), Field(description="Name, unique among the circuits")]
    feeds: Annotated[
        tuple[Annotated[str, Refers(("component",))], ...] | None, Field(description="Tags of its consumers")
    ] = None
    length: Annotated[
        float | None,
        q("L", "m", "length of the cable, one way", low=0.01, high=500),
        Likely(0.1, 60),
        Field(description="Length of the cable, one way"),
    ] = None
    section: Annotated[
        float | None,
        q("A", "m2", "section of a conductor", low=1e-8, high=1e-3),
        Likely(4e-7, 1.5e-4),
        Field(description="Section of one conductor"),
    ] = None
    fuse: Annotated[
        float | No | None,
        q("I_n", "A", "rating of the fuse", low=0.01, high=5000),
        Likely(0.5, 300),
        Field(description="Rating of its fuse, or none"),
    ] = None
    fuse_distance: Annotated[
        float | None,
        q("s", "m", "cable before the fuse", low=0, high=100),
        Likely(0, 6),
        Field(description="Length of cable between battery or bus and fuse"),
    ] = None
    sheathed: Annotated[
        bool | None, Field(description="Whether the cable before the fuse lies in a sheath or conduit")
    ] = None
    start: Annotated[CURRENT, Field(description="Largest current, at the start")] = None
    run: Annotated[CURRENT, Field(description="Current running")] = None
    insulation: Annotated[
        float | None,
        q("θ_max", "K", "temperature rating of the insulation", low=303, high=673),
        TEMPERATURE,
        Likely(333, 473),
        Field(description="Temperature rating of its insulation"),
    ] = None
    engine_space: Annotated[bool | None, Field(description="Whether it runs through an engine space")] = None
    bundled: Annotated[
        float | None,
        q("n", "1", "conductors bundled", low=1, high=200),
        COUNT,
        Likely(1, 40),
        Field(description="Current-carrying conductors in the bundle"),
    ] = None
    two_wire: Annotated[bool | None, Field(description="Whether both poles have insulated wires")] = None
    fed_before_main_switch: Annotated[
        bool | None, Field(description="Whether it is fed before the daily main switch")
    ] = None
    isolator: Annotated[
        str | No | None,
        Refers(("component",), kinds=("isolator",)),
        Field(description="Tag of its isolator, or none"),
    ] = None
    cut_out: Annotated[
        str | No | None,
        Refers(("component",), tags_only=True),
        Field(description="A battery-protection cut-out in the feed, in words, or none"),
    ] = None
    vital: Annotated[bool | None, Field(description="Whether the stricter limit of voltage drop holds")] = (
        None
    )


class Electrics(Entry):
    """The electric supply."""

    example: ClassVar[str] = "{system: 24 V, battery: 400 Ah, usable: 50 %}"

    system: Annotated[
        float | None,
        q("U", "V", "system voltage", low=1, high=1000),
        Likely(11.5, 48.5),
        Field(description="System voltage"),
    ] = None
    battery: Annotated[
        float | None,
        q("Q", "C", "battery capacity", low=360, high=1e9),
        Likely(36000, 1.8e7),
        Field(description="Capacity of the battery"),
    ] = None
    usable: Annotated[
        float | None,
        q("", "1", "usable share of the battery", low=0, high=1),
        SHARE,
        Likely(0.15, 1),
        Field(description="Usable share of it"),
    ] = None
    other_loads: Annotated[
        float | None,
        q("Q", "C", "other loads in a day", low=0, high=1e9),
        Likely(0, 7.2e6),
        Field(description="Charge other consumers take in a day"),
    ] = None
    battery_resistance: Annotated[
        float | None,
        q("R_i", "ohm", "resistance of the battery", low=0, high=10),
        Likely(2e-4, 0.1),
        Field(description="Inner resistance of the battery"),
    ] = None
    lowest_voltage: Annotated[
        float | None,
        q("U_0", "V", "resting voltage at the lowest charge, cold", low=0.5, high=1000),
        Likely(9, 52),
        Field(description="Resting voltage at the lowest charge, cold"),
    ] = None
    charge_highest: Annotated[
        float | None,
        q("U", "V", "highest charging voltage", low=0.5, high=1000),
        Likely(12, 64),
        Field(description="Highest charging voltage, equalising included"),
    ] = None
    circuits: Annotated[tuple[ElectricCircuit, ...] | None, Field(description="Circuits of the heating")] = (
        None
    )
