"""Words that checks and calculations have made, in the language of the pages.

They are made in English, from words of ours and words of the user. What the user wrote stays as it is.
"""

import re
from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING

from dossier.project.model.entry import Entry
from dossier.rendering.language import ENGLISH
from dossier.rendering.words import Words

if TYPE_CHECKING:
    from dossier.project import Project

_BETWEEN = re.compile(r"(, |; |: )")
_WORD = re.compile(r"[^\W\d_]{3}")


class Spoken:
    """Says in one language what was made in English about one project."""

    def __init__(self, words: Words, project: "Project") -> None:
        self.words, self.project = words, project

    def __call__(self, made: str) -> str | None:
        """Words made by a check as the pages say them; None where the language has no words for them.

        They are looked for as a whole, then in the parts that commas part. What the file holds, tags and
        units are nobody's language.
        """
        if self.words.language == ENGLISH:
            return self.words.told(made)
        whole = self._part(made)
        if whole is not None:
            return whole
        said = [piece if _BETWEEN.fullmatch(piece) else self._part(piece) for piece in _BETWEEN.split(made)]
        return None if None in said else "".join(piece or "" for piece in said)

    def _part(self, made: str) -> str | None:
        if made in self._users or not _WORD.search(made):
            return self.words.phrase(made, with_gaps=False) or self.words.style.figure(made)
        return self.words.phrase(made)

    @cached_property
    def _users(self) -> frozenset[str]:
        """Every word that the user wrote: names and free texts."""
        return frozenset(users_words(self.project))


def users_words(held: object) -> Iterator[str]:
    """Every text that the user wrote in a project or a part of it, names in lists too."""
    if isinstance(held, str):
        yield str(held)
    elif isinstance(held, Entry):
        for name in type(held).model_fields:
            yield from users_words(getattr(held, name))
    elif isinstance(held, dict):
        for name, inner in held.items():
            yield name
            yield from users_words(inner)
    elif isinstance(held, tuple | list):
        for inner in held:
            yield from users_words(inner)
