"""Where does it get wet? Dew points, inner surfaces, frame flanges, and water inside the build-ups.

Sections are seen from the heated room they close off; between unheated spaces the vapour is not known.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

from dossier.data.recognised_words import says
from dossier.data.sources import ISO_13788_SURFACE
from dossier.data.surface_resistances import inside_surface_resistance, mould_surface_resistance
from dossier.notation import NotAssessed, Real, chosen, q
from dossier.notation.records import dataclass
from dossier.physics.frames import flange_temperature, surface_over_flange
from dossier.physics.moisture import (
    dew_point,
    saturation_pressure,
    surface_humidity,
    surface_temperature,
    surface_transmittance,
    temperature_factor,
    vapour_pressure,
)
from dossier.sizing.heat_loss import HeatLoss, SectionLoss
from dossier.sizing.moisture_year import (
    Condensation,
    MonthAir,
    condensation,
    humidity_inside,
    lacking_factors,
    months_of,
    room_vapour,
    share_beyond,
    unheated_in_month,
    warm_room,
)

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.envelope import Section

QUESTION = "Where does it get wet?"
SATURATED = 1.0


@dataclass(frozen=True)
class ZoneAir:
    """The air of a heated room on the design night."""

    zone: str
    temperature: Annotated[Real, q("θ_i", "K", "room")]
    humidity: Annotated[Real, q("φ_i", "1", "relative humidity of the room")]
    vapour: Annotated[Real, q("p_v", "Pa", "vapour pressure of the room")]
    dew_point: Annotated[Real, q("θ_d", "K", "dew point of the room air", name="dew_point.zone.{zone}")]


@dataclass(frozen=True)
class SectionMoisture:
    """One section as the room ``room`` meets it.

    ``zone`` is the zone whose list holds it, ``glazed`` tells glass. ``condensation`` is None where it has no
    layers or ``lacking`` names what the months lack; ``worst_month`` is the month of ``surface_humidity``.
    """

    zone: str
    name: str
    room: str
    glazed: bool
    has_layers: bool
    beyond: Annotated[Real, q("θ_e", "K", "temperature beyond")]
    f_rsi: Annotated[
        Real, q("f_Rsi", "1", "index of surface temperature", name="moisture.{zone}.{name}.f_rsi")
    ]
    surface_temperature: Annotated[
        Real,
        q("θ_si", "K", "inner surface between frames", name="moisture.{zone}.{name}.surface_temperature"),
    ]
    flange_temperature: Annotated[
        Real | None,
        q("θ_si", "K", "inner surface over a frame", name="moisture.{zone}.{name}.flange_temperature"),
    ]
    surface_humidity: Annotated[
        Real | None,
        q("φ_si", "1", "monthly mean at the inner surface", name="moisture.{zone}.{name}.surface_humidity"),
    ]
    worst_month: int | None
    condensate: Annotated[
        Real | None, q("M_a", "kg/m2", "peak of the Glaser year", name="moisture.{zone}.{name}.condensate")
    ]
    dries: Annotated[
        Real | None,
        q("–", "1", "1 if all dries within the year, else 0", name="moisture.{zone}.{name}.dries"),
    ]
    condensation: Condensation | None
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True)
class Moisture:
    """Dew point of every heated room and the sections round it; ``months`` is empty where none are given."""

    rooms: Mapping[str, ZoneAir]
    sections: tuple[SectionMoisture, ...]
    months: tuple[MonthAir, ...]


@dataclass(frozen=True)
class _Face:
    """A section between a warm room and what lies beyond; mirrored where the cold side's list holds it."""

    loss: SectionLoss
    written: "Section"
    room: str
    target: Real
    beyond: Real
    facing: str
    behind: str
    mirrored: bool


def moisture_study(project: "Project", heat_loss: HeatLoss | NotAssessed) -> Moisture | NotAssessed:
    """Dew points, surfaces, flanges and the year of every section round a heated room."""
    if isinstance(heat_loss, NotAssessed):
        return heat_loss
    if not heat_loss.heated:
        return NotAssessed(QUESTION, ("zones.target",), "no zone is heated")
    rooms = {}
    for zone in heat_loss.heated:
        damp = humidity_inside(project)
        pressure = vapour_pressure(damp, zone.temperature)
        rooms[zone.zone] = ZoneAir(zone.zone, zone.temperature, damp, pressure, dew_point(pressure))
    known = months_of(project)
    year = _Year(project, heat_loss, known)
    sections = tuple(year.section(face) for face in _faces(project, heat_loss))
    return Moisture(rooms, sections, () if isinstance(known, NotAssessed) else known)


def _faces(project: "Project", loss: HeatLoss) -> list[_Face]:
    written = {
        (zone.id, section.name): section for zone in project.zones or () for section in zone.sections or ()
    }
    faces = []
    for zone in loss.zones.values():
        for section in zone.sections:
            worth = section.worth
            behind = str(worth.beyond) if worth.facing == "zone" else ""
            own = written[zone.zone, section.name]
            if zone.heated:
                faces.append(
                    _Face(
                        section,
                        own,
                        zone.zone,
                        zone.temperature,
                        section.beyond,
                        worth.facing,
                        behind,
                        mirrored=False,
                    )
                )
            elif behind and loss.zones[behind].heated:
                room = loss.zones[behind].temperature
                faces.append(
                    _Face(section, own, behind, room, zone.temperature, "zone", zone.zone, mirrored=True)
                )
    return faces


