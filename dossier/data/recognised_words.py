"""What a free text of the project file says, as far as a check can tell: by words of a table, or not."""

import re
from functools import cache

from dossier.data.tables import rows


@cache
def _patterns(topic: str) -> dict[str, re.Pattern[str]]:
    """One pattern for the words of each answer, the longest first."""
    found: dict[str, list[str]] = {}
    for row in rows("recognised_words"):
        if row["topic"] == topic:
            found.setdefault(row["answer"], []).append(re.escape(row["words"]).replace(r"\ ", r"[\s-]"))
    if not found:
        raise KeyError(topic)
    return {
        answer: re.compile(
            rf"(?<!\w)(?:{'|'.join(sorted(words, key=len, reverse=True))})(?:e?s)?(?!\w)", re.IGNORECASE
        )
        for answer, words in found.items()
    }


def says(topic: str, text: str) -> bool | None:
    """What a text answers to the topic's question; None where no word of the table stands in it.

    Raises ``KeyError`` for an unknown topic.

    >>> says("vapour", "diesel engine"), says("vapour", "2 gas bottles"), says("metal", "nylon")
    (None, True, False)
    """
    patterns = _patterns(topic)
    if "no" in patterns and patterns["no"].search(text.replace("_", " ")):
        return False
    return True if patterns["yes"].search(text.replace("_", " ")) else None
