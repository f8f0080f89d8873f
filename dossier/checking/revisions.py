"""Are the marks and dates of the revisions in order?"""

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dossier.project.model import Date, Revision


def rank(mark: str) -> tuple[int, int, str]:
    """Order of a mark: numbers by their size, letters as they are counted (Z before AA).

    >>> sorted(["AA", "B", "10", "2"], key=rank)
    ['2', '10', 'B', 'AA']
    """
    text = mark.strip()
    return (0, int(text), "") if text.isdecimal() else (1, len(text), text.casefold())


def order_of_marks(listed: "Sequence[Revision]", mark: str | None, date: "Date | None") -> str:
    """What is wrong with the order of revisions, empty where nothing is; the last is the document's own."""
    for before, after in pairwise(listed):
        if before.mark and after.mark and rank(before.mark) >= rank(after.mark):
            return f"mark {after.mark} follows {before.mark}"
        if before.date is not None and after.date is not None and before.date.first > after.date.last:
            return f"revision {after.mark} is dated before {before.mark}"
    if not listed:
        return ""
    last = listed[-1]
    if mark and last.mark and last.mark.strip() != mark.strip():
        return f"the last revision listed is {last.mark}, the document's is {mark}"
    if (
        date is not None
        and last.date is not None
        and (last.date.first, last.date.last) != (date.first, date.last)
    ):
        return f"revision {last.mark} is dated {last.date}, the document {date}"
    return ""
