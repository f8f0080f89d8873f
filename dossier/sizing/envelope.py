"""What is the shell worth? Transmittance of every section, frames, wind, sea and moisture counted."""

from typing import TYPE_CHECKING, Annotated

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.materials import material
from dossier.data.surface_resistances import HeatFlow, inside_surface_resistance
from dossier.notation import Real, q
from dossier.notation.records import dataclass
from dossier.physics import build_up as walls
from dossier.physics.air_film import film_resistance, outside_surface_resistance
from dossier.physics.envelope import (
    Layer,
    gets_moist,
    layer_resistance,
    moist_conductivity,
    total_resistance,
    transmittance,
)
from dossier.physics.glazing import gap_resistance

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dossier.project import Project
    from dossier.project.model.build_up import BuildUp, Frames, Material
    from dossier.project.model.build_up import Layer as WrittenLayer
    from dossier.project.model.envelope import Glazing, Section, Zone

PANES = {"single": 1, "double": 2, "triple": 3}


@dataclass(frozen=True)
class Films:
    """Films on both faces of a section, m2K/W, and what lies beyond."""

    outside: Real
    inside: Real
    beyond: str


@dataclass(frozen=True)
class BuildUpWorth:
    """A build-up between the films of the first section that uses it."""

    name: str
    layers: tuple[Layer, ...]
    frame: walls.Frame | None
    direction: HeatFlow
    films: Films
    wall: walls.BuildUp
    moist: bool
    upper: Annotated[Real, q("R'", "m2K/W", "upper limit of resistance", name="resistance.{name}.upper")]
    lower: Annotated[Real, q("R''", "m2K/W", "lower limit of resistance", name="resistance.{name}.lower")]
    ratio: Annotated[Real, q("R'/R''", "1", "ratio of the limits", name="resistance.{name}.ratio")]
    addition: Annotated[Real | None, q("ΔU", "W/m2K", "added by the frames", name="frame_loss.{name}")]


@dataclass(frozen=True)
class SectionWorth:
    """One section of a zone's envelope with its transmittance."""

    zone: str
    name: str
    area: Annotated[Real, q("A", "m2", "area")]
    transmittance: Annotated[
        Real, q("U", "W/m2K", "transmittance, frames included", name="u_value.{zone}.{name}")
    ]
    facing: str
    beyond: "str | Real | None"
    wall: BuildUpWorth | None = None
    made_of: str = ""


@dataclass(frozen=True)
class Shell:
    """All sections of all zones, and the build-ups they are made of."""

    sections: "tuple[SectionWorth, ...]"
    build_ups: "Mapping[str, BuildUpWorth]"


def _stated(figure: Real | None) -> Real:
    """A figure that the reader has asked for, number or samples."""
    return 0.0 if figure is None else figure


def _solid(layer: "WrittenLayer", own: "Mapping[str, Material]") -> Layer:
    if layer.air is not None:
        return Layer("air", layer.air)
    name = layer.material or ""
    thickness = _stated(layer.thickness)
    known = own.get(name)
    if known is None:
        row = material(name)
        return Layer(name, thickness, row.conductivity, row.vapour_factor, row.fibrous)
    return Layer(name, thickness, known.conductivity, known.vapour_factor, bool(known.fibrous))


def layers_of(build_up: "BuildUp", own: "Mapping[str, Material]") -> tuple[tuple[Layer, ...], bool]:
    """Layers from outside to inside, fibrous insulation on cold plating taken moist; and whether it was."""
    layers = tuple(_solid(layer, own) for layer in build_up.layers or ())
    if not gets_moist(layers, is_vapour_tight=bool(build_up.vapour_tight)):
        return layers, False
    factor = assumed("build_ups.moist_factor", f"build_ups.{build_up.name}.vapour_tight")
    wet = layers[1]
    taken = Layer(
        wet.name,
        wet.thickness,
        moist_conductivity(_stated(wet.conductivity), factor),
        wet.vapour_factor,
        wet.fibrous,
    )
    return (layers[0], taken, *layers[2:]), True


def _frame(frames: "Frames | None", own: "Mapping[str, Material]") -> walls.Frame | None:
    if frames is None or not frames.material:
        return None
    if frames.spacing is None or frames.web is None or frames.depth is None:
        return None
    metal = own.get(frames.material) or material(frames.material)
    return walls.Frame(
        metal.conductivity,
        frames.spacing,
        frames.web,
        frames.depth,
        frames.web if frames.flange is None else frames.flange,
        tuple(_solid(layer, own) for layer in frames.covered_by or ()),
        frames.flange_thickness,
    )


