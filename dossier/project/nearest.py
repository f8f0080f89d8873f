"""The nearest known word to a misspelt one."""

from collections.abc import Iterable
from difflib import get_close_matches
from itertools import islice

LONGEST = 40
MOST_KNOWN = 400
SHORTEST = 3


def nearest(word: str, known: Iterable[str]) -> str:
    """Known word nearest to the given one, empty if none is near.

    >>> nearest("lenght", ["length", "beam"])
    'length'
    """
    choices = list(islice(known, MOST_KNOWN))
    folded = {choice.casefold().replace(" ", "_"): choice for choice in reversed(choices)}
    asked = word[:LONGEST].casefold().replace(" ", "_").replace("-", "_")
    if asked in folded:
        return folded[asked]
    begun = [choice for choice in folded if len(asked) >= SHORTEST and choice.startswith(asked)]
    if len(begun) == 1:
        return folded[begun[0]]
    found = get_close_matches(asked, [choice for choice in folded if len(choice) <= LONGEST], 1, 0.65)
    return folded[found[0]] if found else ""


def listed(known: Iterable[str], most: int = 6) -> str:
    """Known words in a row, cut where they are many."""
    choices = list(islice(known, most + 1))
    return ", ".join(choices[:most]) + (" …" if len(choices) > most else "")
