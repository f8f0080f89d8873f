"""Judging by figures a check holds besides its limit, and several findings as one.

A row of the catalogue has one kind and one limit. A check that holds a second number of another kind (a
distance at least, its supports at most) judges each by its own, and the worst is the answer.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import wraps
from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import lacks
from dossier.checking.finding import (
    Finding,
    Limit,
    Status,
    judge,
    not_applicable,
    not_assessed,
    present,
    worst_of,
)
from dossier.data.catalogue import CheckKind, LimitBasis
from dossier.notation import NotAssessed, Real

if TYPE_CHECKING:
    from dossier.sizing.study import Study

NO_BURNER = "no burner is aboard"
MAKER_SILENT = "maker's figure not supplied"


def _judged(  # noqa: PLR0913, PLR0917 - found, figure and what the page says of them
    limit: Limit,
    kind: CheckKind,
    found: Real | None,
    bound: float | None,
    upper: float | None,
    unit: str,
    place: str,
    key: str,
    missing: Sequence[str],
    remark: str,
) -> Finding:
    by = replace(limit, row=replace(limit.row, kind=kind), value=bound, upper=upper)
    judged = judge(by, found, unit=unit, place=place, key=key, missing=missing, remark=remark)
    return replace(judged, limit=limit)


def at_most(  # noqa: PLR0913 - as judge
    limit: Limit,
    found: Real | None,
    bound: float,
    unit: str,
    *,
    place: str = "",
    key: str = "",
    missing: Sequence[str] = (),
    remark: str = "",
) -> Finding:
    """Hold a number against a largest figure, whatever the kind of the check."""
    return _judged(limit, CheckKind.MAXIMUM, found, bound, None, unit, place, key, missing, remark)


def at_least(  # noqa: PLR0913 - as judge
    limit: Limit,
    found: Real | None,
    bound: float,
    unit: str,
    *,
    place: str = "",
    key: str = "",
    missing: Sequence[str] = (),
    remark: str = "",
) -> Finding:
    """Hold a number against a smallest figure, whatever the kind of the check."""
    return _judged(limit, CheckKind.MINIMUM, found, bound, None, unit, place, key, missing, remark)


def between(  # noqa: PLR0913 - as judge
    limit: Limit,
    found: Real | None,
    bound: float | None,
    upper: float | None,
    unit: str,
    *,
    place: str = "",
    key: str = "",
    missing: Sequence[str] = (),
    remark: str = "",
) -> Finding:
    """Hold a number against both ends of a range, whatever the kind of the check."""
    return _judged(limit, CheckKind.RANGE, found, bound, upper, unit, place, key, missing, remark)


def counted(limit: Limit, base: float) -> float:
    """Bound of a limit that the catalogue counts from another figure; the project's own stands alone."""
    figure = 0.0 if limit.value is None else float(limit.value)
    return figure if limit.overridden else float(base) + figure


def with_maker_silent(limit: Limit, finding: Finding) -> Finding:
    """The finding, saying so where a fallback counted because no maker's figure was supplied."""
    judged = finding.status in {Status.MET, Status.NOT_MET}
    if not judged or limit.overridden or limit.basis is LimitBasis.MAKER:
        return finding
    return replace(finding, remark=joined(finding.remark, MAKER_SILENT))


Check = Callable[["Study", Limit], Finding]


def for_a_burner(check: Check) -> Check:
    """The check, not applicable where the circuit is written out and holds no burner."""

    @wraps(check)
    def guarded(study: "Study", limit: Limit) -> Finding:
        return not_applicable(limit, NO_BURNER) if lacks(study.project, "burner") else check(study, limit)

    return guarded


def met(limit: Limit, found: str, *, key: str = "", place: str = "", remark: str = "") -> Finding:
    """A fact of presence or record that is as asked."""
    return present(limit, fulfilled=True, found=found, key=key, place=place, remark=remark)


def not_met(  # noqa: PLR0913 - what the page says of it
    limit: Limit,
    found: str,
    lacking: str,
    *,
    key: str = "",
    place: str = "",
    remark: str = "",
) -> Finding:
    """A fact of presence or record that is not as asked, with what is missing in a word or two."""
    return present(limit, fulfilled=False, found=found, lacking=lacking, key=key, place=place, remark=remark)


def joined(*remarks: str) -> str:
    """Remarks as one."""
    return "; ".join(remark for remark in remarks if remark)


def together(
    limit: Limit, findings: Iterable[tuple[str, Finding]], *, relative: bool = False, none: str = ""
) -> Finding:
    """The worst of several findings of one check, as ``worst_of``.

    Parts that do not apply are left out; where nothing is left, neither does the check, for the reason of
    the last part or for ``none``. Where the answer is *not assessed*, all keys any part waits for are named.
    """
    each = list(findings)
    counting = [pair for pair in each if pair[1].status is not Status.NOT_APPLICABLE]
    if not counting:
        return not_applicable(limit, none or (each[-1][1].why if each else ""))
    worst = worst_of(counting, relative=relative)
    if worst.status is Status.MET:
        measured = [pair for pair in counting if isinstance(pair[1].margin, int | float)]
        return replace(worst_of(measured, relative=relative), items=worst.items) if measured else worst
    if worst.status is not Status.NOT_ASSESSED:
        return worst
    keys = tuple(dict.fromkeys(key for _, f in counting for key in f.missing))
    whys = dict.fromkeys(f.why for _, f in counting if f.status is Status.NOT_ASSESSED and f.why)
    return replace(worst, missing=keys, key=keys[0] if keys else "", why="; ".join(whys))


def waits_for(limit: Limit, result: Any, *keys: str) -> Finding:
    """Not assessed because a calculation was not made: its keys, or ``keys`` where it has none."""
    if isinstance(result, NotAssessed) and result.needs:
        return not_assessed(limit, result)
    return not_assessed(limit, keys, result.why if isinstance(result, NotAssessed) else "")
