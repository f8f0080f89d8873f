"""What a check found: five results, three grades, and the triple found, limit, margin.

``judge`` answers *not assessed* where a value is missing, so a "met" without evidence cannot be written.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from dossier.notation import NotAssessed, Real


class Status(str, Enum):
    """The five results, worst first."""

    NOT_MET = "not met"
    NOT_ASSESSED = "not assessed"
    ACCEPTED = "accepted deviation"
    NOT_APPLICABLE = "not applicable"
    MET = "met"

    def __str__(self) -> str:
        return self.value


class Severity(str, Enum):
    """The three grades: a property of the check, never a result."""

    DANGER = "danger"
    FAULT = "fault"
    ATTENTION = "attention"

    @property
    def rank(self) -> int:
        """Order of the grades, the worst 0."""
        return list(Severity).index(self)

    def __str__(self) -> str:
        return self.value


@dataclass(frozen=True, slots=True)
class Bound:
    """One figure that a limit sets, and whose it is."""

    value: float | None
    basis: str
    source: str


@dataclass(frozen=True, slots=True)
class Limit:
    """The limit a check holds its result against: the project's own where it has one, else the catalogue's.

    ``value`` and ``upper`` are SI; ``text`` says in words what is asked. ``catalogue`` is the catalogue's own
    figure where the project overrides it, so that the page can print both.
    """

    check: str
    title: str
    question: str
    kind: str
    severity: Severity
    unit: str
    value: float | None
    upper: float | None
    text: str
    basis: str
    source: str
    advice: str
    who: str
    before: str
    keys: tuple[str, ...] = ()
    catalogue: Bound | None = None
    laxer: bool = False

    @property
    def is_minimum(self) -> bool:
        """Whether found must reach the value; otherwise it must stay under it."""
        return self.kind == "minimum"


@dataclass(frozen=True, slots=True)
class Item:
    """One of several things a check looked at: an opening, a branch, a bulkhead."""

    what: str
    found: Real | str | None
    limit: float | str | None
    margin: float | str | None
    status: Status


@dataclass(frozen=True, slots=True)
class Finding:
    """Answer of one check."""

    limit: Limit
    status: Status
    found: Real | str | None = None
    bound: float | str | None = None
    margin: float | str | None = None
    place: str = ""
    why: str = ""
    missing: tuple[str, ...] = ()
    key: str = ""
    items: tuple[Item, ...] = ()
    remark: str = ""

    @property
    def is_open(self) -> bool:
        """Whether the finding stands among the findings: not met, accepted, or a danger nobody looked at."""
        return self.status in {Status.NOT_MET, Status.ACCEPTED} or (
            self.status is Status.NOT_ASSESSED and self.limit.severity is Severity.DANGER
        )


def not_applicable(limit: Limit, why: str) -> Finding:
    """The check does not apply, by the rule ``why`` names."""
    return Finding(limit, Status.NOT_APPLICABLE, why=why)


def not_assessed(limit: Limit, missing: Sequence[str] | NotAssessed, why: str = "") -> Finding:
    """The check could not be made: ``missing`` names the keys it waits for."""
    if isinstance(missing, NotAssessed):
        why = why or missing.why
        missing = missing.needs
    keys = tuple(dict.fromkeys(missing)) or limit.keys
    return Finding(limit, Status.NOT_ASSESSED, missing=keys, key=keys[0] if keys else "", why=why)


def _verdict(limit: Limit, found: float, value: float | None, upper: float | None) -> tuple[float, float]:
    """Margin (positive is good) and the bound it is counted from."""
    margins = []
    if limit.kind == "range":
        if value is not None:
            margins.append((found - value, value))
        if upper is not None:
            margins.append((upper - found, upper))
    elif value is not None:
        margins.append((found - value, value) if limit.is_minimum else (value - found, value))
    if not margins:
        raise ValueError(f"check {limit.check} has no figure to judge by")
    return min(margins)


def judge(  # noqa: PLR0913 - found, limit and what the page says of them
    limit: Limit,
    found: Real | None,
    *,
    missing: Sequence[str] = (),
    value: float | None = None,
    place: str = "",
    key: str = "",
    why: str = "",
    remark: str = "",
) -> Finding:
    """Hold a number against the limit; *not assessed* where there is none.

    ``value`` replaces the limit's own figure where a check carries several (one for each angle of heel).
    """
    if found is None:
        return not_assessed(limit, missing or limit.keys, why)
    margin, bound = _verdict(limit, float(found), limit.value if value is None else value, limit.upper)
    status = Status.MET if margin >= 0 else Status.NOT_MET
    return Finding(limit, status, found, bound, margin, place, why, (), key, (), remark)


def judge_worst(
    limit: Limit, items: Sequence[tuple[str, Real, float | None]], *, remark: str = ""
) -> Finding:
    """Hold several numbers against the limit; the one with the least margin is the finding.

    Each item is (what, found, its own figure or None for the limit's).
    """
    if not items:
        raise ValueError(f"check {limit.check} has nothing to look at")
    each = [(what, judge(limit, found, value=value)) for what, found, value in items]
    what, worst = min(each, key=lambda pair: _least(pair[1]))
    rows = tuple(Item(name, f.found, f.bound, f.margin, f.status) for name, f in each)
    return replace(worst, place=what, items=rows, remark=remark)


def _least(finding: Finding) -> float:
    return float(finding.margin) if isinstance(finding.margin, int | float) else 0.0


def present(  # noqa: PLR0913 - found, limit and what the page says of them
    limit: Limit,
    fulfilled: bool | None,  # noqa: FBT001 - the fact itself
    found: str = "",
    *,
    lacking: str = "",
    missing: Sequence[str] = (),
    key: str = "",
    place: str = "",
    items: tuple[Item, ...] = (),
    remark: str = "",
) -> Finding:
    """Judge a fact of presence, geometry or record; ``None`` is *not assessed*."""
    if fulfilled is None:
        return not_assessed(limit, missing or limit.keys)
    status = Status.MET if fulfilled else Status.NOT_MET
    margin = "—" if fulfilled else lacking or "missing"
    return Finding(
        limit,
        status,
        found or ("yes" if fulfilled else "no"),
        limit.text,
        margin,
        place,
        "",
        (),
        key,
        items,
        remark,
    )
