"""Checks one by one, for whoever goes over them aboard with tape and lamp."""

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.rendering.text import Text


@dataclass(frozen=True, slots=True)
class Check:
    """One check with its answer; severity and status as the checks name them.

    ``notes`` are small lines over the whole width: limit in words, its source, the data, remarks; the
    question stands before them. ``key`` makes the row a place to lead to.
    """

    number: str
    severity: str
    status: str
    title: Text
    question: Text
    found: Text
    limit: Text
    margin: Text
    found_note: Text = ""
    notes: Sequence[Text] = ()
    key: str = ""


@dataclass(frozen=True, slots=True)
class ChecksTable:
    """Checks in the order given, each with a box to tick and a line to write on."""

    checks: Sequence[Check]
    caption: Text = ""
    key: str = ""
