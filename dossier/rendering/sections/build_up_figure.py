"""A build-up as it is drawn: its layers and frame to scale, the temperatures in the reader's unit."""

from math import ceil, floor

from dossier.data.materials import materials
from dossier.notation import NotAssessed
from dossier.physics.envelope import Layer as Solid
from dossier.rendering.charts import tick_step
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.build_up import BuildUp, Layer, Rib, build_up
from dossier.rendering.drawings.hatching import AIR, CONCRETE, FIBROUS, FOAM, GLASS, METAL, PLASTIC, WOOD
from dossier.rendering.drawings.shapes import Drawing
from dossier.rendering.drawings.temperature_course import Course, Surface
from dossier.rendering.layout.measures import column_width
from dossier.rendering.plotted import plotted
from dossier.sizing.wall_temperatures import WallTemperatures

CONDUCTS, STONE, INSULATES = 5.0, 0.9, 0.07
"""Conductivities (W/mK) that tell metal, stone and insulation apart in the drawing."""


def picture_of(
    draft: Draft, wall: WallTemperatures, width: float | None = None, high: float = 1.0
) -> Drawing:
    """The section with its temperatures, so many millimetres wide, else as wide as the text column."""
    degrees = [*wall.between, *wall.along]
    return build_up(
        BuildUp(
            layers=tuple(_layer(draft, layer) for layer in wall.worth.layers),
            between=_between(draft, wall),
            ticks=_ticks(draft, min(degrees), max(degrees)),
            along=_along(draft, wall),
            rib=_rib(draft, wall),
            dew_point=_dew_point(draft, wall),
            outside=(str(draft.words("build_ups.outside")), draft.said(wall.outside, "temperature")),
            inside=(str(draft.words("build_ups.inside")), draft.said(wall.inside, "temperature")),
        ),
        width or column_width(draft.paper),
        high,
    )


def _layer(draft: Draft, layer: Solid) -> Layer:
    name = str(draft.words("build_ups.air")) if layer.is_air else draft.named(layer.name)
    return Layer(name, float(layer.thickness), draft.cell(layer.thickness, "thickness_layer"), _class(layer))


def _class(layer: Solid) -> str:
    """Which pattern a layer is drawn in; a material of the project's own by what its conductivity tells."""
    if layer.conductivity is None:
        return AIR
    conducts, known = float(layer.conductivity), materials().get(layer.name)
    if layer.fibrous:
        return FIBROUS
    if conducts >= CONDUCTS:
        return METAL
    if conducts <= INSULATES:
        return FOAM
    if conducts >= STONE:
        return GLASS if "glass" in layer.name else CONCRETE
    return WOOD if known is not None and known.combustible else PLASTIC


def _rib(draft: Draft, wall: WallTemperatures) -> Rib | None:
    frame = wall.worth.frame
    if frame is None:
        return None
    name = str(draft.words("build_ups.frame"))
    return Rib(float(frame.depth), float(frame.web), float(frame.flange), 0, name)


def _degrees(draft: Draft, *temperatures: float) -> list[float]:
    return plotted(draft.numbers, temperatures, "temperature_fine")


def _between(draft: Draft, wall: WallTemperatures) -> Course:
    depths = [0.0]
    for layer in wall.worth.layers:
        depths.append(depths[-1] + float(layer.thickness))
    shown = _degrees(draft, *wall.between)
    name = str(draft.words("build_ups.between_frames" if wall.along else "build_ups.through"))
    return Course(
        shown[0],
        tuple(zip(depths, shown[1:-1], strict=True)),
        shown[-1],
        name,
        _surface(draft, wall, wall.surface),
    )


def _along(draft: Draft, wall: WallTemperatures) -> Course | None:
    """Plate at the foot of the web, flange, then every face of its cover up to the lining's face."""
    frame, over = wall.worth.frame, wall.surface_over_frame
    if frame is None or over is None:
        return None
    plate = float(wall.worth.layers[0].thickness)
    through = sum(float(layer.thickness) for layer in wall.worth.layers)
    cover = [float(layer.thickness) for layer in frame.cover]
    shown = _degrees(draft, *wall.along)
    depth = through - sum(cover)
    points = [(0.0, shown[1]), (plate, shown[1]), (min(plate + float(frame.depth), depth), shown[2])]
    points.append((depth, shown[2]))
    for thick, degrees in zip(cover, shown[3:-1], strict=True):
        depth += thick
        points.append((depth, degrees))
    return Course(
        shown[0], tuple(points), shown[-1], str(draft.words("build_ups.along")), _surface(draft, wall, over)
    )


def _dew(draft: Draft, wall: WallTemperatures) -> float | None:
    found = draft.study.moisture
    if isinstance(found, NotAssessed) or wall.room not in found.rooms:
        return None
    return float(found.rooms[wall.room].dew_point)


def _surface(draft: Draft, wall: WallTemperatures, surface: float) -> Surface | None:
    """The inner surface in words: wet under the dew point of the room, dry above it."""
    dew = _dew(draft, wall)
    if dew is None:
        return None
    is_wet = surface < dew
    name = "build_ups.wet" if is_wet else "build_ups.dry"
    return Surface(str(draft.words(name, temperature=draft.said(surface, "temperature"))), is_wet)


def _dew_point(draft: Draft, wall: WallTemperatures) -> tuple[float, str] | None:
    dew = _dew(draft, wall)
    if dew is None:
        return None
    said = draft.words("build_ups.dew_point", temperature=draft.said(dew, "temperature"))
    return _degrees(draft, dew)[0], str(said)


def _ticks(draft: Draft, low: float, high: float) -> tuple[tuple[float, str], ...]:
    """Round temperatures over the whole range; the unit stands with the highest."""
    first, last = _degrees(draft, low, high)
    step = max(tick_step((last - first) or 1.0) * 2, 1.0)
    counts = range(floor(first / step), ceil(last / step) + 1)
    texts = [f"{count * step:,.0f}".replace("-", "\u2212") for count in counts]
    texts[-1] = f"{texts[-1]} {draft.numbers.unit('temperature_fine')}"
    return tuple((count * step, said) for count, said in zip(counts, texts, strict=True))
