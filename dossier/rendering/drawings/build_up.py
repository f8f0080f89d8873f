"""A build-up in section to scale, and over it the temperature through it, both on one axis.

Outside is left. Thicknesses in metres; temperatures as plain numbers on the scale of the given ticks; every
text ready for the page.
"""

from dataclasses import dataclass

from dossier.rendering.drawings.callouts import Board, set_out
from dossier.rendering.drawings.hatching import AIR, METAL, Hatch
from dossier.rendering.drawings.layer_names import named_layers
from dossier.rendering.drawings.lettering import REGULAR, SEMIBOLD, SMALL, leading, text_width
from dossier.rendering.drawings.pens import MIDDLE
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import Drawing, Line, Shape, Text
from dossier.rendering.drawings.temperature_course import DOTTED, Axes, Course, callouts, curves, dew_line

SCALES = ((5, 1), (2, 1), (1, 1), (1, 2), (1, 5), (1, 10), (1, 20))
GRAPH = 50.0
SECTION = 56.0
GAP = 6.0
FILM = 8.0  # millimetres on paper over which the air's film is drawn
LEAST_RIB = 1.0  # millimetres on paper
FLANGE = 0.84  # of the section's height, that a flange may take


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer from outside to inside: name, thickness in metres and as text, material class (its pattern)."""

    name: str
    thickness: float
    text: str
    material: str = AIR


@dataclass(frozen=True, slots=True)
class Rib:
    """A frame that stands on the inner face of layer ``on``: depth, web and flange in metres."""

    depth: float
    web: float
    flange: float = 0.0
    on: int = 0
    name: str = "frame"
    material: str = METAL


@dataclass(frozen=True, slots=True)
class BuildUp:
    """Everything drawn of one build-up; ``ticks`` are temperatures with their texts, lowest first."""

    layers: tuple[Layer, ...]
    between: Course
    ticks: tuple[tuple[float, str], ...]
    along: Course | None = None
    rib: Rib | None = None
    dew_point: tuple[float, str] | None = None
    outside: tuple[str, ...] = ("outside",)
    inside: tuple[str, ...] = ("inside",)

    @property
    def thickness(self) -> float:
        """Of all layers, in metres."""
        return sum(layer.thickness for layer in self.layers)

    @property
    def faces(self) -> tuple[float, ...]:
        """Depth of every face from the outermost."""
        depths = [0.0]
        for layer in self.layers:
            depths.append(depths[-1] + layer.thickness)
        return tuple(depths)


def build_up(drawn: BuildUp, width: float, high: float = 1.0) -> Drawing:
    """The section with its temperatures, ``width`` millimetres wide; the drawing's title is its scale.

    ``high`` is its height over the usual one.
    """
    margin = (
        max(
            max((text_width(text, SMALL) for _, text in drawn.ticks), default=0.0),
            max((text_width(text, SMALL, SEMIBOLD) for text in drawn.outside), default=0.0),
        )
        + 1.6
    )
    side = max([FILM + 2.0, *(text_width(text, SMALL, SEMIBOLD) + 3.0 for text in drawn.inside)])
    room = width - margin - side - FILM
    fits = [ratio for ratio in SCALES if drawn.thickness * 1000 * ratio[0] / ratio[1] <= room]
    ratio = fits[0] if fits else SCALES[-1]
    unit = 1000.0 * ratio[0] / ratio[1]
    thick = drawn.thickness * unit
    left = margin + FILM + max(0.0, (room - thick) * 0.4)
    layers = [(layer.name, layer.text, layer.thickness * unit) for layer in drawn.layers]
    names, depth = named_layers(layers, left, width)
    section = Box(left, depth, left + thick, depth + high * SECTION)
    bottom = section.top + GAP
    graph = Box(margin, bottom, width, bottom + high * GRAPH)
    axes = Axes(left, unit, graph, _range(drawn))
    shapes: list[Shape] = list(curves(drawn.between, drawn.along, axes, drawn.ticks))
    shapes += [dew_line(axes, drawn.dew_point[0])] if drawn.dew_point else []
    shapes += _faces(drawn, axes, section)
    shapes += _section(drawn, axes, section)
    shapes += [shifted(shape, 0.0, depth) for shape in names]
    shapes += _sides(drawn, section, width)
    height = graph.top + 2.5
    board = Board(Box(0.0, 0.0, width, height))
    board.add(shapes)
    lettering, _ = set_out(callouts(drawn.between, drawn.along, axes, drawn.dew_point), board)
    return Drawing.of(width, height, [*shapes, *lettering], f"{ratio[0]} : {ratio[1]}")


def _range(drawn: BuildUp) -> Point:
    """Lowest and highest temperature shown."""
    shown = [value for value, _ in drawn.ticks]
    for course in (drawn.between, drawn.along):
        if course:
            shown += [course.outside, course.inside, *(t for _, t in course.points)]
    if drawn.dew_point:
        shown.append(drawn.dew_point[0])
    low, high = min(shown), max(shown)
    return (low, high) if high > low else (low - 1.0, high + 1.0)


def _faces(drawn: BuildUp, axes: Axes, section: Box) -> list[Shape]:
    """Dotted lines that carry every face of the section up through the graph."""
    top = axes.graph.top
    return [Line((axes.x(depth), section.top), (axes.x(depth), top), DOTTED) for depth in drawn.faces]


def _section(drawn: BuildUp, axes: Axes, section: Box) -> list[Shape]:
    """Every layer in its pattern, then the frame over them."""
    shapes: list[Shape] = []
    for layer, depth in zip(drawn.layers, drawn.faces, strict=False):
        box = Box(axes.x(depth), section.bottom, axes.x(depth + layer.thickness), section.top)
        shapes.append(Hatch(box, layer.material, None))
    rib = _rib(drawn.rib, drawn, axes, section) if drawn.rib else []
    bodies = [shape.box for shape in rib if isinstance(shape, Hatch)]
    for depth in drawn.faces:
        shapes += _face(axes.x(depth), section, bodies)
    return shapes + rib


def _face(x: float, section: Box, bodies: list[Box]) -> list[Shape]:
    """The line between two layers, broken where a frame passes through it."""
    for body in bodies:
        if body.left < x < body.right:
            return [
                Line((x, section.bottom), (x, body.bottom), MIDDLE),
                Line((x, body.top), (x, section.top), MIDDLE),
            ]
    return [Line((x, section.bottom), (x, section.top), MIDDLE)]


def _rib(rib: Rib, drawn: BuildUp, axes: Axes, section: Box) -> list[Shape]:
    """A frame in section, no deeper than the wall: its web, and its flange if it has one."""
    foot = axes.x(drawn.faces[rib.on + 1])
    head = min(axes.x(drawn.faces[rib.on + 1] + rib.depth), axes.x(drawn.thickness))
    if head - foot < LEAST_RIB:
        return []
    thick = min(max(rib.web * axes.unit, 1.0), (head - foot) / 2)
    half, middle = min(max(rib.web * axes.unit, 1.0), section.height / 2) / 2, section.middle[1]
    web = Box(foot, middle - half, head - thick if rib.flange else head, middle + half)
    shapes: list[Shape] = [Hatch(web, rib.material, MIDDLE)]
    if rib.flange:
        reach = min(max(rib.flange * axes.unit / 2, half), FLANGE * section.height / 2)
        flange = Box(web.right, middle - reach, head, middle + reach)
        shapes.append(Hatch(flange, rib.material, MIDDLE))
    text = Text(web.middle[0], middle - 0.95, rib.name, SMALL, REGULAR, "middle", ground=True)
    if rib.name and text.box.height + 1.0 < web.height and text.width + 3.0 < web.width:
        shapes.append(text)
    return shapes


def _sides(drawn: BuildUp, section: Box, width: float) -> list[Shape]:
    """What lies outside and inside, beside the head of the section."""
    shapes: list[Shape] = []
    top = section.top - 6.0
    for n, line in enumerate(drawn.outside):
        shapes.append(Text(0.0, top - n * leading(SMALL), line, SMALL, SEMIBOLD if n else REGULAR))
    for n, line in enumerate(drawn.inside):
        weight = SEMIBOLD if n else REGULAR
        shapes.append(Text(width, top - n * leading(SMALL), line, SMALL, weight, "end"))
    return shapes
