"""What people fill in: boxes, signatures, hold points, test sheets, the head of a work package."""

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.rendering.blocks.tables import Table
from dossier.rendering.text import Text


@dataclass(frozen=True, slots=True)
class FormBox:
    """An 8 mm box with its label and what is expected above it.

    ``field`` is its name in the electronic form; ``entered`` is printed in it.
    """

    label: Text
    expected: Text = ""
    unit: str = ""
    field: str = ""
    entered: str = ""


@dataclass(frozen=True, slots=True)
class FormRow:
    """Boxes side by side."""

    boxes: Sequence[FormBox]


@dataclass(frozen=True, slots=True)
class Signatures:
    """Lines to sign on, each with who signs under it, and one for the date."""

    names: Sequence[Text]


@dataclass(frozen=True, slots=True)
class WritingLines:
    """Ruled lines to write on."""

    count: int
    label: Text = ""


@dataclass(frozen=True, slots=True)
class FormSheet:
    """A sheet to fill in on a page of its own: label and title, how it is done, table with boxes, signatures.

    The table's cells may be ``Blank`` and ``Tick``. It counts as a heading of level 2 without a number.
    """

    label: Text
    title: Text
    key: str
    table: Table
    instruction: Text = ""
    facts: Sequence[tuple[Text, Text]] = ()
    signatures: Sequence[Text] = ()


@dataclass(frozen=True, slots=True)
class HoldBar:
    """A hold point: work stops until it is signed. ``label`` is "Hold 1"."""

    label: Text
    when: Text
    seen: Text
    signatures: Sequence[Text]
    key: str = ""


@dataclass(frozen=True, slots=True)
class PackageHead:
    """The head of a work package on a new sheet with a column for pencil: label, title, three facts."""

    label: Text
    title: Text
    facts: Sequence[tuple[Text, Text]]
    key: str
