"""The document model: what a section yields, and all it needs to know of pages.

A section is a generator of frozen blocks. It names headings, sentences, tables, figures, panels and forms;
where they stand, which number they bear and how they break over pages is the business of ``layout``.
Words come as ``str`` (always plain text) or ``Markup``; numbers come as strings from ``numbers``. Lengths
that an author gives are millimetres; lengths of a ``Drawable`` are points.

Read ``prose``, ``tables``, ``figures``, ``forms``, ``sheets``, ``cards``.
"""

from typing import TypeAlias

from dossier.rendering.blocks.cards import (
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
from dossier.rendering.blocks.checks import Check, ChecksTable
from dossier.rendering.blocks.figures import Drawable, Figure, Pair, Side
from dossier.rendering.blocks.forms import (
    FormBox,
    FormRow,
    FormSheet,
    HoldBar,
    PackageHead,
    Signatures,
    WritingLines,
)
from dossier.rendering.blocks.prose import (
    Anchor,
    Answer,
    Bullets,
    Contents,
    FormulaLine,
    Gathered,
    Heading,
    Listing,
    Note,
    Panel,
    Paragraph,
    SideNote,
    SignalWord,
    Steps,
    StopRule,
    Together,
    TwoColumns,
    Wide,
)
from dossier.rendering.blocks.sheets import (
    Attachment,
    DocumentTitle,
    DrawingSheet,
    Imprint,
    NewSheet,
    Outer,
    PageBreak,
    TitleBlock,
)
from dossier.rendering.blocks.tables import (
    Align,
    Blank,
    Cell,
    Column,
    Finding,
    FindingsTable,
    KeyFigures,
    Span,
    Table,
    Tick,
)

Block: TypeAlias = (
    Anchor
    | Answer
    | Bullets
    | Card
    | ChecksTable
    | Contents
    | DocumentTitle
    | DrawingSheet
    | Figure
    | FindingsTable
    | FormRow
    | FormSheet
    | FormulaLine
    | Gathered
    | Heading
    | HoldBar
    | KeyFigures
    | Listing
    | NewSheet
    | Note
    | PackageHead
    | PageBreak
    | Pair
    | Panel
    | Paragraph
    | Side
    | SideNote
    | Signatures
    | Steps
    | StopRule
    | Table
    | TitleBlock
    | Together
    | TwoColumns
    | Wide
    | WritingLines
)
"""Whatever a section may yield."""

__all__ = [
    "Align",
    "Anchor",
    "Answer",
    "Attachment",
    "Blank",
    "Block",
    "Bullets",
    "Card",
    "CardBand",
    "CardFace",
    "CardFigure",
    "CardLine",
    "CardPart",
    "CardPlaces",
    "CardSteps",
    "CardTopic",
    "Cell",
    "Check",
    "ChecksTable",
    "Column",
    "Contents",
    "DocumentTitle",
    "Drawable",
    "DrawingSheet",
    "Figure",
    "Finding",
    "FindingsTable",
    "FormBox",
    "FormRow",
    "FormSheet",
    "FormulaLine",
    "Gathered",
    "Heading",
    "HoldBar",
    "Imprint",
    "KeyFigures",
    "Listing",
    "NewSheet",
    "Note",
    "Outer",
    "PackageHead",
    "PageBreak",
    "Pair",
    "Panel",
    "Paragraph",
    "Side",
    "SideNote",
    "SignalWord",
    "Signatures",
    "Span",
    "Steps",
    "StopRule",
    "Table",
    "Tick",
    "TitleBlock",
    "Together",
    "TwoColumns",
    "Wide",
    "WritingLines",
]
