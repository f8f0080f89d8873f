"""Reads single values: figures, rated pairs, words, texts, yes or no, dates."""

import re
from dataclasses import replace
from datetime import date
from typing import Any

from dossier.notation import Basis, Quantity, Traced
from dossier.project.fields import Num, Pair, Plain, Words
from dossier.project.figures import Misread, figure, plain
from dossier.project.known import check_unit
from dossier.project.model.entry import Figure, Refers
from dossier.project.model.values import Date, Rated
from dossier.project.nearest import listed, nearest
from dossier.project.nodes import List, Node, Text, shortened, words
from dossier.project.quantities import Field, Number, OutOfReach, number
from dossier.project.record import RANGE, UNREADABLE, Record, Where
from dossier.project.units import kind

YES = {"true": True, "yes": True, "false": False, "no": False}
SWITCHES = {"on": "yes", "off": "no", "y": "yes", "n": "no", "1": "yes", "0": "no"}
LONGEST_TEXT = 4000
MONTHS = 12
TABLE = ".csv"
_DATE = re.compile(r"([0-9]{4})-([0-9]{2})(?:-([0-9]{2}))?")
_DAY_FIRST = re.compile(r"([0-9]{1,2})[./]([0-9]{1,2})[./]([0-9]{4})")


def looks_numeric(text: str) -> bool:
    """Whether a text begins as a figure does."""
    return bool(re.match(r"[+-]?\s*[0-9.½¼¾⅓⅔⅛⅜⅝⅞]", plain(text)))


def _judged(record: Record, node: Text, field: Field) -> Number | None:
    try:
        found = number(node.text, field)
    except OutOfReach as error:
        record.fault(node.spot, RANGE, error.what, error.instead)
        return None
    except Misread as error:
        instead = error.instead
        if "needs a unit" in error.what and node.spot.file.casefold().endswith(TABLE):
            instead = f"name the unit in the head of the column, as {field.label} [{instead.split()[-1]}]"
        record.fault(node.spot, UNREADABLE, error.what, instead)
        return None
    if found.doubt:
        record.doubt(node.spot, found.doubt, found.instead)
    return found


def _field(num: Num, where: Where) -> Field:
    if num.how is Figure.ANY:
        check = where.key.removeprefix("limits.").rsplit(".", 1)[0]
        return Field(where.label, Quantity("", check_unit(check), where.label), Figure.ANY)
    return Field(where.label, num.quantity, num.how, num.likely)


def read_number(record: Record, num: Num, node: Text, where: Where, basis: Basis) -> Traced | None:
    """A figure as a traced number in its quantity's unit."""
    field = _field(num, where)
    found = _judged(record, node, field)
    if found is None:
        return None
    spread = _spread(record, where.spread, found.amount, field)
    line = record.line(where, node, basis, spread)
    record.numbers.append(line)
    return Traced(found.amount, line)


def _half_width(text: str, held: float, field: Field) -> float:
    """Half the width of a spread: a share of the value, or a difference in its own unit."""
    found = figure(text)
    percent = found.single and found.single.unit and found.single.unit.text == "percent"
    if percent and field.how is Figure.TEMPERATURE:
        raise Misread("the spread of a temperature is a difference", "write 2 K")
    if percent and field.how is not Figure.SHARE:
        return abs(held) * float(found.amount)
    if found.bare and field.how not in {Figure.NUMBER, Figure.COUNT}:
        raise Misread(
            f"the spread of {field.label} needs a unit, found '{shortened(text)}'", f"write {text} %"
        )
    how = None if field.how is Figure.TEMPERATURE else field.how
    wide = replace(field, how=how, quantity=replace(field.quantity, low=0.0), likely=None)
    return abs(number(text, wide).amount)


def _two_ends(node: List, held: float, field: Field) -> tuple[float, float]:
    """Ends of a spread written as two figures."""
    texts = [item.text for item in node.items if isinstance(item, Text)]
    if len(texts) != 2 or len(node.items) != 2:  # noqa: PLR2004 - two ends
        raise Misread("a spread is one figure or two ends", "write spread: 10 %, or spread: [0.5 1/h, 2 1/h]")
    low, high = (number(text, field).amount for text in texts)
    if not low <= held <= high:
        raise Misread("the value does not lie between the ends of its spread", "write the lower end first")
    return (low, high)


def _spread(record: Record, node: Node | None, held: float, field: Field) -> tuple[float, float] | None:
    """Ends of a stated spread, in the value's own unit."""
    if node is None:
        return None
    try:
        if isinstance(node, List):
            return _two_ends(node, held, field)
        if isinstance(node, Text):
            half = _half_width(node.text, held, field)
            return (held - half, held + half)
        record.fault(node.spot, UNREADABLE, "a spread is one figure or two ends", "write spread: 10 %")
    except Misread as error:
        record.fault(node.spot, UNREADABLE, error.what, error.instead)
    return None


