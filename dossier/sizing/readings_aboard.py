"""What do the gauges show when all is well? Ranges of supply and return, and the air from the fan coils.

The means of the design night are those of the balance; on milder days a burner starts at its setpoint less
its band and stops at its setpoint, so that a reading wanders between the two.
"""

from typing import TYPE_CHECKING

from dossier.notation import NotAssessed, Real
from dossier.notation.records import dataclass
from dossier.physics.emitter import FanCoil
from dossier.sizing.heat_sums import rise_at_output
from dossier.sizing.modes import DESIGN
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.spaces import burner_of

if TYPE_CHECKING:
    from dossier.project import Project

TOLERANCE = 5.0
"""Kelvin that a reading may differ from the calculation, common practice, no source."""


@dataclass(frozen=True)
class Wandering:
    """Lowest and highest of supply and return at the burner, in K."""

    supply: tuple[float, float]
    back: tuple[float, float]


def design_operation(ring: RingStudy | NotAssessed) -> Operation | None:
    """The mode of the design night; None where it is not solved."""
    return None if isinstance(ring, NotAssessed) else ring.operations.get(DESIGN)


def wandering(project: "Project", ring: RingStudy | NotAssessed) -> Wandering | None:
    """Between what supply and return wander in mode heating; None where the balance is not known."""
    burner, operation = burner_of(project), design_operation(ring)
    source = operation.heat.sources.get(burner.tag) if burner and operation and operation.heat else None
    if burner is None or source is None:
        return None
    supply, back = float(source.supply), float(source.back)
    lows, highs = [supply - TOLERANCE], [supply + TOLERANCE]
    if burner.setpoint is not None:
        highs.append(float(burner.setpoint))
        lows.append(float(burner.setpoint) - float(burner.band or 0.0))
    low, high = min(lows), max(highs)
    return Wandering((low, high), (back - (supply - low), back + (high - supply)))


def air_of_coils(ring: RingStudy | NotAssessed) -> dict[str, Real]:
    """Temperature (K) of the air that leaves each fan coil on the design night, by tag."""
    operation = design_operation(ring)
    if operation is None or operation.heat is None:
        return {}
    found: dict[str, Real] = {}
    for tag, state in operation.heat.emitters.items():
        coil = operation.setting.emitters[tag].emitter
        if state.fan_runs and isinstance(coil, FanCoil) and float(state.output) > 0:
            found[tag] = state.room + rise_at_output(state.output, coil.air_rate)
    return found
