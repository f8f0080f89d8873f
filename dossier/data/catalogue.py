"""The catalogue of checks: what is asked, how much is allowed, who says so, and what to do about it.

One row of ``checks/<group>.csv`` is one check. Limits stand there and nowhere else, in SI. Where a check
carries more than one number, the others are rows of ``checks/further_limits.csv``, found by their case.

``limit_text`` says the limit in words and names each number in braces, ``{limit}``, ``{upper_limit}`` or
``{case}``, so that no number is written twice. After a colon may stand how people read it:

=============  =============================================================
``%``          a share, read in per cent
``points``     a difference of shares, read in percentage points
``ppm``        a share, read in parts per million
``difference`` kelvin that are a difference, not a temperature
``offset``     a number added to ``counted_from``: printed with its sign
=============  =============================================================

A limit with ``counted_from`` is no number of its own: it is added to the figure named there, which the
check knows (overheat stat − 5 K). An empty limit means that the fact is words, or the maker's alone.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from enum import Enum
from functools import cache
from types import MappingProxyType

from dossier.data.tables import rows
from dossier.notation import Row, Traced
from dossier.notation.records import dataclass

_PLACE = re.compile(r"\{([^{}:]+)(?::([^{}]+))?\}")


class Severity(str, Enum):
    """How bad it is when a check is not met; pages call it the grade."""

    DANGER = "danger"
    FAULT = "fault"
    ATTENTION = "attention"

    @property
    def rank(self) -> int:
        """Order of the grades, worst first."""
        return list(Severity).index(self)

    def __str__(self) -> str:
        return self.value


class CheckKind(str, Enum):
    """How a check compares."""

    MINIMUM = "minimum"
    MAXIMUM = "maximum"
    RANGE = "range"
    PRESENCE = "presence"
    GEOMETRY = "geometry"
    RECORD = "record"

    def __str__(self) -> str:
        return self.value


class LimitBasis(str, Enum):
    """Whose limit it is."""

    STANDARD = "standard"
    MAKER = "maker"
    LOCAL_RULE = "local rule"
    PRACTICE = "common practice"
    OWN = "rule of this dossier"

    def __str__(self) -> str:
        return self.value


@dataclass(frozen=True)
class CheckGroup:
    """A group of checks, the chapter of the survey part it belongs to, and its heading."""

    group: str
    chapter: str
    title: str


@dataclass(frozen=True)
class FurtherLimit:
    """A second number of a check: for another material, another angle, another grade."""

    check: str
    case: str
    limit: float
    unit: str
    counted_from: str
    meaning: str
    severity: Severity
    basis: LimitBasis
    source: str


@dataclass(frozen=True)
class CatalogueRow:
    """One check as the catalogue states it; limits are SI and remember their row."""

    id: str
    title: str
    question: str
    inputs: tuple[str, ...]
    results: tuple[str, ...]
    kind: CheckKind
    limit: float | None
    upper_limit: float | None
    unit: str
    counted_from: str
    limit_text: str
    severity: Severity
    basis: LimitBasis
    source: str
    readers: tuple[str, ...]
    advice: str
    tier: str
    who: tuple[str, ...]
    before: str

    @property
    def group(self) -> str:
        """Group of the check: the part of its name before the dot, and a module of ``checking``."""
        return self.id.partition(".")[0]

    @property
    def function(self) -> str:
        """Name of the check within its group."""
        return self.id.partition(".")[2]

    @property
    def shown(self) -> str:
        """How people read found value and limit: empty, or one of the words listed above."""
        for name, shown in _places(self.limit_text):
            if name == "limit":
                return shown
        return ""

    def limit_in_words(self, written: Callable[[float, str, str], str]) -> str:
        """The limit as a phrase; ``written(number, unit, shown)`` sets each number as people read it."""
        numbers: dict[str, tuple[float, str]] = {
            further.case: (further.limit, further.unit) for further in further_limits(self.id)
        }
        if self.limit is not None:
            numbers["limit"] = (self.limit, self.unit)
        if self.upper_limit is not None:
            numbers["upper_limit"] = (self.upper_limit, self.unit)
        return _PLACE.sub(lambda place: written(*numbers[place[1]], place[2] or ""), self.limit_text)


def _places(text: str) -> Iterator[tuple[str, str]]:
    for place in _PLACE.finditer(text):
        yield place[1], place[2] or ""


def _words(cell: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in cell.split(",") if word.strip())


def _number(cell: str, table: str, row: Mapping[str, str], name: str) -> float | None:
    return Traced(float(cell), Row(table, name, row["source"])) if cell else None


def _catalogued(group: str) -> Iterator[CatalogueRow]:
    table = f"checks/{group}"
    for row in rows(table):
        yield CatalogueRow(
            id=row["id"],
            title=row["title"],
            question=row["question"],
            inputs=_words(row["in"]),
            results=_words(row["out"]),
            kind=CheckKind(row["kind"]),
            limit=_number(row["limit"], table, row, row["id"]),
            upper_limit=_number(row["upper_limit"], table, row, row["id"]),
            unit=row["unit"],
            counted_from=row["counted_from"],
            limit_text=row["limit_text"],
            severity=Severity(row["severity"]),
            basis=LimitBasis(row["basis"]),
            source=row["source"],
            readers=_words(row["readers"]),
            advice=row["advice"],
            tier=row["tier"],
            who=_words(row["who"]),
            before=row["before"],
        )


@cache
def check_groups() -> tuple[CheckGroup, ...]:
    """Groups of checks in the order of the survey part."""
    return tuple(CheckGroup(row["group"], row["chapter"], row["title"]) for row in rows("check_groups"))


@cache
def catalogue() -> Mapping[str, CatalogueRow]:
    """All checks by name, group after group in the order of the survey part."""
    return MappingProxyType({row.id: row for group in check_groups() for row in _catalogued(group.group)})


@cache
def _further() -> Mapping[str, tuple[FurtherLimit, ...]]:
    found: dict[str, tuple[FurtherLimit, ...]] = {}
    table = "checks/further_limits"
    for row in rows(table):
        check = row["check"]
        further = FurtherLimit(
            check=check,
            case=row["case"],
            limit=Traced(float(row["limit"]), Row(table, f"{check}, {row['case']}", row["source"])),
            unit=row["unit"],
            counted_from=row["counted_from"],
            meaning=row["meaning"],
            severity=Severity(row["severity"]),
            basis=LimitBasis(row["basis"]),
            source=row["source"],
        )
        found[check] = (*found.get(check, ()), further)
    return MappingProxyType(found)


def further_limits(check: str) -> tuple[FurtherLimit, ...]:
    """All further numbers of a check, in the order of the table; none for most checks."""
    return _further().get(check, ())


def further_limit(check: str, case: str) -> FurtherLimit:
    """One further number of a check by its case; raises KeyError where there is none."""
    for further in further_limits(check):
        if further.case == case:
            return further
    raise KeyError(f"{check} has no further limit for {case!r}")
