"""The typeface: its four cuts, how wide a text runs in them, and which characters they hold.

Text that holds a character the face lacks would print an empty box and be lost to a search. In our own
words that is a fault; in what a user wrote the character is shown by its code (``[U+4E2D]``).
"""

import re
import unicodedata
from functools import cache, lru_cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from dossier.notation import PageFault

FOLDER = Path(__file__).parent / "fonts"
FAMILY = "SourceSans3"
REGULAR, STRONG, HEAVY, ITALIC = FAMILY, f"{FAMILY}-Semibold", f"{FAMILY}-Bold", f"{FAMILY}-It"
FILES = {
    REGULAR: "SourceSans3-Regular.ttf",
    STRONG: "SourceSans3-Semibold.ttf",
    HEAVY: "SourceSans3-Bold.ttf",
    ITALIC: "SourceSans3-It.ttf",
}
CAPITALS = 0.66  # height of capitals, of the size
DESCENT = 0.21  # depth of descenders under the baseline, of the size

_UNSEEN = dict.fromkeys(map(ord, "\u00ad\u200b\u2060\ufeff"))  # break marks that print nothing
_SPACES = re.compile(r"[ \t\r\n\v\f\x1c-\x1f\x85\u2028\u2029]+")


@cache
def font(name: str) -> TTFont:
    """The font of a cut, registered on first use under its name."""
    if name not in pdfmetrics.getRegisteredFontNames():
        try:
            pdfmetrics.registerFont(TTFont(name, str(FOLDER / FILES[name])))
        except TTFError as error:
            raise PageFault(
                f"the font {FILES[name]} is missing or damaged: install the program anew"
            ) from error
    return pdfmetrics.getFont(name)


def register() -> None:
    """Register all four cuts; raises PageFault where two would be taken for one by the PDF's readers."""
    inner = [font(name).face.name for name in FILES]
    if len(set(inner)) < len(inner):
        raise PageFault("two font files bear the same inner name, and text in the second would be lost")


@cache
def characters() -> frozenset[int]:
    """Code points that all four cuts hold."""
    return frozenset.intersection(*(frozenset(font(name).face.charToGlyph) for name in FILES))


class _Widths(dict[str, float]):
    """Widths of the characters of a font, in thousandths of its size, each read from it once."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.face = font(name).face

    def __missing__(self, letter: str) -> float:
        code = 32 if letter == "\u00a0" else ord(letter)
        self[letter] = self.face.charWidths.get(code, self.face.defaultWidth)
        return self[letter]


@cache
def _widths(name: str) -> _Widths:
    return _Widths(name)


@lru_cache(maxsize=100_000)
def width(text: str, name: str, size: float) -> float:
    """Width of a text in points; it is the same words that are asked for again and again."""
    return float(sum(map(_widths(name).__getitem__, text))) / 1000 * size


def cut(text: str, name: str, size: float, room: float) -> str:
    """A text that runs no wider than ``room``, its end an ellipsis where it had to be cut."""
    if width(text, name, size) <= room:
        return text
    while text and width(f"{text}…", name, size) > room:
        text = text[:-1]
    return f"{text.rstrip()}…"


def lacking(text: str) -> list[str]:
    """Characters of a text that the face does not hold, each once, in order."""
    held = characters()
    return [c for c in dict.fromkeys(text) if ord(c) not in held]


def require(text: str, where: str) -> None:
    """Raise PageFault, naming the character and the place, if the face cannot show our own words."""
    if text.isascii() and text.isprintable():
        return
    for c in lacking(text):
        name = unicodedata.name(c, "no name")
        raise PageFault(
            f"{where}: the typeface has no character {c!r} (U+{ord(c):04X}, {name.lower()}) for {text[:60]!r}"
        )


@lru_cache(maxsize=20_000)
def shown(text: str) -> str:
    r"""A user's text as the page can show it: composed, on one line, unknown characters by their codes.

    >>> shown("Kajüte\n中")
    'Kajüte [U+4E2D]'
    """
    if text.isascii() and text.isprintable():
        return text
    text = _SPACES.sub(" ", unicodedata.normalize("NFC", text)).translate(_UNSEEN)
    held = characters()
    return "".join(c if _prints(c, held) else f"[U+{ord(c):04X}]" for c in text)


def _prints(c: str, held: frozenset[int]) -> bool:
    return c in " \u00a0\u2007\u202f" or (ord(c) in held and c.isprintable())
