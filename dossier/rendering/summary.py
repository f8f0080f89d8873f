"""The summary of an assessment for a terminal: plain words, no colour, one screen.

Knows neither templates nor paper, so that ``check`` stays light.
"""

from collections.abc import Iterator
from itertools import groupby
from textwrap import wrap
from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Status
from dossier.data.catalogue import Severity, catalogue
from dossier.data.check_numbers import number_of
from dossier.notation import NotAssessed
from dossier.project.model import Burner
from dossier.rendering.answers import missing_keys, triple
from dossier.rendering.numbers import NOT_APPLICABLE, Limits, Numbers
from dossier.sizing.study import heat_at_burner

if TYPE_CHECKING:
    from dossier.assessment import Assessment
    from dossier.project import Project

MOST_FINDINGS, MOST_KEYS, MOST_REASONS = 12, 5, 8
KEPT = 5
"""Findings of what is not met that are shown in any case."""
NARROWEST = 60
NUMBER = 3
CUT = "…"


def summary(assessment: "Assessment", width: int = 80) -> str:
    """What ``dossier check`` prints: boat, heat, findings worst first, counts, status, what to measure next.

    Nothing that the file says can steer the terminal: characters that do not print are left out.
    """
    wide = max(width, NARROWEST)
    head = [*_heading(assessment), *_heat(assessment)]
    foot = [*_counts(assessment), *_status(assessment), *_measure_next(assessment)]
    said = ([line for each in part for line in _wrapped(each, wide)] for part in (head, foot))
    return "\n\n".join("\n".join(lines) for lines in (next(said), _findings(assessment, wide), next(said)))


def _plain(words: str) -> str:
    """Words without anything that steers a terminal."""
    return "".join(c if c.isprintable() else " " for c in words.replace("\u00a0", " "))


def _cut(words: str, width: int) -> str:
    """Words no wider than ``width``, what is left out marked."""
    return words if len(words) <= width else words[: max(0, width - len(CUT))].rstrip() + CUT


def _wrapped(words: str, width: int) -> list[str]:
    return wrap(_plain(words), width, subsequent_indent="  ", break_on_hyphens=False) or [""]


def _heading(assessment: "Assessment") -> list[str]:
    project = assessment.project
    document, vessel = project.document, project.vessel
    boat = (vessel.name if vessel else None) or "boat without a name"
    parts = [boat, (document.number if document else None) or "no document number"]
    if document and document.revision:
        parts.append(f"revision {document.revision}")
    return [", ".join((*parts, assessment.status.status))]


def _heat(assessment: "Assessment") -> list[str]:
    """Load, burner, what is in hand; or what the load waits for."""
    numbers, study = Numbers(), assessment.study
    loss = study.heat_loss
    output = _output(assessment.project)
    burner = f"Burner {numbers.said(output, 'power_large')}" if output else "No burner with a rated output"
    if isinstance(loss, NotAssessed):
        return [f"Load not assessed: needs {', '.join(loss.needs)}. {burner}."]
    load = numbers.said(float(loss.total), "power_large")
    outside = numbers.said(float(loss.outside_air), "temperature")
    said = f"Load {load} at {outside} outside. {burner}"
    needed = heat_at_burner(loss, study.ring)
    if output and needed is not None:
        margin = numbers.judged(output, float(needed), "power_large", Limits.MINIMUM).margin
        said += f", in hand {margin} (pipes outside the rooms counted)"
    return [f"{said}."]


def _output(project: "Project") -> float:
    """Full output of all burners (W), nought where none is stated."""
    outputs = (burner.output for burner in project.of_kind(Burner))
    return sum((float(one.max) for one in outputs if one is not None and one.max is not None), 0.0)


def _findings(assessment: "Assessment", width: int) -> list[str]:
    """Open findings under their grade and result, worst first, and how many are left out.

    What is not met is not crowded out by dangers that nobody looked at: room is kept for the worst of it.
    """
    open_ = [finding for finding in assessment.worst_first if finding.is_open]
    if not open_:
        return ["No finding is open."]
    lines: list[str] = []
    missed = [finding for finding in open_ if finding.status is Status.NOT_MET][:KEPT]
    others = [finding for finding in open_ if finding not in missed][: MOST_FINDINGS - len(missed)]
    shown = [finding for finding in open_ if finding in missed or finding in others]
    for (grade, status), found in groupby(shown, key=lambda f: (f.severity, f.status)):
        alike = sum(f.severity is grade and f.status is status for f in open_)
        lines.append(f"{grade}, {status} ({alike}):")
        lines += [_cut(_plain(_row(finding, width)), width) for finding in found]
    more = len(open_) - len(shown)
    return [*lines, f"and {more} more of {len(open_)} findings"] if more else lines


def _row(finding: Finding, width: int) -> str:
    """Number, title, what was found against its limit; or what it waits for."""
    room = (width - NUMBER - 2) // 2
    title = _cut(finding.limit.row.title, room)
    head = f"{number_of(finding.check):>{NUMBER}} {title:<{room}} "
    if finding.status is Status.NOT_ASSESSED:
        return f"{head}needs {', '.join(finding.missing)}"
    shown = triple(Numbers(), finding.limit.row, finding)
    if shown.limit == NOT_APPLICABLE:
        return f"{head}{shown.found}"
    return f"{head}{_cut(shown.found, room // 2)}, limit {shown.limit}"


def _counts(assessment: "Assessment") -> list[str]:
    counted = ", ".join(f"{number} {status}" for status, number in list(assessment.counts.items())[::-1])
    dangers = [f for f in assessment.findings if f.severity is Severity.DANGER]
    missed = sum(f.status is Status.NOT_MET for f in dangers)
    unknown = sum(f.status is Status.NOT_ASSESSED for f in dangers)
    held, every = len(assessment.findings), len(catalogue())
    checks = f"{held} checks" if held == every else f"{held} of {every} checks, those this version holds"
    return [
        f"{checks}: {counted}.",
        f"Of {len(dangers)} checks of grade danger {missed} not met, {unknown} not assessed.",
    ]


def _status(assessment: "Assessment") -> list[str]:
    status = assessment.status
    if status.wished == status.status:
        return [f"Status {status.status}, as wished."]
    wished = f"wished was {status.wished}" if status.wished else "none was wished"
    said = f"Status {status.status}; {wished}."
    against = status.refused or status.reasons
    if against and status.wished != "superseded":
        first = against[0].against
        numbers = [str(number_of(reason.check)) for reason in against if reason.against == first]
        more = f" and {len(numbers) - MOST_REASONS} more" if len(numbers) > MOST_REASONS else ""
        said += f" Against {first}: checks {', '.join(numbers[:MOST_REASONS])}{more}."
    return [said]


def _measure_next(assessment: "Assessment") -> Iterator[str]:
    """Keys that hold up most, with their lines."""
    keys = missing_keys(assessment.worst_first)
    if not keys:
        return
    named = []
    for key in list(keys)[:MOST_KEYS]:
        line = assessment.project.where(key)
        named.append(f"{key} (line {line.line})" if line.key and line.line else key)
    more = len(keys) - len(named)
    yield f"Measure or enter next: {', '.join(named)}{f' and {more} more' if more else ''}."
