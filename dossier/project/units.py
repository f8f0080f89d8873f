"""Reads the unit of a figure: only units of the trade, each distinct text once.

pint knows the units, from our own short list; ``unit_table`` keeps what it read in a table, since pint takes
longer to start than a file to read. How people write units (``m2``, ``W/m2K``, ``W/(m²·K)``, ``1/h``) is
taken apart here: pint would read ``W/m2K`` as an unknown name and ``mK`` as millikelvin.
"""

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache

from dossier.data.tables import rows
from dossier.notation.records import dataclass
from dossier.project.nearest import nearest

Dimension = tuple[tuple[str, int], ...]
LONGEST_UNIT = 30
LONGEST_SYMBOLS = 4
_SIGNS = str.maketrans(
    {"²": "^2", "³": "^3", "⁴": "^4", "¹": "^1", "⁻": "^-", "·": "*", "⋅": "*", "∙": "*", "µ": "u", "μ": "u"}
    | {"Ω": "ohm", "″": "in", "”": "in", '"': "in", "′": "ft", "’": "ft", "'": "ft", "%": "percent"}
)
MEANT = {
    "F": "degF",
    "f": "degF",
    "c": "degC",
    "Fahrenheit": "degF",
    "Celsius": "degC",
    "centigrade": "degC",
    "hr": "h",
    "hrs": "h",
    "hours": "h",
    "mins": "min",
    "minutes": "min",
    "sec": "s",
    "secs": "s",
    "seconds": "s",
    "days": "d",
    "litres": "l",
    "liters": "l",
    "ltr": "l",
    "cc": "ml",
    "gallons": "gal",
    "feet": "ft",
    "inches": "in",
    "inch": "in",
    "metres": "m",
    "meters": "m",
    "mtr": "m",
    "sqm": "m2",
    "sqft": "ft2",
    "amps": "A",
    "Amp": "A",
    "amp": "A",
    "volts": "V",
    "watts": "W",
    "lbs": "lb",
    "psig": "psi",
    "barg": "bar",
    "knots": "kn",
    "kts": "kn",
    "degrees": "deg",
    "AWG": "mm2",
    "awg": "mm2",
    "kgs": "kg",
    "kWhr": "kWh",
    "AH": "Ah",
    "ah": "Ah",
    "Kg": "kg",
}
_FACTOR = re.compile(r"([A-Za-z_]+(?:2O)?)(?:\^?(-?[1-4]))?\*?")


class UnknownUnit(Exception):
    """A text that is no unit of ours; ``near`` is the nearest that is, perhaps empty."""

    def __init__(self, text: str, near: str = "") -> None:
        self.text, self.near = text, near
        super().__init__(text)


@dataclass(frozen=True)
class Unit:
    """A unit: SI value = figure × scale + offset, exactly."""

    text: str
    scale: Fraction
    dimension: Dimension
    offset: Fraction = Fraction(0)


@cache
def _listed() -> Mapping[str, Unit]:
    """All units that stand in the list, by every name and symbol."""
    found = {}
    for row in rows("unit_sizes"):
        powers = (part.rpartition("^") for part in row["dimension"].split())
        dimension = tuple((base, int(power)) for base, _, power in powers)
        found[row["name"]] = Unit(row["name"], Fraction(row["scale"]), dimension, Fraction(row["offset"]))
    return found


@cache
def names() -> frozenset[str]:
    """All names and symbols of units."""
    return frozenset(_listed())


def _split(letters: str) -> list[str] | None:
    """Names a run of letters is made of: ``mK`` is m and K, ``kgK`` is kg and K."""
    if letters in names():
        return [letters]
    for end in range(len(letters) - 1, 0, -1) if len(letters) <= LONGEST_SYMBOLS else ():
        if letters[:end] in names():
            rest = _split(letters[end:])
            if rest and _listed()[rest[0]].dimension != _listed()[letters[:end]].dimension:
                return [letters[:end], *rest]
    return None


