"""Build-ups on drawing sheets: two sections side by side, each with its name and scale over it."""

from dataclasses import dataclass

from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, folded, leading
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plate import Furniture, laid_round
from dossier.rendering.drawings.scales import scale_bar
from dossier.rendering.drawings.shapes import Drawing, Shape, Text
from dossier.rendering.drawings.sheet import Form

GUTTER = 9.0
CAPTION = 12.0
ABREAST = 2
BAR = 40.0  # longest scale bar


@dataclass(frozen=True, slots=True)
class Section:
    """One build-up drawn: its name, what it is worth in words, the drawing (its title is the scale)."""

    name: str
    worth: str
    drawing: Drawing


def section_width(form: Form) -> float:
    """Width of one section on a sheet, in millimetres."""
    return (laid_round(form, []).free.width - (ABREAST - 1) * GUTTER) / ABREAST


def build_up_sheets(sections: tuple[Section, ...], form: Form) -> tuple[Drawing, ...]:
    """As many sheets as it takes, two sections on each."""
    furniture = laid_round(form, [])
    width = section_width(form)
    return tuple(
        _sheet(sections[first : first + ABREAST], form, furniture, width)
        for first in range(0, len(sections), ABREAST)
    )


def _sheet(sections: tuple[Section, ...], form: Form, furniture: Furniture, width: float) -> Drawing:
    free = furniture.free
    shapes: list[Shape] = []
    for n, section in enumerate(sections):
        left = free.left + n * (width + GUTTER)
        name = folded(section.name, width - BAR - 12.0, CAPITALS, SEMIBOLD, 1)[0]
        shapes.append(Text(left, free.top - 3.2, name, CAPITALS, SEMIBOLD))
        worth = folded(f"{section.drawing.title} · {section.worth}", width - BAR - 12.0, SMALL, most=1)[0]
        shapes.append(Text(left, free.top - 3.2 - leading(CAPITALS), worth, SMALL))
        one, other = section.drawing.title.split(" : ")
        at = (left + width - BAR - 6.0, free.top - 4.0)
        shapes += scale_bar(at, float(other) / float(one), BAR, fine=True)
        below = free.top - CAPTION - section.drawing.size[1]
        shapes += [shifted(shape, left, below) for shape in section.drawing.shapes]
    scales = dict.fromkeys(section.drawing.title for section in sections)
    return furniture.drawing(shapes, form.title, ", ".join(scales))
