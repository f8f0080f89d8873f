"""Which space does a part stand in, and do people live there?

Compartments are boxes; one that bears the name of a zone is that zone. People live where it is heated or
where somebody sleeps, unless an engine or a burner stands there.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from dossier.data.recognised_words import says
from dossier.physics.boxes import Box, box_separation, is_inside
from dossier.physics.route import Point

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.components import Burner

OUTSIDE = "outside"


def burner_of(project: "Project") -> "Burner | None":
    """The burner the exhaust leaves; of several the largest, which asks the most of it."""
    burners: list[Any] = [c for c in (project.components or {}).values() if c.kind == "burner"]
    return max(burners, key=lambda b: b.output.max if b.output else 0.0, default=None)


def box_between(low: Point | None, high: Point | None) -> Box | None:
    """Box between two corners of the file, None where one is missing."""
    return Box(tuple(low), tuple(high)) if low and high else None  # type: ignore[arg-type]  # three of each


def compartment_boxes(project: "Project") -> Mapping[str, Box]:
    """Boxes of the compartments whose corners are both given."""
    compartments = (project.layout.compartments if project.layout else None) or {}
    boxes = {name: box_between(space.from_, space.to) for name, space in compartments.items()}
    return {name: box for name, box in boxes.items() if box is not None}


def _room(box: Box) -> float:
    long, wide, high = (float(b - a) for a, b in zip(box.low, box.high, strict=True))
    return long * wide * high


def space_at(project: "Project", point: Point) -> str | None:
    """Compartment a point lies in, the smallest of several; None where it lies in none."""
    around = [(name, box) for name, box in compartment_boxes(project).items() if is_inside(point, box)]
    return min(around, key=lambda pair: _room(pair[1]))[0] if around else None


def space_of(project: "Project", tag: str) -> str | None:
    """Compartment in which the middle of a placed part lies; None where that is not known."""
    place = ((project.layout.places if project.layout else None) or {}).get(tag)
    if place is None or place.at is None:
        return None
    size = place.size or (0.0, 0.0, 0.0)
    x, y, z = (float(at) + float(long) / 2 for at, long in zip(place.at, size, strict=True))
    return space_at(project, (x, y, z))


def burner_space(project: "Project") -> str | None:
    """Space the burner stands in: by its place, else the one it draws its air from."""
    burner = burner_of(project)
    placed = space_of(project, burner.tag) if burner else None
    if placed is not None:
        return placed
    source = project.combustion_air.from_ if project.combustion_air else None
    return None if source == OUTSIDE else source


def holds(project: "Project", space: str) -> tuple[str, ...] | None:
    """What stands or is kept in a compartment, in words; None where the file is silent."""
    compartment = ((project.layout.compartments if project.layout else None) or {}).get(space)
    return compartment.holds if compartment is not None else None


def neighbours(project: "Project", space: str) -> tuple[str, ...]:
    """Compartments that touch another one."""
    boxes = compartment_boxes(project)
    if space not in boxes:
        return ()
    return tuple(
        name for name, box in boxes.items() if name != space and box_separation(box, boxes[space]) <= 0
    )


def is_accommodation(project: "Project", space: str) -> bool | None:
    """Whether people live in a space: heated or slept in. None where the file does not tell.

    A heated engine room is none, nor is a compartment that no zone describes but whose contents are stated.
    """
    kept = holds(project, space)
    machinery = any(says("machinery", words) for words in kept or ())
    for zone in project.zones or ():
        if zone.id == space:
            return bool(zone.berths) or (zone.target is not None and not machinery)
    return None if kept is None else False
