"""A figure in the field it stands in: right dimension, SI, inside what is possible, and likely or not."""

from fractions import Fraction
from functools import cache
from math import inf

from dossier.notation import Quantity
from dossier.notation.records import dataclass
from dossier.project.figures import ANY_FIGURE, Misread, Piece, figure
from dossier.project.figures import Figure as Found
from dossier.project.model.entry import Figure, Likely
from dossier.project.nodes import shortened
from dossier.project.units import Dimension, Unit, dimension_of, kind, scale_of, unit

SUMMED = ("m", "m2", "m3")
CUSTOMARY = {
    "m": ("m", "mm", "cm", "in", "ft"),
    "m2": ("m2", "cm2", "mm2", "ft2"),
    "m3": ("l", "m3", "ml", "gal"),
    "m3/s": ("l/min", "m3/h", "gpm"),
    "Pa": ("kPa", "bar", "Pa", "psi"),
    "W": ("kW", "W"),
    "K": ("K",),
    "kg": ("kg", "g", "lb"),
    "s": ("s", "min", "h", "d"),
    "1/s": ("1/h", "rpm", "1/s"),
    "C": ("Ah",),
    "J": ("kJ", "kWh", "J"),
    "rad": ("deg",),
    "ohm": ("mohm", "ohm"),
    "W/mK": ("W/m/K",),
    "J/m3K": ("kJ/K/m3",),
    "J/kgK": ("J/kg/K",),
    "mol/m3": ("mmol/l",),
    "kg/m3": ("kg/m3", "mg/l"),
    "N*m": ("kN*m", "N*m"),
    "m/s": ("m/s", "kn", "km/h"),
}
TEMPERATURES = ("degC", "degF")
SHARES = ("%", "ppm")
READABLE = (1e-2, 1e4)


class OutOfReach(Misread):
    """A figure beyond what is possible."""


@dataclass(frozen=True)
class Field:
    """What is asked of a figure: the key it stands under, its quantity, how it is written."""

    label: str
    quantity: Quantity
    how: Figure | None = None
    likely: Likely | None = None

    @property
    def dimension(self) -> Dimension:
        """Dimension asked for."""
        return dimension_of(self.quantity.unit)


@dataclass(frozen=True)
class Number:
    """A figure in the quantity's own unit, and what is doubtful about it."""

    amount: float
    doubt: str = ""
    instead: str = ""


@cache
def _usual(name: str) -> Unit:
    return Unit("", Fraction(1), ()) if not name else unit(name)


def short(number: Fraction | float) -> str:
    """Number with up to six digits, no more than it needs."""
    return f"{float(number):.6g}"


def _candidates(field: Field) -> tuple[str, ...]:
    if field.how is Figure.TEMPERATURE:
        return TEMPERATURES
    if field.how is Figure.SHARE:
        return SHARES
    if field.quantity.unit == "1":
        return ()
    return CUSTOMARY.get(field.quantity.unit, (field.quantity.unit,))


def _in_si(number: Fraction, name: str, field: Field) -> float:
    chosen = _usual(name)
    try:
        return float((number * chosen.scale + chosen.offset) / scale_of(field.quantity.unit))
    except OverflowError:
        return inf


def _with_unit(number: Fraction, field: Field, skip: str = "") -> str:
    """The number with the first customary unit that makes it likely, else with the first."""
    ends = field.quantity if field.how is Figure.TEMPERATURE else field.likely or field.quantity
    names = _candidates(field)
    if field.how is Figure.SHARE and 0 < number <= 1 and ends.high <= 1:
        return f"{short(number * 100)} %"
    for name in names:
        if name != skip and ends.low <= _in_si(number, name, field) <= ends.high:
            return f"{short(number)} {name}"
    return "" if skip or not names else f"{short(number)} {names[0]}"


def _ends(field: Field, low: float, high: float, like: Unit | None) -> str:
    """A range in the unit the user wrote, or in another customary one that reads better."""

    def shown(end: float, used: Unit) -> float:
        return (end * float(scale_of(field.quantity.unit)) - float(used.offset)) / float(used.scale)

    if like is None and field.quantity.unit == "1":
        return f"{low:.4g} to {high:.4g}"
    others = [_usual(name) for name in _candidates(field)]
    for used in [*([like] if like else []), *others]:
        ends = [shown(low, used), shown(high, used)]
        if all(not end or READABLE[0] <= abs(end) < READABLE[1] for end in ends):
            name = "%" if used.text == "percent" else used.text
            return f"{_readable(ends[0], used)} to {_readable(ends[1], used)} {name}"
    plain = _usual("")
    return f"{_readable(low, plain)} to {_readable(high, plain)} {field.quantity.unit}"


def _readable(end: float, used: Unit) -> str:
    return f"{end:.0f}" if used.offset or abs(end) >= READABLE[1] / 10 else f"{end:.3g}"


