"""What a check found: five results, three grades, and the triple found, limit, margin.

``judge`` answers *not assessed* where a value is missing, so a "met" without evidence cannot be written.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from dossier.data.asked import asked_of
from dossier.data.catalogue import CatalogueRow, CheckKind, LimitBasis, Severity
from dossier.notation import NotAssessed, Real

NOISE = 1e-9
"""Share of found or limit below which a margin is the rounding of binary fractions: it counts as none."""


class Status(str, Enum):
    """The five results, worst first."""

    NOT_MET = "not met"
    NOT_ASSESSED = "not assessed"
    ACCEPTED = "accepted deviation"
    NOT_APPLICABLE = "not applicable"
    MET = "met"

    def __str__(self) -> str:
        return self.value


@dataclass(frozen=True, slots=True)
class Limit:
    """The limit of a check: its row of the catalogue, or the project's own figure in the row's place.

    ``value`` and ``upper`` are SI. ``overridden`` tells that they are the project's own; ``laxer`` that they
    allow more than the catalogue does.
    """

    row: CatalogueRow
    value: float | None
    upper: float | None
    basis: LimitBasis
    source: str
    overridden: bool = False
    laxer: bool = False

    @property
    def check(self) -> str:
        """Name of the check."""
        return self.row.id

    @property
    def severity(self) -> Severity:
        """Grade of the check."""
        return self.row.severity

    def by_maker(self, value: float, source: str = "maker's instructions") -> "Limit":
        """The same limit with the maker's figure, which stands above common practice."""
        return self if self.overridden else replace(self, value=value, basis=LimitBasis.MAKER, source=source)


@dataclass(frozen=True, slots=True)
class Item:
    """One of several things a check looked at: an opening, a branch, a bulkhead."""

    what: str
    found: Real | str | None
    bound: float | str | None
    margin: float | str | None
    status: Status
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """Answer of one check.

    ``found``, ``bound`` (the limit's figure that counted) and ``margin`` (positive is good) are in ``unit``,
    or words where the fact is words. ``missing`` names the keys a check waits for that was not assessed;
    ``key`` leads to the line of the file that matters.
    """

    limit: Limit
    status: Status
    found: Real | str | None = None
    bound: float | str | None = None
    margin: float | str | None = None
    unit: str = ""
    place: str = ""
    why: str = ""
    missing: tuple[str, ...] = ()
    key: str = ""
    items: tuple[Item, ...] = ()
    remark: str = ""

    @property
    def check(self) -> str:
        """Name of the check."""
        return self.limit.check

    @property
    def severity(self) -> Severity:
        """Grade of the check."""
        return self.limit.severity

    @property
    def is_open(self) -> bool:
        """Whether it stands among the findings: not met, accepted, or a danger nobody looked at."""
        return self.status in {Status.NOT_MET, Status.ACCEPTED} or (
            self.status is Status.NOT_ASSESSED and self.severity is Severity.DANGER
        )


def not_applicable(limit: Limit, why: str) -> Finding:
    """The check does not apply, by the rule ``why`` names."""
    return Finding(limit, Status.NOT_APPLICABLE, why=why)


def not_assessed(limit: Limit, missing: Sequence[str] | NotAssessed, why: str = "") -> Finding:
    """The check could not be made: ``missing`` names the keys it waits for."""
    if isinstance(missing, NotAssessed):
        why = why or missing.why
        missing = missing.needs
    keys = tuple(dict.fromkeys(missing)) or limit.row.inputs
    return Finding(limit, Status.NOT_ASSESSED, missing=keys, key=keys[0] if keys else "", why=why)


def _verdict(limit: Limit, found: float, value: float | None) -> tuple[float, float]:
    """Margin (positive is good) and the bound it is counted from."""
    kind = limit.row.kind
    margins = []
    if kind is CheckKind.RANGE:
        if value is not None:
            margins.append((found - value, value))
        if limit.upper is not None:
            margins.append((limit.upper - found, limit.upper))
    elif value is not None:
        margins.append((value - found if kind is CheckKind.MAXIMUM else found - value, value))
    if not margins:
        raise ValueError(f"check {limit.check} has no figure to judge by")
    return min(margins)


def judge(  # noqa: PLR0913 - found, limit and what the page says of them
    limit: Limit,
    found: Real | None,
    *,
    value: float | None = None,
    unit: str | None = None,
    place: str = "",
    key: str = "",
    missing: Sequence[str] = (),
    why: str = "",
    remark: str = "",
) -> Finding:
    """Hold a number against the limit; *not assessed* where there is none.

    ``value`` replaces the limit's own figure where the check counts it from another number, or carries
    several (one for each angle of heel). All kinds but ``maximum`` and ``range`` ask for at least the figure.
    """
    if found is None:
        return not_assessed(limit, missing, why)
    margin, bound = _verdict(limit, float(found), limit.value if value is None else value)
    if abs(margin) <= NOISE * max(abs(bound), abs(float(found))):
        margin = 0.0
    return Finding(
        limit,
        Status.MET if margin >= 0 else Status.NOT_MET,
        found,
        bound,
        margin,
        limit.row.unit if unit is None else unit,
        place,
        why,
        key=key,
        remark=remark,
    )


def worst_of(findings: Iterable[tuple[str, Finding]], *, relative: bool = False) -> Finding:
    """The worst of several findings of one check, with all of them as its items.

    Worst is not met before not assessed before met, then the least margin (``relative`` to the bound).
    """
    each = list(findings)

    def order(pair: tuple[str, Finding]) -> tuple[int, float]:
        f = pair[1]
        margin = float(f.margin) if isinstance(f.margin, int | float) else 0.0
        scale = abs(float(f.bound)) if relative and isinstance(f.bound, int | float) and f.bound else 1.0
        return list(Status).index(f.status), margin / scale

    what, worst = min(each, key=order)
    rows = tuple(Item(name, f.found, f.bound, f.margin, f.status, f.unit) for name, f in each)
    return replace(worst, place=worst.place or what, items=rows if len(rows) > 1 else ())


def present(  # noqa: PLR0913 - found, limit and what the page says of them
    limit: Limit,
    fulfilled: bool | None,  # noqa: FBT001 - the fact itself
    found: str = "",
    *,
    asked: str = "",
    lacking: str = "missing",
    missing: Sequence[str] = (),
    key: str = "",
    place: str = "",
    remark: str = "",
) -> Finding:
    """Judge a fact of presence, geometry or record; ``None`` is *not assessed*.

    ``asked`` is the limit in a word or two, if it is not that of the check in general; ``lacking`` is what
    the margin column shows where it is not met.
    """
    if fulfilled is None:
        return not_assessed(limit, missing)
    return Finding(
        limit,
        Status.MET if fulfilled else Status.NOT_MET,
        found or ("yes" if fulfilled else "no"),
        asked or asked_of(limit.check),
        "nothing missing" if fulfilled else lacking,
        place=place,
        key=key,
        remark=remark,
    )
