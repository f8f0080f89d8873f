"""Reads figures as people write them: the number is ours to read, only its unit is pint's.

``2.4 m``, ``1 1/2 in``, ``4 ft 6 in``, ``−6 °C``, ``3.2 m x 1.4 m - 0.4 m2``. What could be read two ways
(``3,2 m``, ``1 000 l``) is refused with what to write.
"""

import re
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from dossier.notation.records import dataclass
from dossier.project.nodes import shortened
from dossier.project.units import Dimension, Unit, UnknownUnit, kind, unit

LONGEST = 120
MOST_PIECES = 12
ANY_FIGURE = "write a number and its unit, as 2.4 m"
UNKNOWN = frozenset({"none", "unknown", "?", "n/a", "na", "tbd", "-", "null", "nil"})
_VULGAR = {
    "¼": (1, 4),
    "½": (1, 2),
    "¾": (3, 4),
    "⅓": (1, 3),
    "⅔": (2, 3),
    "⅛": (1, 8),
    "⅜": (3, 8),
    "⅝": (5, 8),
} | {"⅞": (7, 8)}
_PARTS = "".join(_VULGAR)
_NUMBER = re.compile(
    rf"(?P<whole>[0-9]+) +(?P<over>[0-9]+)/(?P<under>[0-9]+)"
    rf"|(?P<over2>[0-9]+)/(?P<under2>[0-9]+)"
    rf"|(?P<whole3>[0-9]*) ?(?P<part>[{_PARTS}])"
    r"|(?P<decimal>(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,2}(?![0-9]))?)"
)
_SIMPLE = re.compile(r"(?P<number>-?[0-9]{1,12}(?:\.[0-9]{1,12})?) ?(?P<unit>[A-Za-z][A-Za-z0-9/]*)")
"""What nearly all figures look like: read at once, the rest step by step."""
_TRAPS = (
    (re.compile(r"[0-9]\.[0-9]{3}(?:\.[0-9]{3})*,[0-9]"), lambda t: t.replace(".", "").replace(",", ".")),
    (re.compile(r"[0-9],[0-9]{3}(?:,[0-9]{3})+|[0-9],[0-9]{3}\.[0-9]"), lambda t: t.replace(",", "")),
    (re.compile(r"[0-9]\.[0-9]{3}\.[0-9]{3}"), lambda t: t.replace(".", "")),
    (re.compile(r"[0-9][ '’][0-9]{3}(?![0-9/])"), lambda t: re.sub(r"(?<=[0-9])[ '’](?=[0-9]{3})", "", t)),
    (re.compile(r"[0-9]_[0-9]"), lambda t: t.replace("_", "")),
    (re.compile(r"[0-9],[0-9]"), lambda t: t.replace(",", ".")),
)
_THOUSAND = re.compile(r"^[^0-9]*[0-9]{1,3},[0-9]{3}(?![0-9])[^,]*$")


class Misread(Exception):
    """A text that cannot be read as it should: what is wrong, and what would be right."""

    def __init__(self, what: str, instead: str = "") -> None:
        self.what, self.instead = what, instead
        super().__init__(what)


@dataclass(frozen=True)
class Piece:
    """A number with the unit it bears, None if it is bare."""

    number: Fraction
    unit: Unit | None
    text: str

    @property
    def amount(self) -> Fraction:
        """Size in base units, differences counted."""
        return self.number * self.unit.scale if self.unit else self.number

    @property
    def dimension(self) -> Dimension:
        """Dimension, empty for a bare number."""
        return self.unit.dimension if self.unit else ()


@dataclass(frozen=True)
class Figure:
    """What a text amounts to.

    ``single`` is the piece of a text that is one number with or without unit; ``bare`` says that no unit
    stands anywhere.
    """

    amount: Fraction
    dimension: Dimension
    single: Piece | None
    bare: bool


def plain(text: str) -> str:
    """Text with one minus sign, one slash and ordinary spaces."""
    return " ".join(text.translate({0x2212: "-", 0x2013: "-", 0x2044: "/", 0x2215: "/"}).split())


