"""Questions that lead to a first project file, and what is guessed until somebody measures."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from dossier.data.tables import rows
from dossier.notation.records import dataclass

FOLDER = Path(__file__).parent


@dataclass(frozen=True)
class Question:
    """One question: how its answer is read, what may be chosen, what an empty answer means."""

    name: str
    question: str
    hint: str
    kind: str
    unit: str
    choices: tuple[str, ...]
    otherwise: str


@dataclass(frozen=True)
class Guess:
    """What stands in the file until it is measured, with its spread and source."""

    value: str
    spread: str
    source: str


@cache
def questions() -> tuple[Question, ...]:
    """The questions in their order."""
    return tuple(
        Question(**{**row, "choices": tuple(row["choices"].split())})  # type: ignore[arg-type]  # the rest are texts
        for row in rows("first_questions")
    )


@cache
def _guesses() -> Mapping[tuple[str, str], Guess]:
    return {
        (row["name"], row["of"]): Guess(row["value"], row["spread"], row["source"])
        for row in rows("first_guesses")
    }


def guess(name: str, of: str = "") -> Guess | None:
    """The guess of a name for an answer, None where nothing is guessed."""
    return _guesses().get((name, of))


@cache
def template(name: str) -> str:
    """A template of the first file."""
    return (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
