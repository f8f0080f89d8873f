"""Pipe under a sole that heats the zone above."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import Component
from dossier.project.model.entry import Likely, Refers


class FloorLoop(Component):
    """One loop of heating pipe under a sole."""

    example: ClassVar[str] = "{kind: floor_loop, zone: saloon, area: 4 m2, size: pex 16x2.0, length: 40 m}"

    kind: Literal["floor_loop"] = "floor_loop"
    zone: Annotated[str | None, Refers(("zone",)), Field(description="Zone it heats")] = None
    area: Annotated[
        float | None,
        q("A", "m2", "heated area", low=0.01, high=1000),
        Likely(0.3, 60),
        Field(description="Area it heats"),
    ] = None
    size: Annotated[str | None, Refers(("pipe_size",)), Field(description="Size of its pipe")] = None
    length: Annotated[
        float | None,
        q("L", "m", "length of the pipe", low=0.1, high=2000),
        Likely(2, 150),
        Field(description="Length of its pipe"),
    ] = None
    spacing: Annotated[
        float | None,
        q("s", "m", "spacing of the pipes", low=0.01, high=2),
        Likely(0.05, 0.4),
        Field(description="Distance from pipe to pipe"),
    ] = None
    covering: Annotated[
        float | None,
        q("R", "m2K/W", "resistance of the covering", low=0, high=2),
        Likely(0, 0.25),
        Field(description="Thermal resistance of what lies over the pipes"),
    ] = None