def outside_film(project: "Project", facing: str) -> Real:
    """Resistance of the film on the far face: wind, sea, another room's air, or the standard film."""
    conditions = project.conditions
    if facing == "sea":
        return film_resistance(assumed("conditions.sea_film", "conditions.sea"))
    emissivity = coefficient("envelope.emissivity")
    air = conditions.outside_air if conditions and conditions.outside_air is not None else 273.15
    if facing == "air":
        wind = stated_or_assumed(conditions.wind if conditions else None, "conditions.wind")
        return outside_surface_resistance(wind, emissivity, air)
    return outside_surface_resistance(assumed("conditions.wind"), emissivity, air)


def _facing(section: "Section") -> "tuple[str, str | Real | None]":
    """What a section faces, in a word, and the zone's name or the temperature beyond it."""
    if isinstance(section.faces, str):
        return section.faces, None
    if section.faces.zone is not None:
        return "zone", section.faces.zone
    return "temperature", section.faces.temperature


def _films(project: "Project", facing: str, direction: HeatFlow) -> Films:
    inside = inside_surface_resistance(direction)
    return Films(inside if facing == "zone" else outside_film(project, facing), inside, facing)


def _glazed(glazing: "Glazing", films: Films, place: str) -> Real:
    count = PANES[glazing.panes]
    pane = layer_resistance(
        stated_or_assumed(glazing.thickness, "zones.glazing_thickness", f"{place}.thickness"),
        material(glazing.material or "glass").conductivity,
    )
    gap = (
        gap_resistance(stated_or_assumed(glazing.gap, "zones.glazing_gap", f"{place}.gap"))
        if count > 1
        else 0.0
    )
    parts = [films.outside, *[pane] * count, *[gap] * (count - 1), films.inside]
    return transmittance(total_resistance(*parts))


def shell(project: "Project") -> Shell:
    """Transmittance of every section of every zone."""
    own, written = project.materials or {}, project.build_ups or {}
    build_ups: dict[str, BuildUpWorth] = {}
    known: dict[tuple[str, HeatFlow, str], BuildUpWorth] = {}

    def worth(name: str, direction: HeatFlow, facing: str) -> BuildUpWorth:
        case = (name, direction, facing)
        if case not in known:
            known[case] = _worth(project, written[name], direction, facing, own)
            build_ups.setdefault(name, known[case])
        return known[case]

    sections = tuple(
        _section(project, zone, section, worth)
        for zone in project.zones or ()
        for section in zone.sections or ()
    )
    return Shell(sections, build_ups)


def _worth(
    project: "Project", build_up: "BuildUp", direction: HeatFlow, facing: str, own: "Mapping[str, Material]"
) -> BuildUpWorth:
    layers, moist = layers_of(build_up, own)
    frame = _frame(build_up.frames, own)
    films = _films(project, facing, direction)
    wall = walls.build_up(layers, direction, films.outside, films.inside, frame)
    return BuildUpWorth(
        build_up.name,
        layers,
        frame,
        direction,
        films,
        wall,
        moist,
        wall.upper,
        wall.lower,
        wall.ratio,
        wall.fins.addition if wall.fins else None,
    )


def _section(
    project: "Project",
    zone: "Zone",
    section: "Section",
    worth: "Callable[[str, HeatFlow, str], BuildUpWorth]",
) -> SectionWorth:
    facing, beyond = _facing(section)
    written = section.heat_flow
    if section.build_up is not None:
        direction = HeatFlow(written or (project.build_ups or {})[section.build_up].heat_flow or "horizontal")
        wall = worth(section.build_up, direction, facing)
        return SectionWorth(
            zone.id,
            section.name,
            section.area,
            wall.wall.transmittance,
            facing,
            beyond,
            wall,
            section.build_up,
        )
    if section.glazing is not None:
        films = _films(project, facing, HeatFlow(written or "horizontal"))
        place = f"zones.{zone.id}.sections.{section.name}.glazing"
        return SectionWorth(
            zone.id,
            section.name,
            section.area,
            _glazed(section.glazing, films, place),
            facing,
            beyond,
            made_of=f"{section.glazing.panes} {section.glazing.material or 'glass'}",
        )
    return SectionWorth(
        zone.id, section.name, section.area, _stated(section.u_value), facing, beyond, made_of="U stated"
    )
