"""Where the numbered places of the emergency card lie on the plan, as far as the file tells.

A place is told in words (``wheelhouse console``): it lies in the compartment whose name the words begin with
or hold. A part with a place of its own in the layout is marked at that point.
"""

from dossier.data.procedures import emergency_places
from dossier.project.model.entry import Answer as No
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.places import Mark, Room
from dossier.rendering.drawings.plane import Box, Point
from dossier.sizing.needs_aboard import answers_at
from dossier.sizing.spaces import compartment_boxes

ALONG, ACROSS, UP = range(3)


def rooms(draft: Draft) -> list[Room]:
    """Compartments whose corners are given."""
    return [
        Room(
            draft.named(name),
            Box(*map(float, (box.low[ALONG], box.low[ACROSS], box.high[ALONG], box.high[ACROSS]))),
            float(box.low[UP]),
        )
        for name, box in compartment_boxes(draft.project).items()
    ]


def marks(draft: Draft, compartments: list[Room]) -> list[Mark]:
    """Numbers of the places that can be shown."""
    found: list[Mark] = []
    for place in emergency_places():
        for said in _told(draft, place.number):
            at = _point(draft, said)
            room = "" if at else room_named(said, [each.name for each in compartments])
            mark = Mark(str(place.number), at, room)
            if (at or room) and mark not in found:
                found.append(mark)
    return found


PLACES = {
    1: ("safety", "stop", "at"),
    3: ("electrics", "circuits", "isolator"),
    4: ("safety", "extinguishers", "at"),
    5: ("safety", "fire_port", "at"),
    6: ("safety", "co_alarms", "at"),
}
SHUT_OFF = 2


def _told(draft: Draft, number: int) -> list[str]:
    """What the file says about a place: words, or a tag."""
    if number == SHUT_OFF:
        return _shut_off(draft)
    answers = answers_at(draft.project, list(PLACES[number]))
    return [str(answer) for answer in answers if answer and not isinstance(answer, No)]


def _shut_off(draft: Draft) -> list[str]:
    """Where the shut-off at the tank is worked from, else its tag."""
    fuel = draft.project.fuel
    tag = fuel.shut_off if fuel else None
    if not tag:
        return []
    valve = (draft.project.components or {}).get(str(tag))
    return [getattr(valve, "operated_from", None) or str(tag)]


def _point(draft: Draft, tag: str) -> Point | None:
    """Middle of a part that has a place in the layout."""
    place = ((draft.project.layout.places if draft.project.layout else None) or {}).get(tag)
    if place is None or place.at is None:
        return None
    size = place.size or (0.0, 0.0, 0.0)
    along, across = (float(place.at[n]) + float(size[n]) / 2 for n in (ALONG, ACROSS))
    return along, across


def room_named(said: str, names: list[str]) -> str:
    """The room that some words tell, the longest name of several; empty where they tell none.

    >>> room_named("back-cabin step", ["cabin", "back cabin", "saloon"])
    'back cabin'
    """
    plain = _plain(said)
    told = [name for name in names if f" {_plain(name)} " in f" {plain} "]
    return max(told, key=len, default="")


def _plain(said: str) -> str:
    return " ".join(said.casefold().replace("-", " ").replace("_", " ").split())
