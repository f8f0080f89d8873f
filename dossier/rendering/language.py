"""A language of the pages: how it writes numbers, which editions it has, and what it says for our tables.

A language is a folder of templates. Besides the templates it holds ``language.csv``, a setting a row, and in
``texts`` tables of two columns: a text as our own tables and checks have it, in English, and what the
language says for it. A text bears no key but itself: where the English one changes, its translation no
longer counts, so that no page tells the crew what is no longer meant.

In ``texts/phrases.csv`` a name in braces stands for what a check fills in, most often the user's own words:
``worked from {place}``.
"""

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from dossier.data.wording import pieces
from dossier.notation import PageFault

ENGLISH = "en"
"""The language our tables and checks are written in."""
_LETTER = re.compile(r"[^\W\d_]")
_FIGURE = re.compile(r"\d+(?:\.\d+)?(?:[ \u00a0]\D{1,5})?")
SETTINGS, TEXTS, PHRASES, UNITS = "language.csv", "texts", "phrases", "units"


@dataclass(frozen=True)
class Style:
    """How a language writes a number: its marks, and its words for units that are words."""

    decimal: str = "."
    thousands: str = ","
    units: Mapping[str, str] = field(default_factory=dict)

    def marked(self, written: str) -> str:
        """A number written with point and comma, with the marks of the language.

        >>> Style(",", " ").marked("1,234.5")
        '1 234,5'
        """
        return written.translate({ord("."): self.decimal, ord(","): self.thousands})

    def figure(self, text: str) -> str:
        """A text that is one figure, with or without its unit, with the marks of the language; else as it is.

        >>> Style(",", " ").figure("7.5 A"), Style(",", " ").figure("V7.5")
        ('7,5 A', 'V7.5')
        """
        return self.marked(text) if _FIGURE.fullmatch(text) else text


def _rows(file: Path, columns: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Two columns of a table; lines that start with ``#`` are remarks."""
    with file.open(encoding="utf-8", newline="") as opened:
        table = csv.DictReader(line for line in opened if not line.startswith("#"))
        if list(table.fieldnames or ()) != list(columns):
            raise PageFault(f"{file.parent.name}/{file.name}: the columns are to be {', '.join(columns)}")
        for row in table:
            first, second = (row[column] for column in columns)
            place = f"{file.parent.name}/{file.name}, line {table.line_num}"
            if None in row:
                raise PageFault(f"{place}: a text that holds a comma stands in quotes")
            if not first or not second:
                raise PageFault(f"{place}: a cell is empty")
            yield first, second


@dataclass(frozen=True)
class Language:
    """What the folders of a language say, the first before the others."""

    code: str
    settings: Mapping[str, str]
    tables: Mapping[str, Mapping[str, str]]
    texts: Mapping[str, str]

    @property
    def editions(self) -> tuple[str, ...]:
        """Editions of which the language has every word."""
        return _editions(self.settings)

    @property
    def style(self) -> Style:
        """How it writes numbers."""
        given = {name: self.settings[name] for name in ("decimal", "thousands") if name in self.settings}
        return Style(**given, units=self.tables.get(UNITS, {}))

    def told(self, english: str) -> str | None:
        """What it says for a text of our tables; None where it has no words for it.

        A text of names in braces alone holds no words.
        """
        said = self.texts.get(english)
        wordless = said is None and not any(_LETTER.search(text) for text, _ in pieces(english))
        return english if wordless or (said is None and self.code == ENGLISH) else said

    def phrase(self, english: str) -> str | None:
        """What it says for a text that a check has made, what was filled in left as it is."""
        said = self.told(english)
        if said is not None:
            return said
        for pattern, words in _patterns(tuple(self.tables.get(PHRASES, {}).items())):
            found = pattern.fullmatch(english)
            if found is not None:
                return "".join(
                    text + (self.style.figure(found[name]) if name else "") for text, name in pieces(words)
                )
        return None


def _editions(settings: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(settings.get("editions", "").split())


@cache
def _patterns(phrases: tuple[tuple[str, str], ...]) -> tuple[tuple[re.Pattern[str], str], ...]:
    """Phrases with gaps, the longest first, so that the closest one speaks."""
    found = []
    for english, words in sorted(phrases, key=lambda pair: -len(pair[0])):
        if "{" in english:
            made = "".join(
                re.escape(text) + (f"(?P<{name}>.+)" if name else "") for text, name in pieces(english)
            )
            found.append((re.compile(made), words))
    return tuple(found)


@cache
def read_language(code: str, folders: tuple[Path, ...]) -> Language:
    """The language of some folders, the first before the others.

    Raises PageFault where a table is not laid out as it should be.
    """
    tables: dict[str, dict[str, str]] = {}
    for folder in reversed(folders):
        for file in sorted((folder / TEXTS).glob("*.csv")):
            tables.setdefault(file.stem, {}).update(_rows(file, ("english", "told")))
    texts = {english: told for table in tables.values() for english, told in table.items()}
    return Language(code, _settings(folders), tables, texts)


@cache
def _settings(folders: tuple[Path, ...]) -> Mapping[str, str]:
    """Settings of a language, the first folder before the others."""
    settings: dict[str, str] = {}
    for folder in reversed(folders):
        if (folder / SETTINGS).is_file():
            settings.update(_rows(folder / SETTINGS, ("setting", "value")))
    return settings


def editions_by_language(homes: Sequence[Path]) -> Mapping[str, tuple[str, ...]]:
    """The editions of each language; ``homes`` are folders of languages, the first before the others."""
    found = sorted({folder.name for home in homes for folder in home.iterdir() if folder.is_dir()})
    return {
        code: _editions(_settings(tuple(h / code for h in homes if (h / code).is_dir()))) for code in found
    }
