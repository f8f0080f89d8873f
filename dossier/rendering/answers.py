"""Answers of checks as people read them: found, limit and margin in the unit and digits that fit each check.

Used by the pages and by the terminal, so it knows neither templates nor paper.
"""

from collections.abc import Iterable
from typing import Protocol

from dossier.checking.finding import Finding, Status
from dossier.data.catalogue import CatalogueRow, CheckKind, Severity
from dossier.notation import Real
from dossier.rendering.numbers import NOT_APPLICABLE, SPACE, Judged, Limits, Numbers

MINUTES, HOURS, DAYS = 120.0, 2 * 3600.0, 2 * 86400.0
"""From these times on people count in the next larger unit."""
SHORT = 1.0
"""Lengths are in millimetres where their limit is under one metre."""
SLANT = 0.7
"""Angles are in tenths of a degree where their limit is less (some 40 degrees)."""
SMALL = 0.2
"""Shares are in tenths of a per cent where their limit is less."""
MANY_TIMES = 10.0
"""Share from which the figure tells nothing more."""
SAME = 1e-9
COUNTED = frozenset({"document.danger_open", "flow.never_shut"})
"""Checks that count things."""
ROOM = 293.15
"""Temperatures are measured from a warm room when margins are compared."""
PLAIN = {
    "W": "power",
    "J": "energy_fine",
    "C": "charge",
    "A": "current",
    "V": "voltage",
    "m2": "opening",
    "m3": "volume",
    "m/s": "speed",
    "1/h": "per_hour",
    "kg": "mass",
    "kg/m2": "condensate",
    "kg/m3": "density",
}


class Answer(Protocol):
    """A finding, or one of the things it looked at."""

    @property
    def found(self) -> Real | str | None:
        """What was found."""

    @property
    def bound(self) -> float | str | None:
        """The limit that counted."""

    @property
    def margin(self) -> float | str | None:
        """What is left, positive where good."""

    @property
    def unit(self) -> str:
        """SI unit of all three."""


def _number(value: Real | str | None) -> float | None:
    """The value as a number; None for words and for nothing."""
    return None if value is None or isinstance(value, str) else float(value)


def _shown(row: CatalogueRow, bound: float, unit: str) -> str:
    """How the catalogue wants the number of a limit read: per cent, points, a difference."""
    found = row.shown if unit == row.unit else ""

    def look(number: float, of_unit: str, shown: str) -> str:
        nonlocal found
        if of_unit == unit and abs(number - bound) <= SAME * max(1.0, abs(bound)):
            found = shown
        return ""

    row.limit_in_words(look)
    return found


def _kind_of_time(bound: float) -> str:
    """Seconds, minutes, hours or days, by the length of the limit."""
    for least, kind in ((DAYS, "time_days"), (HOURS, "time_hours"), (MINUTES, "time_minutes")):
        if bound >= least:
            return kind
    return "time_seconds"


def _kind_of_share(row: CatalogueRow, bound: float, shown: str) -> str:
    if shown in {"%", "points"}:
        return "share_fine" if bound < SMALL else "share"
    if shown == "ppm":
        return "parts_per_million"
    return "count" if row.id in COUNTED else "ratio"


def _kind_of_pressure(row: CatalogueRow) -> str:
    if row.group in {"air", "exhaust"}:
        return "pressure_air"
    return "pressure_gauge" if row.group == "expansion" or row.id == "flow.pressure_rating" else "pressure"


def kind_of_answer(row: CatalogueRow, unit: str, bound: float) -> str | None:
    """Kind of number (see ``numbers``) in which a check's figures are read; None where there is none.

    >>> from dossier.data.catalogue import catalogue
    >>> kind_of_answer(catalogue()["exhaust.length"], "m", 3.0)
    'length'
    """
    shown, size = _shown(row, bound, unit), abs(bound)
    kinds = {
        "m": "length_check" if size < SHORT else "length",
        "rad": "angle_fine" if size < SLANT else "angle",
        "K": "temperature_difference" if shown == "difference" else "temperature",
        "s": _kind_of_time(size),
        "1": _kind_of_share(row, size, shown),
        "m3/s": "air_flow_person" if row.group == "heat" else "flow",
        "Pa": _kind_of_pressure(row),
    }
    return kinds.get(unit) or PLAIN.get(unit)


def side(row: CatalogueRow, answer: Answer) -> Limits:
    """Whether the bound that counted is a least or a largest value."""
    found, bound, margin = (_number(value) for value in (answer.found, answer.bound, answer.margin))
    if found is not None and bound is not None and margin is not None and found != bound:
        return Limits.MAXIMUM if (bound > found) == (margin > 0) else Limits.MINIMUM
    upper = row.upper_limit if row.kind is CheckKind.RANGE else None
    top = upper is not None and bound is not None and abs(bound - upper) <= SAME
    return Limits.MAXIMUM if row.kind is CheckKind.MAXIMUM or top else Limits.MINIMUM


def said(numbers: Numbers, row: CatalogueRow, value: float, unit: str, bound: float | None = None) -> str:
    """One figure of a check with its unit."""
    kind = kind_of_answer(row, unit, value if bound is None else bound)
    return numbers.said(value, kind) if kind is not None else f"{value:.3g}{SPACE}{_written(unit)}"


def _written(unit: str) -> str:
    """A unit without a kind of its own, its powers raised."""
    return unit.replace("m2", "m²").replace("m3", "m³")


