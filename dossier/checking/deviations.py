"""Accepted deviations: which are whole and in force, and what they make of a finding.

A deviation never turns a finding into *met*. An unknown cannot be accepted: what was not assessed stays so.
"""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from dossier.checking.dates import DATE, today
from dossier.checking.finding import Finding, Status
from dossier.checking.judging import joined
from dossier.data.catalogue import Severity, catalogue

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model import Deviation

ASKED = {
    "reason": "reason",
    "instead": "what is done instead",
    "by": "name",
    "date": "date",
    "until": "end date",
}


def shortcomings(deviation: "Deviation", now: dt.date | None) -> tuple[str, ...]:
    """What a deviation lacks to count: its fields, its second name for a danger, its time."""
    lacking = [f"no {word}" for field, word in ASKED.items() if not getattr(deviation, field)]
    if catalogue()[deviation.check].severity is Severity.DANGER:
        by, second = (deviation.by or "").strip().casefold(), (deviation.with_ or "").strip().casefold()
        if not second or second == by:
            lacking.append("no second name, of a surveyor or licensed trade")
    if now is None:
        lacking.append(f"no {DATE} to hold its dates against")
        return tuple(lacking)
    if deviation.date is not None and deviation.date.first > now:
        lacking.append(f"dated {deviation.date}, after the document")
    if deviation.until is not None and deviation.until.last < now:
        lacking.append(f"expired {deviation.until}")
    return tuple(lacking)


def apply_deviations(project: "Project", findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, those accepted that a whole deviation in force is written for.

    Where a check is met by what the file says, but somebody wrote down that it is not and accepts it, the
    written word counts: the finding is accepted, with what was calculated as a remark.
    """
    now = today(project)
    written: dict[str, Deviation] = {}
    for deviation in project.deviations or ():
        known = written.get(deviation.check)
        if known is None or shortcomings(known, now):
            written[deviation.check] = deviation
    return tuple(
        _accepted(finding, written[finding.check], now) if finding.check in written else finding
        for finding in findings
    )


def _accepted(finding: Finding, deviation: "Deviation", now: dt.date | None) -> Finding:
    if finding.status not in {Status.NOT_MET, Status.MET}:
        remark = "a deviation is written for it, but only what was found can be accepted"
        return replace(finding, remark=joined(finding.remark, remark))
    lacking = shortcomings(deviation, now)
    if lacking:
        remark = f"its deviation does not count: {', '.join(lacking)}"
        return replace(finding, remark=joined(finding.remark, remark))
    names = f"{deviation.by} with {deviation.with_}" if deviation.with_ else f"{deviation.by}"
    accepted = f"accepted by {names} until {deviation.until}; instead: {deviation.instead}"
    if finding.status is Status.NOT_MET:
        return replace(finding, status=Status.ACCEPTED, remark=joined(accepted, finding.remark))
    return replace(
        finding,
        status=Status.ACCEPTED,
        found=deviation.found or finding.found,
        margin="see the deviation",
        remark=joined(accepted, "met by what the file says of it otherwise", finding.remark),
    )
