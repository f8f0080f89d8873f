"""Section 0: the emergency card, one leaf for anybody aboard: what to do in the first minute."""

from collections.abc import Iterator, Sequence

from dossier.data.procedures import CardStep, EmergencyCard, EmergencyPlace, emergency_cards, emergency_places
from dossier.data.wording import placeholders, places_in, wanted
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import (
    Block,
    Card,
    CardBand,
    CardFace,
    CardFigure,
    CardLine,
    CardPart,
    CardPlaces,
    CardSteps,
    CardTopic,
)
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.places import places_plan
from dossier.rendering.filling import Filling, worded
from dossier.rendering.layout.leaf import BINDING, EDGE
from dossier.rendering.layout.measures import MM, paper_size
from dossier.rendering.sections.emergency_places import marks, rooms
from dossier.rendering.text import Text, dotted, own, page_of, strong, text, writing_line
from dossier.sizing.needs_aboard import answers_at, needs_met

RESTART = "procedure_after_damage"
"""Key of the procedure after grounding, flooding or a leak."""


def section(draft: Draft) -> Iterator[Block]:
    """Front: gas and fire. Back: the lesser emergencies, the plan, the places, the restart."""
    said = _Said(draft)
    front = [part for card in emergency_cards() if card.side == "front" for part in said.band(card)]
    back: list[CardPart] = [*said.topics(), *said.places(), *said.closing()]
    title = draft.words("emergency_card.title")
    yield Card(CardFace(front), CardFace(back), title, "emergency_card", number="0")


MARKED = {
    "mark_stop": "1",
    "mark_fuel": "2",
    "mark_isolator": "3",
    "mark_extinguisher": "4",
    "mark_fire_port": "5",
}
"""Numbers of the places, by the names under which the words of the card speak of them."""


class _Said:
    """The words of the card for one boat."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.words = draft, draft.words
        self.filling, self.met = Filling(draft), needs_met(draft.project)
        self.references: dict[str, Text] = {name: dotted(number) for name, number in MARKED.items()}
        self.references |= {"page_of_restart": page_of(RESTART), "position": writing_line()}

    def _steps(self, card: EmergencyCard) -> list[Text]:
        return [self._step(step) for step in card.steps if wanted(step.needs, self.met)]

    def _step(self, step: CardStep) -> Text:
        lead, rest = (worded(part, self.filling, self.references) for part in (step.lead, step.text))
        between = own(" ") if step.lead and step.text else ""
        return text(strong(lead), between, rest)

    def band(self, card: EmergencyCard) -> Iterator[CardPart]:
        """An emergency of the front: its band, its steps."""
        yield CardBand(own(self.words.told(card.title)), own(self.words.told(card.shows)))
        yield CardSteps(self._steps(card))

    def topics(self) -> Iterator[CardPart]:
        """The emergencies of the back, each in a few lines."""
        for card in emergency_cards():
            if card.side == "back" and card.id != "restart":
                steps = self._steps(card)
                if steps:
                    yield CardTopic(own(self.words.told(card.title)), _sentences(steps))

    def places(self) -> Iterator[CardPart]:
        """The plan, and the list of the numbered places."""
        words, vessel = self.words, self.draft.project.vessel
        compartments = rooms(self.draft)
        shown = marks(self.draft, compartments)
        drawn = places_plan(
            vessel.length if vessel else None,
            vessel.beam if vessel else None,
            compartments,
            shown,
            _face_width(self.draft),
            "" if compartments else str(words("emergency_card.write_on_plan")),
        )
        on_plan = list(dict.fromkeys(mark.number for mark in shown))
        alt = words("emergency_card.alt", numbers=", ".join(on_plan)) if on_plan else ""
        yield CardFigure(drawn, str(alt or words("emergency_card.alt_none")))
        yield CardPlaces(
            [
                (str(place.number), own(words.told(place.what)), self._where(place))
                for place in emergency_places()
            ],
            words("emergency_card.write_the_place"),
        )

    def _where(self, place: EmergencyPlace) -> Text:
        """Where it is; empty where nobody said."""
        (name,) = places_in(place.place)
        path = placeholders()[name].filled_from.split(".")
        for depth in range(1, len(path) + 1):
            answers = list(answers_at(self.draft.project, path[:depth]))
            if answers and all(isinstance(answer, No) or answer == () for answer in answers):
                return strong(self.words("emergency_card.none_aboard"))
        return self.filling[name]

    def closing(self) -> Iterator[CardPart]:
        """What must be done before anybody restarts."""
        for card in emergency_cards():
            if card.id == "restart":
                yield CardLine(
                    text(strong(own(self.words.told(card.title))), own(": "), _sentences(self._steps(card)))
                )


def _face_width(draft: Draft) -> float:
    """Room for a drawing on a face, in millimetres."""
    narrow = draft.paper == "A5"
    width, _ = paper_size(draft.paper, landscape=not narrow)
    return ((width if narrow else width / 2) - BINDING - EDGE) / MM


def _sentences(steps: Sequence[Text]) -> Text:
    parts: list[Text] = []
    for step in steps:
        if parts:
            parts.append(own(" "))
        parts.append(step)
    return text(*parts)
