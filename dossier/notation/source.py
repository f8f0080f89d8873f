"""The publication a formula, a table or a limit rests on."""

from dataclasses import dataclass
from enum import Enum


class Standing(str, Enum):
    """How well the source is known to us; printed with it."""

    SEEN = "seen"
    FROM_MEMORY = "from memory"
    PRACTICE = "common practice, no source"
    OWN = "rule of this dossier"

    def __str__(self) -> str:
        return self.value


@dataclass(frozen=True, slots=True)
class Source:
    """A publication with edition and clause, or common practice, and whether we saw the text."""

    title: str
    clause: str = ""
    standing: Standing = Standing.SEEN

    def __str__(self) -> str:
        name = f"{self.title}, {self.clause}" if self.clause else self.title
        return f"{name} ({self.standing})" if self.standing is Standing.FROM_MEMORY else name


PRACTICE = Source("common practice, no source", standing=Standing.PRACTICE)
ARITHMETIC = Source("arithmetic", standing=Standing.OWN)
