"""What was read at a test, as the file has it, and whether it is as expected."""

from dataclasses import dataclass
from typing import Any

from dossier.checking.signatures import is_signed
from dossier.checking.stated import stated
from dossier.data.commissioning import SheetLine
from dossier.project.model.entry import Answer
from dossier.rendering.blocks import Blank
from dossier.rendering.draft import Draft
from dossier.rendering.sections.records_expected import Expected

DATE = "commissioning.date"
SIGNED, TAGS, METERS = "commissioning.signed", "commissioning.tags_seen", "commissioning.instruments"
INSIDE, OUTSIDE = "commissioning.co.highest_inside", "commissioning.co.outside"
LEAKS = "commissioning.exhaust_leak"
ON_PAPER = frozenset({SIGNED, METERS})
"""Keys that hold more than a box does."""
FIRST_HOLDS = (1, 2, 3)
"""Hold points that are signed before the circuit is filled."""


@dataclass(frozen=True)
class Reading:
    """What was read: as printed; ``fits`` tells whether it is as expected, None where nothing bounds it."""

    entered: str
    fits: bool | None = None
    figure: bool = False


class Readings:
    """Readings of one draft."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.project, self.words = draft, draft.project, draft.words

    def of(self, line: SheetLine, expected: Expected, key: str = "") -> Reading | None:
        """What the file has under the key of a line, or under another; None where it is silent."""
        key = key or line.key
        answer = stated(self.project, key) if key else None
        if answer is None:
            return None
        listed = {SIGNED: self._signed, TAGS: self._tags, METERS: self._meters}.get(key)
        if listed is not None:
            return listed(answer)
        if isinstance(answer, float):
            return self._figure(line, expected, key, answer)
        return self._words(line, answer)

    def _words(self, line: SheetLine, answer: Any) -> Reading:
        if isinstance(answer, bool):
            return Reading(str(self.words(f"records.{'yes' if answer else 'no'}")), answer)
        if isinstance(answer, Answer):
            return Reading(str(self.words("records.none")), fits=True)
        leaks = line.key.startswith(LEAKS)
        return Reading(str(answer), False if leaks else None)

    def _figure(self, line: SheetLine, expected: Expected, key: str, answer: float) -> Reading:
        fits = expected.holds(answer)
        outside = stated(self.project, OUTSIDE)
        if key == INSIDE and outside is not None and answer > outside:
            fits = False
        return Reading(self.draft.said(answer, line.shown), fits, figure=True)

    def _signed(self, _answer: Any) -> Reading | None:
        done = [number for number in FIRST_HOLDS if is_signed(self.project, number)]
        if not done:
            return None
        numbers = ", ".join(map(str, done))
        return Reading(str(self.words("records.holds_signed", holds=numbers)), len(done) == len(FIRST_HOLDS))

    def _tags(self, seen: tuple[str, ...]) -> Reading:
        tags = tuple(self.project.components or {})
        found = sum(tag in seen for tag in tags)
        return Reading(str(self.words("records.tags_seen", seen=found, tags=len(tags))), found == len(tags))

    def _meters(self, instruments: tuple[Any, ...]) -> Reading | None:
        named = [
            ", ".join(str(part) for part in (one.serial, one.calibrated) if part)
            for one in instruments
            if one.for_ == "co"
        ]
        return Reading("; ".join(named)) if any(named) else None

    def box(self, line: SheetLine, expected: Expected, key: str = "", unit: str = "") -> Blank:
        """The box of a line: empty with its field, or with the reading, its date and how it compares."""
        reading = self.of(line, expected, key)
        field = key or line.key
        if reading is None:
            return Blank(unit, "" if field in ON_PAPER else field)
        date = stated(self.project, DATE)
        return Blank(
            entered=reading.entered,
            below=str(self.words(f"records.{self._verdict(reading)}", date=str(date or ""))),
            marked=reading.fits is False,
        )

    @staticmethod
    def _verdict(reading: Reading) -> str:
        if reading.fits is None:
            return "read"
        fits = "within" if reading.figure else "as_expected"
        misses = "outside" if reading.figure else "not_as_expected"
        return f"read_{fits if reading.fits else misses}"
