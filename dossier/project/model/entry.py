"""The frozen base of all classes of the model, and the marks that tell the reader how a key is written."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Any, ClassVar, Literal, TypeAlias, TypeGuard, get_origin

from pydantic import BaseModel, ConfigDict, PrivateAttr, ValidatorFunctionWrapHandler, field_validator

from dossier.notation import Traced


class Answer(str, Enum):
    """The answer ``none``, which is not silence: what is not aboard is known not to be."""

    NONE = "none"

    def __bool__(self) -> bool:
        return False

    def __str__(self) -> str:
        return self.value


NONE = Answer.NONE
"""Where the file says ``none``; compare with ``is``. A key the file leaves out is ``None``."""

No: TypeAlias = Literal[Answer.NONE]


class Figure(Enum):
    """How a number is written, where it is not simply a figure with its unit."""

    TEMPERATURE = "a temperature"
    SHARE = "a share"
    NUMBER = "a plain number"
    COUNT = "a count"
    ANY = "a figure in the unit of its check"


TEMPERATURE = Figure.TEMPERATURE
SHARE = Figure.SHARE
NUMBER = Figure.NUMBER
COUNT = Figure.COUNT


@dataclass(frozen=True, slots=True)
class Likely:
    """Range in which such things usually lie, in SI; outside it the reader warns."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Refers:
    """A text that names something said elsewhere in the file, or in a table.

    ``to`` holds the lists it may stand in (``zone``, ``component``, ``material`` …), ``kinds`` the kinds of
    component, ``words`` what may stand there besides. With ``tags_only`` a text is checked only if it looks
    like a tag (``V20``); anything else is taken as words.
    """

    to: tuple[str, ...]
    kinds: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    tags_only: bool = False


@dataclass(frozen=True, slots=True)
class Needed:
    """A key an entry cannot do without, and what needs it."""

    by: str


class Mark(Enum):
    """Further marks of a field."""

    FROM_KEY = "filled from the key its entry stands under"
    TABLE = "may be given as a CSV file"
    FILE = "a file in the project's folder"


FROM_KEY = Mark.FROM_KEY
TABLE = Mark.TABLE
FILE = Mark.FILE


@dataclass(frozen=True, slots=True)
class Objection:
    """Something an entry says that cannot be meant, found once all its keys are read.

    ``key`` is the key to point at, empty for the entry itself. ``missing`` tells a missing input from a
    contradiction; a ``doubt`` only warns.
    """

    key: str
    what: str
    instead: str
    missing: bool = False
    doubt: bool = False


class Entry(BaseModel):
    """One mapping of the project file: a field for each key, ``None`` where the file is silent.

    Frozen. ``key`` is the path of the entry in the file (``zones.saloon``), empty if made by hand.
    """

    model_config = ConfigDict(
        extra="forbid", frozen=True, defer_build=True, populate_by_name=True, arbitrary_types_allowed=True
    )

    name_field: ClassVar[str] = "name"
    """Field that names the entry in its list."""
    named_as: ClassVar[str] = ""
    """What such an entry's name is, where names must differ: zone, section, component …"""
    example: ClassVar[str] = ""
    """How such an entry is written, for messages."""

    _key: str = PrivateAttr("")

    @property
    def key(self) -> str:
        """Path of the entry in the project file."""
        return self._key

    def objections(self) -> Iterator[Objection]:
        """Contradictions between the entry's keys."""
        return iter(())

    @field_validator("*", mode="wrap")
    @classmethod
    def _keep_origin(cls, held: Any, validate: ValidatorFunctionWrapHandler) -> Any:
        return held if isinstance(held, Traced) else validate(held)


def is_entry(annotation: object) -> TypeGuard[type[Entry]]:
    """Whether an annotation is a class of entries; to Python 3.10 ``tuple[X, ...]`` is a class too."""
    return isinstance(annotation, type) and get_origin(annotation) is None and issubclass(annotation, Entry)