def read_pair(record: Record, pair: Pair, node: Text, where: Where, basis: Basis) -> Rated | None:
    """A rated value and the flow it is rated at."""
    parts = re.split(r"\s+(?:at|@)\s+", plain(node.text))
    if len(parts) != 2:  # noqa: PLR2004 - a pair
        record.fault(
            node.spot,
            UNREADABLE,
            f"{where.label} is rated at a flow, found '{shortened(node.text)}'",
            f"write {shortened(node.text, 20)} at 10 l/min" if len(parts) == 1 else "write 8 kPa at 25 l/min",
        )
        return None
    held = read_number(record, pair.rated, replace(node, text=parts[0]), where, basis)
    at = read_number(
        record, pair.at, replace(node, text=parts[1]), where.under("at", f"{where.label} at"), basis
    )
    record.line(where, node, basis)
    return None if held is None or at is None else Rated(held, at)


def read_words(record: Record, choice: Words, node: Text, where: Where, other: str = "") -> str | None:
    """One of some words; ``other`` is what may stand there besides."""
    asked = plain(node.text)
    for word in choice.choices:
        if asked.casefold() == word.casefold():
            return word
    near = nearest(asked, choice.choices)
    besides = f", or {other}" if other else ""
    instead = f"write {near}" if near else f"write one of: {listed(choice.choices, 12)}{besides}"
    record.fault(node.spot, UNREADABLE, f"{where.label} cannot be '{shortened(asked)}'", instead)
    return None


def read_text(record: Record, node: Text, where: Where, refers: Refers | None) -> str | None:
    """A text on one line."""
    text = " ".join(node.text.split())
    if len(text) > LONGEST_TEXT:
        record.fault(
            node.spot, UNREADABLE, f"{where.label} is longer than {LONGEST_TEXT} letters", "shorten it"
        )
        return None
    if refers and not text:
        record.fault(node.spot, UNREADABLE, f"{where.label} is empty", "write a name, or leave the key out")
        return None
    if refers:
        record.ask(refers, replace(node, text=text), where)
    return text


def read_yes_or_no(record: Record, node: Text, where: Where) -> bool | None:
    """A yes or no."""
    said = node.text.strip().casefold()
    if said in YES:
        return YES[said]
    instead = f"write {SWITCHES.get(said, 'yes or no')}"
    record.fault(
        node.spot, UNREADABLE, f"{where.label} is a yes or no, found '{shortened(node.text)}'", instead
    )
    return None


def read_date(record: Record, node: Text, where: Where) -> Date | None:
    """A day or a month."""
    text = node.text.strip()
    found = _DATE.fullmatch(text)
    instead = "write it as 2026-11-20 or 2026-11"
    if found:
        year, month, day = int(found[1]), int(found[2]), int(found[3]) if found[3] else None
        try:
            date(year, month, day or 1)
        except ValueError:
            record.fault(
                node.spot, UNREADABLE, f"{where.label}: there is no day '{shortened(text)}'", "check the date"
            )
            return None
        return Date(year, month, day)
    turned = _DAY_FIRST.fullmatch(text)
    if turned:
        first, second = int(turned[1]), int(turned[2])
        day_first = f"{turned[3]}-{second:02d}-{first:02d}"
        month_first = f"{turned[3]}-{first:02d}-{second:02d}"
        sure = first > MONTHS or second > MONTHS or first == second or "." in text
        instead = f"write {month_first if second > MONTHS else day_first}"
        instead += "" if sure else f" or {month_first}, year first"
    record.fault(node.spot, UNREADABLE, f"{where.label} is a date, found '{shortened(text)}'", instead)
    return None


def read_basis(record: Record, node: Node, where: Where) -> Basis | None:
    """What a value rests on."""
    if isinstance(node, Text):
        word = read_words(record, Words(tuple(b.value for b in Basis)), node, where)
        return Basis(word) if word else None
    record.fault(node.spot, UNREADABLE, f"basis is one word, found {words(node)}", "write basis: measured")
    return None


def read_plain(record: Record, asked: Plain, node: Text, where: Where, refers: Refers | None) -> Any:
    """A value by its type."""
    if asked.type is bool:
        return read_yes_or_no(record, node, where)
    if asked.type is Date:
        return read_date(record, node, where)
    if asked.type is Basis:
        return read_basis(record, node, where)
    return read_text(record, node, where, refers)


def expected(asked: Any) -> str:
    """What a kind of value is, in words."""
    if isinstance(asked, Num):
        if asked.how in {Figure.COUNT, Figure.NUMBER}:
            return "a plain number"
        field = Field("", asked.quantity, asked.how)
        return "a share" if asked.how is Figure.SHARE else kind(field.dimension)
    if isinstance(asked, Pair):
        return "a value at a flow"
    if isinstance(asked, Words):
        return "one of: " + listed(asked.choices, 12)
    if isinstance(asked, Plain):
        return {bool: "yes or no", Date: "a date", Basis: "a basis"}.get(asked.type, "a text")
    return "a value"
