"""Build-ups on drawing sheets: two sections abreast in rows, each with its name and scale over it."""

from dataclasses import dataclass

from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, folded, leading
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plate import Furniture, laid_round
from dossier.rendering.drawings.scales import scale_bar
from dossier.rendering.drawings.shapes import Drawing, Shape, Text
from dossier.rendering.drawings.sheet import Form

GUTTER, BETWEEN = 7.0, 5.0
CAPTION = 13.5
ABREAST = 2
BAR = 28.0  # longest scale bar


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
    """As many sheets as it takes, on each the rows of two sections that it holds."""
    furniture = laid_round(form, [])
    width = section_width(form)
    rows = [sections[first : first + ABREAST] for first in range(0, len(sections), ABREAST)]
    made: list[list[tuple[Section, ...]]] = []
    left = 0.0
    for row in rows:
        high = _height(row)
        if not made or high > left:
            made.append([])
            left = furniture.free.height
        made[-1].append(row)
        left -= high + BETWEEN
    return tuple(_sheet(rows_of_sheet, form, furniture, width) for rows_of_sheet in made)


def _height(row: tuple[Section, ...]) -> float:
    return CAPTION + max(section.drawing.size[1] for section in row)


def _sheet(rows: list[tuple[Section, ...]], form: Form, furniture: Furniture, width: float) -> Drawing:
    free = furniture.free
    shapes: list[Shape] = []
    top = free.top
    for row in rows:
        for n, section in enumerate(row):
            shapes += _captioned(section, free.left + n * (width + GUTTER), top, width)
        top -= _height(row) + BETWEEN
    scales = dict.fromkeys(section.drawing.title for row in rows for section in row)
    return furniture.drawing(shapes, form.title, ", ".join(scales))


def _captioned(section: Section, left: float, top: float, width: float) -> list[Shape]:
    """A section under its name, what it is worth, and a bar of its scale."""
    name = folded(section.name, width - BAR - 12.0, CAPITALS, SEMIBOLD, 1)[0]
    worth = folded(f"{section.drawing.title} · {section.worth}", width, SMALL, most=1)[0]
    one, other = section.drawing.title.split(" : ")
    return [
        Text(left, top - 3.2, name, CAPITALS, SEMIBOLD),
        Text(left, top - 4.4 - 2 * leading(SMALL), worth, SMALL),
        *scale_bar((left + width - BAR - 6.0, top - 4.0), float(other) / float(one), BAR, fine=True),
        *(shifted(shape, left, top - CAPTION - section.drawing.size[1]) for shape in section.drawing.shapes),
    ]
