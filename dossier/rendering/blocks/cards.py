"""The laminated card: what to do in the first minute, on one leaf."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from dossier.rendering.blocks.figures import Drawable
from dossier.rendering.text import Text


@dataclass(frozen=True, slots=True)
class CardBand:
    """A black band: the emergency, and how it shows."""

    title: Text
    below: Text = ""


@dataclass(frozen=True, slots=True)
class CardSteps:
    """What to do, in this order."""

    items: Sequence[Text]


@dataclass(frozen=True, slots=True)
class CardTopic:
    """A lesser emergency under a rule: its name and two lines."""

    title: Text
    text: Text = ""


@dataclass(frozen=True, slots=True)
class CardFigure:
    """A small plan."""

    drawing: Drawable
    alt: str


@dataclass(frozen=True, slots=True)
class CardPlaces:
    """Numbered places in two columns: number, what, where.

    Where that is not known stands an empty box with ``unknown`` in it.
    """

    places: Sequence[tuple[str, Text, Text]]
    unknown: Text


@dataclass(frozen=True, slots=True)
class CardLine:
    """A closing line under a rule."""

    text: Text


CardPart: TypeAlias = CardBand | CardSteps | CardTopic | CardFigure | CardPlaces | CardLine


@dataclass(frozen=True, slots=True)
class CardFace:
    """One face of the card."""

    parts: Sequence[CardPart]


@dataclass(frozen=True, slots=True)
class Card:
    """A leaf of two faces with holes; on A5 each face is a sheet.

    What two faces do not hold in letters of 14 points goes on further faces. With a ``number`` it counts as a
    section of its own in the contents.
    """

    front: CardFace
    back: CardFace
    title: Text
    key: str
    number: str = ""
