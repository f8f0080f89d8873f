"""The pump that moves the coolant."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import Component
from dossier.project.model.entry import Likely, Objection
from dossier.project.model.values import CurvePoint


class Pump(Component):
    """A pump by the points of its curve, for water at rated voltage."""

    example: ClassVar[str] = "{kind: pump, curve: [[0 l/min, 62 kPa], [20 l/min, 45 kPa], [40 l/min, 0 kPa]]}"

    kind: Literal["pump"] = "pump"
    curve: Annotated[
        tuple[CurvePoint, ...] | None,
        Field(description="Points of its curve, flow and pressure rise, from no flow to the largest flow"),
    ] = None
    power: Annotated[
        float | None,
        q("P", "W", "electric power", low=0, high=20000),
        Likely(3, 1000),
        Field(description="Electric power taken"),
    ] = None
    npsh: Annotated[
        float | None,
        q("p_NPSH", "Pa", "net positive suction head, as pressure", low=0, high=1e6),
        Likely(500, 60000),
        Field(description="Pressure over the vapour pressure it needs at its inlet"),
    ] = None
    speed: Annotated[
        float | None,
        q("n", "1/s", "speed", low=0.1, high=2000),
        Likely(8, 200),
        Field(description="Speed of its shaft"),
    ] = None
    best_point: Annotated[
        float | None,
        q("q_V", "m3/s", "flow of best efficiency", low=1e-7, high=0.1),
        Likely(1.6e-5, 0.003),
        Field(description="Flow at its best efficiency"),
    ] = None
    regulated: Annotated[bool | None, Field(description="Whether its speed holds when the voltage falls")] = (
        None
    )
    runs_without_burner: Annotated[
        bool | None, Field(description="Whether it has its own switch or stat, apart from the burner")
    ] = None

    def objections(self) -> Iterator[Objection]:
        """A curve has two points or more, its flows rise and its pressures never do."""
        points = self.curve
        if not points:
            return
        if len(points) == 1:
            yield Objection("curve", "the curve has one point", "write at least two, better five")
        for before, after in pairwise(points):
            if after.flow <= before.flow:
                yield Objection(
                    "curve", "the flows of the curve do not rise", "write its points from no flow upward"
                )
                return
            if after.pressure > before.pressure:
                yield Objection(
                    "curve",
                    f"the pressure of the curve rises with the flow from {_point(before)} to {_point(after)}",
                    "write its points as [flow, pressure], the pressure falling; leave out what rises",
                )
                return


def _point(point: CurvePoint) -> str:
    """A point of a curve in the trade's units."""
    return f"{float(point.pressure) / 1000:.3g} kPa at {float(point.flow) * 60000:.3g} l/min"
