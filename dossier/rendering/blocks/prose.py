"""Headings, sentences, lists, hazard panels, formulas and the printed project file."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from dossier.rendering.text import Text

if TYPE_CHECKING:
    from dossier.rendering.blocks import Block


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; levels 1 and 2 are numbered, level 3 is not.

    Level 1 opens a new sheet, as does any level with ``new_sheet``. ``question`` stands in italics under it.
    ``number`` fixes the number where an edition leaves out sections ("7", "6.7"); those that follow count on
    from it. ``numbered=False`` gives none. ``running`` replaces the section in the running head.
    """

    level: int
    text: Text
    key: str = ""
    question: Text = ""
    number: str = ""
    numbered: bool = True
    new_sheet: bool | None = None
    running: Text = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """The answer to the heading's question: what carries it in semibold, the rest in regular, 12 pt."""

    strong: Text
    rest: Text = ""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text."""

    text: Text


@dataclass(frozen=True, slots=True)
class Note:
    """Small text: what the reader of a table needs and nobody else."""

    text: Text


@dataclass(frozen=True, slots=True)
class SideNote:
    """A titled note under a rule, made for the outer column: Basis, Limit, Method, Feeds."""

    title: Text
    text: Text


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list without order."""

    items: Sequence[Text]


@dataclass(frozen=True, slots=True)
class Steps:
    """Numbered acts, one each; with a box to tick, and in large type where wet hands read them.

    ``start`` lets steps count on after a hold. ``fields`` names the boxes of an electronic form.
    """

    items: Sequence[Text]
    start: int = 1
    checkbox: bool = False
    large: bool = False
    fields: Sequence[str] = ()


class SignalWord(str, Enum):
    """Signal words of hazard panels, gravest first; NOTICE is not about injury."""

    DANGER = "danger"
    WARNING = "warning"
    CAUTION = "caution"
    NOTICE = "notice"


@dataclass(frozen=True, slots=True)
class Panel:
    """A hazard panel: the hazard, what happens, how to avoid it; one hazard a panel.

    ``last`` is the closing sentence that defers to the maker's instructions and local rules. ``embedded``
    sets it low, for its place right before a step.
    """

    word: SignalWord
    hazard: Text
    consequence: Text
    avoidance: Text
    last: Text = ""
    embedded: bool = False


@dataclass(frozen=True, slots=True)
class StopRule:
    """A rule at which everything stops, in a box: ``label`` is "Stop"."""

    label: Text
    text: Text


@dataclass(frozen=True, slots=True)
class FormulaLine:
    """One working: what is found, the formula in symbols, with values, the result and its source.

    ``formula`` is a formula's own text (``Φ_T = U · A · (θ_i − θ_e)``) and is typeset here. ``number`` is
    the line's number in the appendix, ``key`` makes it a place to lead to. ``more`` stands below in small
    type: further workings by the same formula.
    """

    formula: str
    values: Text = ""
    result: Text = ""
    source: Text = ""
    label: Text = ""
    number: str = ""
    key: str = ""
    more: Text = ""


@dataclass(frozen=True, slots=True)
class Listing:
    """A file as it was written, with line numbers; ``start`` is the number of the first line.

    With a key, each line is a place of its own: ``key:12``.
    """

    lines: Sequence[str]
    caption: Text = ""
    key: str = ""
    start: int = 1


@dataclass(frozen=True, slots=True)
class Contents:
    """The table of contents, down to the given level."""

    title: Text
    depth: int = 2


@dataclass(frozen=True, slots=True)
class Anchor:
    """A place without words that links and references may lead to; it bears the name given."""

    key: str
    name: Text = ""


@dataclass(frozen=True, slots=True)
class TwoColumns:
    """Blocks that run down two columns of equal width, over as many sheets as they need."""

    blocks: "Sequence[Block]"


@dataclass(frozen=True, slots=True)
class Gathered:
    """Blocks of which those that are narrow enough run down two columns; the others take the whole width.

    What is meant for the outer column stands beside a wide figure, or among the narrow ones.
    """

    blocks: "Sequence[Block]"


@dataclass(frozen=True, slots=True)
class Wide:
    """Blocks over the whole width, the outer column with it."""

    blocks: "Sequence[Block]"


@dataclass(frozen=True, slots=True)
class Together:
    """Blocks that may not be parted by the end of a sheet, as far as one sheet holds them.

    A table at their end may run on to the next sheet, unless they are to stay ``whole``.
    """

    blocks: "Sequence[Block]"
    whole: bool = False