def _factors(side: str, whole: str) -> Iterable[tuple[Unit, int]]:
    position = 0
    while position < len(side):
        found = _FACTOR.match(side, position)
        if not found:
            raise UnknownUnit(whole)
        parts = _split(found[1])
        if parts is None:
            raise UnknownUnit(
                whole, MEANT.get(whole) or (nearest(found[1], names()) if found[0] == side == whole else "")
            )
        for part in parts[:-1]:
            yield _listed()[part], 1
        yield _listed()[parts[-1]], int(found[2] or 1)
        position = found.end()


def _plain(text: str) -> str:
    """A unit's text with powers, products and degrees spelled one way."""
    plain = re.sub(r"°\s*([CF])\b", r"deg\1", text)
    plain = re.sub(r"\bdeg\s+([CF])\b", r"deg\1", plain)
    plain = plain.replace("°", "deg").translate(_SIGNS).replace("^-^", "^-")
    plain = re.sub(r"\b(US|UK|imp)\.?\s+gal", r"\1gal", plain)
    plain = re.sub(r"\bm\s+H2O\b", "mH2O", plain)
    plain = re.sub(r"\bsq\.?\s+(m|cm|mm|ft|in)\b", r"\1^2", plain)
    plain = re.sub(r"\bcu\.?\s+(m|cm|ft|in)\b", r"\1^3", plain)
    plain = re.sub(r"\s*([*/])\s*", r"\1", plain.strip())
    return re.sub(r"\s+", "*", plain)


@cache
def unit(text: str) -> Unit:
    """The unit a text means; raises UnknownUnit."""
    if len(text) > LONGEST_UNIT:
        raise UnknownUnit(text)
    over, *under = _plain(text).split("/")
    over = re.sub(r"^\((.*)\)$", r"\1", over)
    below = "*".join(re.sub(r"^\((.*)\)$", r"\1", part) for part in under)
    if "(" in over + below or ")" in over + below or (under and not all(under)):
        raise UnknownUnit(text)
    parts = [*_factors("" if over == "1" else over, text), *((u, -n) for u, n in _factors(below, text))]
    if not parts:
        raise UnknownUnit(text)
    if len(parts) == 1 and parts[0][1] == 1:
        return parts[0][0]
    scale = Fraction(1)
    powers: dict[str, int] = {}
    for part, power in parts:
        scale *= part.scale**power
        for base, exponent in part.dimension:
            powers[base] = powers.get(base, 0) + exponent * power
    return Unit(text, scale, tuple(sorted((base, n) for base, n in powers.items() if n)))


KINDS = {
    "m": "a length",
    "m2": "an area",
    "m3": "a volume",
    "kg": "a mass",
    "s": "a time",
    "K": "a temperature",
    "rad": "an angle",
    "1": "a share",
    "1/s": "a rate",
    "m/s": "a speed",
    "m3/s": "a flow",
    "N": "a force",
    "N*m": "a moment or an energy",
    "Pa": "a pressure",
    "W": "a power",
    "V": "a voltage",
    "A": "a current",
    "C": "a charge",
    "ohm": "a resistance",
    "kg/m3": "a density",
    "J/kgK": "a specific heat",
    "J/m3K": "a heat capacity by volume",
    "W/mK": "a conductivity",
    "W/m2K": "a thermal transmittance",
    "m2K/W": "a thermal resistance",
    "mol/m3": "a concentration",
}


@cache
def dimension_of(si: str) -> Dimension:
    """Dimension of a unit as results and quantities write it; of ``1`` it is empty."""
    return () if si == "1" else unit(si).dimension


@cache
def scale_of(si: str) -> Fraction:
    """Size of such a unit in base units: 1 but for K_v in m3/h."""
    return Fraction(1) if si == "1" else unit(si).scale


def kind(dimension: Dimension) -> str:
    """What a dimension is, in words."""
    for si, said in KINDS.items():
        if dimension_of(si) == dimension:
            return said
    return "another quantity"
