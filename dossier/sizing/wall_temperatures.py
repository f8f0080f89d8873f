"""How does the temperature fall through the shell? Every face of a build-up, between frames and along one."""

from collections.abc import Mapping
from typing import Annotated

from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.physics.envelope import temperatures_through
from dossier.physics.frames import flange_temperature, plate_temperature, temperatures_along_frame
from dossier.sizing.envelope import BuildUpWorth
from dossier.sizing.heat_loss import HeatLoss, SectionLoss


@dataclass(frozen=True)
class WallTemperatures:
    """One build-up on the design night, where the first heated room meets it.

    ``between`` runs from the outside air by every face to the inside air (K); ``along`` by the plate at the
    foot of a frame, its flange and every face of its cover, empty where there are no frames.
    """

    build_up: str
    worth: BuildUpWorth
    room: str
    section: str
    inside: Annotated[Real, q("θ_i", "K", "room")]
    outside: Annotated[Real, q("θ_e", "K", "beyond")]
    between: tuple[float, ...]
    along: tuple[float, ...]

    @property
    def surface(self) -> float:
        """Inner surface between frames (K)."""
        return self.between[-2]

    @property
    def surface_over_frame(self) -> float | None:
        """Inner surface over a frame (K); None without frames."""
        return self.along[-2] if self.along else None


def wall_temperatures(loss: HeatLoss | NotAssessed) -> Mapping[str, WallTemperatures] | NotAssessed:
    """Temperatures through all build-ups that a zone is written with, by name."""
    if isinstance(loss, NotAssessed):
        return loss
    found: dict[str, WallTemperatures] = {}
    for heated in (True, False):
        for zone in loss.zones.values():
            if zone.heated is not heated:
                continue
            for section in zone.sections:
                wall = section.worth.wall
                if wall is not None and wall.name not in found:
                    found[wall.name] = _through(wall, section, zone.temperature)
    return {name: found[name] for name in loss.shell.build_ups if name in found}


def _through(wall: BuildUpWorth, section: SectionLoss, inside: Real) -> WallTemperatures:
    room, outside = float(inside), float(section.beyond)
    between = temperatures_through(room, outside, [float(r) for r in wall.wall.resistances])
    along: tuple[float, ...] = ()
    fins = wall.wall.fins
    if fins is not None:
        psi = float(fins.frame)
        flange = flange_temperature.function(psi, float(fins.flange), room, outside)
        plate = plate_temperature.function(psi, float(fins.plate), room, outside)
        cover = tuple(float(r) for r in fins.cover)
        along = tuple(temperatures_along_frame(room, outside, plate, flange, cover).tolist())
    return WallTemperatures(
        wall.name,
        wall,
        section.zone,
        section.name,
        inside,
        section.beyond,
        tuple(between.tolist()),
        along,
    )
