"""Parts that stand in the layout and on the drawings only."""

from typing import ClassVar, Literal

from dossier.project.model.components.component import Component


class Isolator(Component):
    """A switch that isolates a feed."""

    example: ClassVar[str] = "{kind: isolator, where: wheelhouse console}"

    kind: Literal["isolator"] = "isolator"


class Battery(Component):
    """A battery."""

    example: ClassVar[str] = "{kind: battery}"

    kind: Literal["battery"] = "battery"


class FuelTank(Component):
    """A fuel tank."""

    example: ClassVar[str] = "{kind: fuel_tank}"

    kind: Literal["fuel_tank"] = "fuel_tank"


class FuelFilter(Component):
    """A fuel filter."""

    example: ClassVar[str] = "{kind: fuel_filter}"

    kind: Literal["fuel_filter"] = "fuel_filter"
