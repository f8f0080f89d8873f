"""In which space something lies: by the boxes of the layout, else by the words of the file."""

import re
from typing import TYPE_CHECKING

from dossier.checking.aboard import burners
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.study import Study

_BEYOND = {"outside", "above", "over", "off"}
_WITHIN = {"in", "inside", "within", "the"}


def plain(words: str) -> str:
    """Words without case, hyphens and underscores.

    >>> plain("Back-cabin step")
    'back cabin step'
    """
    return " ".join(re.findall(r"\w+", words.replace("_", " ").casefold()))


def lies_in(words: str, space: str) -> bool | None:
    """Whether words name a place in a space; None where they bear its name and more.

    >>> lies_in("wheelhouse", "engine_room")
    False
    >>> lies_in("in the engine room", "engine_room")
    True
    >>> lies_in("engine-room step", "engine_room") is None
    True
    >>> lies_in("outside the engine room", "engine_room")
    False
    """
    told, name = plain(words), plain(space)
    if not re.search(rf"\b{re.escape(name)}\b", told):
        return False
    further = set(told.replace(name, " ").split())
    if further & _BEYOND:
        return False
    return True if further <= _WITHIN else None


def names_of_spaces(project: "Project") -> tuple[str, ...]:
    """Compartments and zones by name."""
    compartments = tuple((project.layout.compartments or {}) if project.layout else ())
    return tuple(dict.fromkeys([*compartments, *(zone.id for zone in project.zones or ())]))


def space_of(study: "Study", tag: str) -> str | None:
    """Name of the space a component stands in: where its box lies, else what ``where`` says of it."""
    placement = study.placement
    if not isinstance(placement, NotAssessed):
        part = placement.parts.get(tag)
        if part is not None and part.compartment:
            return str(part.compartment)
    component = (study.project.components or {}).get(tag)
    where = component.where if component is not None else None
    if not where:
        return None
    named = [space for space in names_of_spaces(study.project) if f" {plain(space)} " in f" {plain(where)} "]
    return max(named, key=len) if named else plain(where)


def burner_spaces(study: "Study") -> tuple[str, ...]:
    """Spaces the burners stand in; empty where that of any burner is not known."""
    spaces = [space_of(study, burner.tag) for burner in burners(study.project)]
    if None in spaces:
        return ()
    return tuple(dict.fromkeys(space for space in spaces if space is not None))


def burner_place_keys(project: "Project") -> tuple[str, ...]:
    """Keys that tell in which space the burners stand."""
    tags = [burner.tag for burner in burners(project)] or ["burner"]
    return tuple(f"layout.places.{tag}" for tag in tags)