class _Year:
    """Months as each face meets them."""

    def __init__(
        self, project: "Project", loss: HeatLoss, months: tuple[MonthAir, ...] | NotAssessed
    ) -> None:
        self.project, self.loss, self.months = project, loss, months
        self.damp = humidity_inside(project)
        self.found: dict[tuple[object, ...], Condensation] = {}
        self.met: dict[tuple[object, ...], tuple[tuple[int, Real, Real, Real], ...]] = {}

    def section(self, face: _Face) -> SectionMoisture:
        """All that is known of one section."""
        wall = face.loss.worth.wall
        between = wall.wall.between if wall else face.loss.worth.transmittance
        if wall:
            film: Real = wall.films.inside
        else:
            film = inside_surface_resistance(face.written.heat_flow or "horizontal")
        still = mould_surface_resistance()
        transmittance = surface_transmittance(between, film, still)
        humid, worst, lacking = self._humidity(face, transmittance, still)
        water = None
        if wall is not None:
            lacking = (*lacking, *lacking_factors(wall))
            water = None if lacking else self._water(face)
        return SectionMoisture(
            face.loss.zone,
            face.loss.name,
            face.room,
            wall is None and (face.written.glazing is not None or bool(says("glass", face.loss.name))),
            wall is not None,
            face.beyond,
            temperature_factor(transmittance, still),
            surface_temperature(transmittance, still, face.target, face.beyond),
            self._flange(face),
            humid,
            worst,
            water.condensate if water else None,
            water.dries if water else None,
            water,
            lacking,
        )

    @staticmethod
    def _flange(face: _Face) -> Real | None:
        """Lining over a frame, with the film of the heat loss: air passes a strip as it passes the lining."""
        wall = face.loss.worth.wall
        if wall is None or wall.wall.fins is None or face.mirrored:
            return None
        fins = wall.wall.fins
        flange = flange_temperature(fins.frame, fins.flange, face.target, face.beyond)
        return surface_over_flange(wall.films.inside, fins.cover_resistance, face.target, flange)

    def _humidity(
        self, face: _Face, transmittance: Real, still: Real
    ) -> tuple[Real | None, int | None, tuple[str, ...]]:
        """Highest monthly mean at the surface at the stated humidity, its month, and what the months lack."""
        lacking = self._lacking(face)
        if lacking or isinstance(self.months, NotAssessed):
            return None, None, lacking
        each = []
        for number, room, pressure, beyond in self._met(face, self.months):
            surface = surface_temperature(transmittance, still, room, beyond)
            each.append((number, surface_humidity(pressure, surface)))
        worst, most = max(each, key=lambda pair: float(pair[1]))
        label = q("φ_si", "1", "relative humidity at the inner surface")
        most = chosen(float(most), label, f"highest of the year, month {worst}", ISO_13788_SURFACE, most)
        return most, worst, ()

    def _met(self, face: _Face, months: tuple[MonthAir, ...]) -> tuple[tuple[int, Real, Real, Real], ...]:
        """Number, room, its vapour and the temperature beyond in each month; like faces share them."""
        case = (float(face.target), face.facing, face.behind, float(face.beyond))
        if case not in self.met:
            rooms = [warm_room(face.target, month.outside) for month in months]
            self.met[case] = tuple(
                (month.number, room, vapour_pressure(self.damp, room), self._beyond(face, month))
                for month, room in zip(months, rooms, strict=True)
            )
        return self.met[case]

    def _lacking(self, face: _Face) -> tuple[str, ...]:
        if isinstance(self.months, NotAssessed):
            return self.months.needs
        if face.facing == "sea" and any(month.sea is None for month in self.months):
            return ("conditions.months.sea",)
        return ()

    def _beyond(self, face: _Face, month: MonthAir) -> Real:
        """Temperature beyond a section in a month."""
        if face.facing == "air":
            return month.outside
        if face.facing == "sea" and month.sea is not None:
            return month.sea
        if face.facing == "zone" and not self.loss.zones[face.behind].heated:
            share = share_beyond(face.target, face.beyond, self.loss.outside_air)
            if share is not None:
                return unheated_in_month(face.target, share, month.outside)
        return face.beyond

    def _water(self, face: _Face) -> Condensation:
        """Water inside; sections of one build-up in like rooms share the answer."""
        wall = face.loss.worth.wall
        if wall is None or isinstance(self.months, NotAssessed):
            raise ValueError(f"{face.loss.zone}, {face.loss.name} has no layers or no months")
        case = (
            id(wall),
            float(face.target),
            face.facing,
            face.behind,
            float(face.beyond) if face.facing == "temperature" else 0.0,
            face.mirrored,
        )
        if case not in self.found:
            tight = bool(self.project.build_ups[wall.name].vapour_tight)  # type: ignore[index]  # a wall has its build-up
            course = [self._course(face, month) for month in self.months]
            own = self.project.materials or {}
            self.found[case] = condensation(wall, own, course, is_tight=tight, mirrored=face.mirrored)
        return self.found[case]

    def _course(self, face: _Face, month: MonthAir) -> tuple[float, Real, Real, Real, Real]:
        """Days, room, temperature beyond, and the humidities of both in a month."""
        room, beyond = warm_room(face.target, month.outside), self._beyond(face, month)
        pressure = room_vapour(self.damp, room, month.humidity, month.outside)
        damp = min(surface_humidity(pressure, room), SATURATED, key=float)
        if face.facing == "sea":
            return month.days, room, beyond, damp, SATURATED
        if face.facing == "air":
            return month.days, room, beyond, damp, month.humidity
        outside = float(month.humidity) * float(saturation_pressure.function(month.outside))
        there = min(outside / float(saturation_pressure.function(beyond)), SATURATED)
        return month.days, room, beyond, damp, there
