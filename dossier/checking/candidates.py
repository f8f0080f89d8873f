"""Which way out for the exhaust is the best one, and why?

Every candidate goes through all checks of the exhaust. Fewest dangers not met comes first, then fewest
dangers nobody could look at, faults, faults not looked at, attentions; among equals the shorter exhaust.
"""

from dataclasses import replace
from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Status
from dossier.checking.run import limit_of, written_checks
from dossier.data.catalogue import Severity
from dossier.notation import NotAssessed
from dossier.notation.records import dataclass
from dossier.sizing.exhaust import ExhaustStudy

if TYPE_CHECKING:
    from dossier.sizing.study import Study

GROUP = "exhaust."
RANKS = (
    (Severity.DANGER, Status.NOT_MET),
    (Severity.DANGER, Status.NOT_ASSESSED),
    (Severity.FAULT, Status.NOT_MET),
    (Severity.FAULT, Status.NOT_ASSESSED),
    (Severity.ATTENTION, Status.NOT_MET),
)


@dataclass(frozen=True)
class Candidate:
    """One way out with all its findings; ``name`` is empty for the exhaust as it is."""

    name: str
    way: ExhaustStudy
    findings: tuple[Finding, ...]

    @property
    def not_met(self) -> tuple[Finding, ...]:
        """Checks it does not meet, in the order of the catalogue."""
        return tuple(finding for finding in self.findings if finding.status is Status.NOT_MET)

    def count(self, severity: Severity, status: Status) -> int:
        """How many of its checks of a grade came to a result."""
        return sum(f.severity is severity and f.status is status for f in self.findings)

    @property
    def rank(self) -> tuple[float, ...]:
        """What it is ordered by: the smaller, the better."""
        length = float("inf") if self.way.length is None else float(self.way.length)
        return (*(self.count(severity, status) for severity, status in RANKS), length)

    @property
    def reason(self) -> str:
        """The counts that it stands or falls by, in words."""
        counts = {pair: self.count(*pair) for pair in RANKS}
        said = [
            f"{number} of grade {severity} {status}"
            for (severity, status), number in counts.items()
            if number
        ]
        return ", ".join(said) or "every check met or not applicable"


def _findings(study: "Study", way: ExhaustStudy) -> tuple[Finding, ...]:
    seen = replace(study, exhaust=way)
    checks = {name: check for name, check in written_checks().items() if name.startswith(GROUP)}
    return tuple(check(seen, limit_of(study, name)) for name, check in checks.items())


def ways_out(study: "Study") -> tuple[Candidate, ...]:
    """The exhaust as it is and all candidates, the best first."""
    ways = {} if isinstance(study.exhaust, NotAssessed) else {"": study.exhaust}
    ways |= study.candidates
    found = (Candidate(name, way, _findings(study, way)) for name, way in ways.items())
    return tuple(sorted(found, key=lambda candidate: candidate.rank))
