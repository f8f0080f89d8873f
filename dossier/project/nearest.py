"""The nearest known word to a misspelt one."""

from collections.abc import Iterable
from difflib import get_close_matches
from itertools import islice

LONGEST = 40
LONGEST_DOTTED = 120
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


def near_names(name: str, known: Iterable[str], most: int = 5) -> list[str]:
    """Dotted names that may be meant by one that nobody knows: those like it, then those that hold its parts.

    >>> near_names("heat_los.total", ["heat_loss.total", "heat_loss.zone.saloon", "exhaust.length"])
    ['heat_loss.total']
    """
    asked = name[:LONGEST_DOTTED].casefold()
    folded = {other.casefold(): other for other in known}
    like = get_close_matches(asked, folded, most, 0.75)
    parts = [part for part in asked.replace(".", " ").split() if len(part) >= SHORTEST]
    holding = [other for other in folded if parts and all(part in other for part in parts)]
    last = [other for other in folded if parts and parts[-1] in other.rpartition(".")[2]]
    found = [folded[other] for other in dict.fromkeys([*like, *sorted(holding, key=len), *last])]
    return found[:most]


def listed(known: Iterable[str], most: int = 6) -> str:
    """Known words in a row, cut where they are many."""
    choices = list(islice(known, most + 1))
    return ", ".join(choices[:most]) + (" …" if len(choices) > most else "")