def _trap(text: str) -> None:
    """Refuse commas and grouped thousands, with what to write."""
    for sign, mended in _TRAPS:
        if sign.search(text):
            write = mended(text)
            if _THOUSAND.match(text):
                thousands = text.replace(",", "")
                raise Misread(f"'{shortened(text)}' can be read two ways", f"write {thousands} or {write}")
            raise Misread(f"the figure '{shortened(text)}' is not read as it is meant", f"write {write}")


def _number(found: "re.Match[str]") -> Fraction:
    if found["decimal"]:
        return Fraction(
            found["decimal"].rstrip(".") if "e" not in found["decimal"].lower() else found["decimal"]
        )
    if found["part"]:
        over, under = _VULGAR[found["part"]]
        return Fraction(int(found["whole3"] or 0)) + Fraction(over, under)
    over, under = int(found["over"] or found["over2"]), int(found["under"] or found["under2"])
    if not under:
        raise Misread("a fraction is divided by nothing", "write the figure as a decimal")
    return Fraction(int(found["whole"] or 0)) + Fraction(over, under)


def _letter(char: str) -> bool:
    return char.isalpha() or char in "%°'\"′″Ω"


def _crosses(text: str, at: int) -> bool:
    """Whether an x at a place is a sign of multiplication."""
    rest = text[at + 1 :].lstrip()
    return text[at] in "xX×*" and (not rest or rest[0] in f"0123456789.{_PARTS}")


def _is_power(text: str, at: int, start: int) -> bool:
    """Whether a minus sign makes a power, as in h-1, and not a difference."""
    power = re.match(r"-[1-4](?![0-9.])(?!\s*[A-Za-z%°/]{1,4}(?![A-Za-z0-9-]))", text[at:])
    return bool(power) and at > start and (text[at - 1].isalpha() or text[at - 1] == "^")


def _goes_on(text: str, at: int, start: int) -> bool:
    """Whether the letter at a place, outside brackets, belongs to the unit that begins at a start."""
    char, before, rest = text[at], text[at - 1] if at > start else "", text[at + 1 :].lstrip()
    if char == "+" or _crosses(text, at):
        return False
    if char == "-":
        return _is_power(text, at, start)
    if char == " ":
        return bool(rest) and (_letter(rest[0]) or rest[0] in "/*·(") and not _crosses(text, at + 1)
    if char.isascii() and char.isdigit():
        known = bool(before) and (_letter(before) or before in "^-)")
        return known or (at == start and bool(re.match(r"1\s*/", text[at:])))
    return True


def _unit_end(text: str, start: int) -> int:
    """Where the unit that begins at a place ends."""
    if text[start] in "'\"′″’”":
        return start + 1
    at, depth = start, 0
    while at < len(text) and (depth or _goes_on(text, at, start)):
        depth += {"(": 1, ")": -1}.get(text[at], 0)
        at += 1
    return at


def _piece(text: str, at: int) -> tuple[Piece, int]:
    found = _NUMBER.match(text, at)
    if not found:
        raise Misread(f"'{shortened(text)}' is no figure", ANY_FIGURE)
    number, start = _number(found), found.end()
    while start < len(text) and text[start] == " ":
        start += 1
    begins = start < len(text) and (
        _letter(text[start]) or text[start] in "/(" or re.match(r"1\s*/\s*[A-Za-z]", text[start:])
    )
    if not begins or _crosses(text, start):
        return Piece(number, None, text[at : found.end()]), found.end()
    end = _unit_end(text, start)
    written = text[start:end].strip()
    try:
        return Piece(number, unit(written), text[at:end].strip()), end
    except UnknownUnit as error:
        near = (
            f"write {text[at : found.end()]} {error.near}"
            if error.near
            else "write a unit such as mm, l/min, kPa"
        )
        raise Misread(f"'{shortened(written)}' is no known unit", near) from None


def _joined(parts: list[Piece], text: str) -> Piece:
    """Pieces that follow each other, as 4 ft 6 in, made one."""
    if len(parts) == 1:
        return parts[0]
    first = parts[0]
    for before, after in pairwise(parts):
        fits = after.unit and before.unit and after.dimension == before.dimension and not after.unit.offset
        if not fits or before.unit.offset or after.unit.scale >= before.unit.scale:  # type: ignore[union-attr]  # fits says so
            raise Misread(f"'{shortened(text)}' is no figure", "write one number and its unit, as 2.4 m")
    amount = sum((part.amount for part in parts), Fraction(0))
    return Piece(amount / first.unit.scale, first.unit, text) if first.unit else first