def _bare(field: Field, amount: Fraction, text: str) -> Number:
    """A figure without unit."""
    label = field.label
    if field.how in {Figure.NUMBER, Figure.COUNT}:
        if field.how is Figure.COUNT and amount.denominator != 1:
            raise Misread(f"{label} is a whole number, found '{shortened(text)}'", f"write {round(amount)}")
        return _judged(field, float(amount), None, text)
    raise Misread(f"{label} needs a unit, found '{shortened(text)}'", f"write {_with_unit(amount, field)}")


def _other_unit(field: Field, dimension: Dimension, single: Piece | None, text: str) -> Misread:
    """A figure of the wrong dimension."""
    label = field.label
    if field.how in {Figure.NUMBER, Figure.COUNT}:
        return Misread(
            f"{label} is a plain number, found '{shortened(text)}'",
            f"write {short(single.number)}" if single else "write one number",
        )
    asked = kind(field.dimension)
    if field.how is Figure.SHARE:
        asked = "a share"
    write = _with_unit(single.number, field) if single else f"{field.label} in {_candidates(field)[0]}"
    if field.quantity.unit == "m2" and dimension == dimension_of("m"):
        write = f"{write} or 3.2 m x 1.4 m"
    verb = "needs" if asked.rpartition(" ")[2] == label else "is"
    return Misread(f"{label} {verb} {asked}, found {kind(dimension)}, '{shortened(text)}'", f"write {write}")


def _temperature(field: Field, single: Piece, text: str) -> Number:
    """A temperature, or a difference of temperatures."""
    used = single.unit or _usual("")
    if field.how is Figure.TEMPERATURE:
        return _judged(field, float(single.number * used.scale + used.offset), used, text, single)
    if used.offset:
        write = f"{float(single.number * used.scale):.3g}"
        raise Misread(
            f"{field.label} is a difference of temperatures, found '{shortened(text)}'", f"write {write} K"
        )
    return _judged(field, float(single.amount), used, text)


def number(text: str, field: Field) -> Number:
    """A text as a number of the field's quantity; raises Misread, OutOfReach."""
    try:
        found = figure(text)
    except Misread as error:
        plainly = field.how in {Figure.NUMBER, Figure.COUNT} and error.instead == ANY_FIGURE
        raise Misread(
            f"{field.label}: {error.what}", "write a plain number" if plainly else error.instead
        ) from None
    if field.how is Figure.ANY:
        return _of_any(field, found, text)
    if found.bare:
        if found.single is None:
            raise Misread(f"{field.label} is one number, found '{shortened(text)}'", "write its sum")
        return _bare(field, found.amount, text)
    percent = found.single and found.single.unit and found.single.unit.text == "percent"
    if field.how is Figure.COUNT or (field.how is Figure.NUMBER and not percent):
        raise _other_unit(field, found.dimension, found.single, text)
    if found.dimension != field.dimension:
        raise _other_unit(field, found.dimension, found.single, text)
    if found.single is None:
        if field.quantity.unit not in SUMMED:
            raise Misread(
                f"{field.label} is one figure, found the sum '{shortened(text)}'", "write its result"
            )
        return _judged(field, _finite(found.amount), None, text)
    if field.quantity.unit == "K":
        return _temperature(field, found.single, text)
    return _judged(
        field, _finite(found.amount / scale_of(field.quantity.unit)), found.single.unit, text, found.single
    )


def _of_any(field: Field, found: Found, text: str) -> Number:
    """A figure of a limit, in the unit of its check; in base units where the check is not known."""
    asked = field.quantity.unit
    if asked and found.dimension != dimension_of(asked):
        needs = (
            f"needs a unit such as {(CUSTOMARY.get(asked) or (asked,))[0]}"
            if found.bare
            else f"is {kind(dimension_of(asked))}"
        )
        raise Misread(
            f"{field.label} {needs}, found '{shortened(text)}'", "write it as the check's limit is written"
        )
    single = found.single
    amount = found.amount + (single.unit.offset if single and single.unit else 0)
    return Number(_finite(amount / scale_of(asked) if asked else amount))


def _finite(amount: Fraction) -> float:
    try:
        return float(amount)
    except OverflowError:
        return inf


def _perhaps(field: Field, single: Piece | None, text: str) -> str:
    """What is meant instead of an unlikely figure."""
    if single and single.number < 0 <= field.quantity.low:
        return f"perhaps {text.strip().lstrip('-−').lstrip()} is meant"
    other = _with_unit(single.number, field, single.unit.text if single.unit else "") if single else ""
    return f"perhaps {other} is meant" if other else "check the figure and its unit"


def _judged(field: Field, held: float, used: Unit | None, text: str, single: Piece | None = None) -> Number:
    """A number inside what is possible, with a doubt where it is unlikely."""
    quantity, likely, label = field.quantity, field.likely, field.label
    if not quantity.low <= held <= quantity.high:
        ends = _ends(field, quantity.low, quantity.high, used)
        what = f"{label} cannot be {shortened(text)} (possible is {ends})"
        raise OutOfReach(what, _perhaps(field, single, text))
    if likely and not likely.low <= held <= likely.high:
        ends = _ends(field, likely.low, likely.high, used)
        what = f"{label} is {shortened(text)}, which is unusual (usual is {ends})"
        return Number(held, what, _perhaps(field, single, text))
    return Number(held)