def triple(numbers: Numbers, row: CatalogueRow, answer: Answer, *, both: bool = False) -> Judged:
    """Found, limit and margin as they stand beside one another; "—" for what there is not.

    ``both`` adds the other system of units to the limit, in brackets.
    """
    found, bound, margin = (_number(value) for value in (answer.found, answer.bound, answer.margin))
    if found is not None and bound is not None and margin is not None:
        kind = kind_of_answer(row, answer.unit, bound)
        if kind == "share_fine" and abs(found) > 1.0:
            kind = "share"
        if kind == "share" and found > MANY_TIMES:
            return _many_times(numbers, bound, side(row, answer))
        if kind is not None:
            limits = side(row, answer)
            first = numbers.judged(found, bound, kind, limits)
            return Judged(first.found, _both(numbers, bound, kind, limits), first.margin) if both else first
    return Judged(
        _alone(numbers, row, answer.found, answer.unit, bound),
        _limit_alone(numbers, row, answer),
        _alone(numbers, row, answer.margin, answer.unit, bound),
    )


def _many_times(numbers: Numbers, bound: float, limits: Limits) -> Judged:
    """A share so large that its figure tells nothing more."""
    cut = numbers.judged(MANY_TIMES, bound, "share", limits)
    return Judged(f">{SPACE}{cut.found}", cut.limit, f"<{SPACE}{cut.margin}")


def _both(numbers: Numbers, bound: float, kind: str, limits: Limits) -> str:
    """The limit with the other system in brackets, whatever was held against it."""
    return numbers.judged(_well(bound, limits), bound, kind, limits, both=True).limit


def _strict(numbers: Numbers, bound: float, kind: str, limits: Limits) -> str:
    """The limit with its sign, rounded so that it allows no more than it says."""
    return numbers.judged(_well(bound, limits), bound, kind, limits).limit


def _well(bound: float, limits: Limits) -> float:
    """A value well on the good side of a bound."""
    return bound + (1.0 if limits is Limits.MINIMUM else -1.0) * max(1.0, abs(bound))


def _alone(
    numbers: Numbers, row: CatalogueRow, value: Real | str | None, unit: str, bound: float | None
) -> str:
    """One figure or word of an answer that has no margin in figures."""
    number = _number(value)
    if number is not None:
        return said(numbers, row, number, unit, bound)
    return str(value) if value else NOT_APPLICABLE


def _limit_alone(numbers: Numbers, row: CatalogueRow, answer: Answer) -> str:
    bound = _number(answer.bound)
    if bound is None:
        return str(answer.bound) if answer.bound else NOT_APPLICABLE
    sign = "≥" if side(row, answer) is Limits.MINIMUM else "≤"
    return f"{sign}{SPACE}{said(numbers, row, bound, answer.unit or row.unit)}"


def limit_of_row(numbers: Numbers, finding: Finding) -> str:
    """The figure of a limit that nothing was held against; empty where it has none of its own."""
    limit = finding.limit
    if limit.value is None or not limit.row.unit or (limit.row.counted_from and not limit.overridden):
        return ""
    figure = said(numbers, limit.row, float(limit.value), limit.row.unit)
    if limit.row.kind is CheckKind.RANGE and limit.upper is not None:
        return f"{figure} – {said(numbers, limit.row, float(limit.upper), limit.row.unit)}"
    return f"{'≤' if limit.row.kind is CheckKind.MAXIMUM else '≥'}{SPACE}{figure}"


def limit_in_words(numbers: Numbers, row: CatalogueRow) -> str:
    """The catalogue's limit as a phrase, its figures in the reader's units."""
    side_of_row = Limits.MAXIMUM if row.kind is CheckKind.MAXIMUM else Limits.MINIMUM

    def written(number: float, unit: str, shown: str) -> str:
        if shown == "offset":
            kind = "temperature_difference" if unit == "K" else kind_of_answer(row, unit, number)
            sign = "plus" if number >= 0 else "less"
            return f"{sign} {numbers.said(abs(number), kind) if kind else f'{abs(number):.3g} {unit}'}"
        kind = kind_of_answer(row, unit, number)
        if kind is None:
            return said(numbers, row, number, unit)
        return _strict(numbers, number, kind, side_of_row).partition(SPACE)[2]

    return row.limit_in_words(written)


def in_hand(finding: Finding) -> float | None:
    """Margin of a met check as a share of its limit; None where it has no figures.

    Temperatures count from that of a warm room, and a limit of nought by what was found.
    """
    if finding.status is not Status.MET or not isinstance(finding.margin, int | float):
        return None
    bound, found = _number(finding.bound), _number(finding.found)
    if bound is None or found is None:
        return None
    scale = abs(bound)
    if kind_of_answer(finding.limit.row, finding.unit, bound) == "temperature":
        scale = max(abs(bound - ROOM), 10.0)
    scale = scale or abs(found)
    return float(finding.margin) / scale if scale else None


def missing_keys(worst_first: Iterable[Finding]) -> dict[str, list[Finding]]:
    """Keys that checks wait for, each with those checks.

    Keys that a danger waits for come first, those first that hold up most dangers; then the others.
    """
    found: dict[str, list[Finding]] = {}
    for finding in worst_first:
        if finding.status is Status.NOT_ASSESSED:
            for key in finding.missing:
                found.setdefault(key, []).append(finding)

    def dangers(key: str) -> int:
        return sum(finding.severity is Severity.DANGER for finding in found[key])

    return {key: found[key] for key in sorted(found, key=lambda key: -dangers(key))}