@lru_cache(maxsize=4096)
def figure(written: str) -> Figure:
    """What a text amounts to; raises Misread."""
    simple = _SIMPLE.fullmatch(written)
    if simple:
        try:
            used = unit(simple["unit"])
        except UnknownUnit:
            pass
        else:
            piece = Piece(Fraction(simple["number"]), used, written)
            return Figure(piece.amount, used.dimension, piece, bare=False)
    text = plain(written)
    _refuse(text)
    return _summed(_terms(text), text)


def _refuse(text: str) -> None:
    """Refuse what is no figure at sight, with what to write."""
    shown = shortened(text)
    if not text:
        raise Misread("there is no figure", "write a number and its unit, or take the line out")
    if text.casefold() in UNKNOWN:
        raise Misread(f"'{shown}' is no figure", "take the line out if it is unknown")
    if len(text) > LONGEST:
        raise Misread(f"'{shown}' is too long for a figure", "write one number and its unit")
    if re.search(r"[0-9]e[+-]?[0-9]{3}", text, re.IGNORECASE) or re.match(
        r"[+-]?0x[0-9a-f]", text, re.IGNORECASE
    ):
        raise Misread(f"'{shown}' is no figure", "write the number out, with its unit")
    if re.match(r"[0-9.]+ ?(-|\.\.|to) ?[0-9.]+ ?[A-Za-z%°]", text):
        raise Misread(f"'{shown}' is a range", "write one figure, and its spread: {is: 3 m, spread: 10 %}")
    if "±" in text or "+-" in text.replace(" ", "") or "+/-" in text:
        raise Misread(f"the spread of '{shown}' stands apart", "write {is: 3 m, spread: 5 %}")
    _trap(text)


def _product(factors: list[Piece], sign: int) -> tuple[Fraction, Dimension]:
    amount, powers = Fraction(sign), dict[str, int]()
    for factor in factors:
        amount *= factor.amount
        for base, power in factor.dimension:
            powers[base] = powers.get(base, 0) + power
    return amount, tuple(sorted((base, n) for base, n in powers.items() if n))


def _summed(terms: list[tuple[int, list[Piece]]], text: str) -> Figure:
    """Sum of signed products."""
    pieces = [factor for _, factors in terms for factor in factors]
    if len(pieces) > 1 and any(piece.unit and piece.unit.offset for piece in pieces):
        raise Misread("temperatures are not added or multiplied", "write one temperature")
    amounts = [_product(factors, sign) for sign, factors in terms]
    dimension = amounts[0][1]
    for _, other in amounts:
        if other != dimension:
            what = f"'{shortened(text)}' adds {kind(dimension)} and {kind(other)}"
            raise Misread(what, "write one and the same")
    single = Piece(pieces[0].number * terms[0][0], pieces[0].unit, text) if len(pieces) == 1 else None
    total = sum((amount for amount, _ in amounts), Fraction(0))
    return Figure(total, dimension, single, bare=not any(piece.unit for piece in pieces))


def _terms(text: str) -> list[tuple[int, list[Piece]]]:
    """Signed products of pieces that a text is the sum of."""
    terms: list[tuple[int, list[Piece]]] = []
    at, count = 0, 0
    while True:
        sign = -1 if text[at] == "-" else 1
        at = _past(text, at + 1) if text[at] in "+-" else at
        factors: list[Piece] = []
        while True:
            begun, parts = at, []
            while True:
                piece, at = _piece(text, at)
                parts.append(piece)
                count += 1
                at = _past(text, at)
                if at >= len(text) or not _NUMBER.match(text, at) or count > MOST_PIECES:
                    break
            factors.append(_joined(parts, text[begun:at].strip()))
            if at >= len(text) or not _crosses(text, at):
                break
            at = _past(text, at + 1)
        terms.append((sign, factors))
        if at >= len(text):
            return terms
        if text[at] not in "+-" or count > MOST_PIECES:
            raise Misread(f"'{shortened(text)}' is no figure", ANY_FIGURE)


def _past(text: str, at: int) -> int:
    while at < len(text) and text[at] == " ":
        at += 1
    return at
