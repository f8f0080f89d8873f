"""Least and greatest of several numbers, with all of them in the working and the decisive one moving it."""

from typing import Any

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import Quantity, Traced, solved


def least_of(gives: Quantity, text: str, *each: Any) -> Traced:
    """The least of several numbers; only that one moves the result."""
    return solved(
        min(map(float, each)), gives, text, HEAT_BALANCE, [(gives, x) for x in each], function=_least
    )


def greatest_of(gives: Quantity, text: str, *each: Any) -> Traced:
    """The greatest of several numbers; only that one moves the result."""
    return solved(
        max(map(float, each)), gives, text, HEAT_BALANCE, [(gives, x) for x in each], function=_greatest
    )


def _least(*each: float) -> float:
    return min(each)


def _greatest(*each: float) -> float:
    return max(each)
