"""From project to findings: everything calculated, every check made, the status that follows.

assessment = assess(load("boat.yaml"))
assessment.results["heat_loss.total"].value
"""

from collections import Counter
from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any

from dossier.checking.deviations import apply_deviations
from dossier.checking.document_status import DocumentStatus, document_status
from dossier.checking.finding import Finding, Status
from dossier.checking.guesses import largest_effect
from dossier.checking.run import all_findings
from dossier.notation import Basis, Influence, Result, named_results
from dossier.notation.records import dataclass
from dossier.sizing.study import Study, study

if TYPE_CHECKING:
    from dossier.project import Project

FORMAT = 1


@dataclass(frozen=True)
class Assessment:
    """One project, calculated and checked."""

    project: "Project"
    study: Study
    findings: tuple[Finding, ...]
    status: DocumentStatus

    @cached_property
    def results(self) -> Mapping[str, Result]:
        """All results by name, in the order of the calculation; how sure they are tells ``spreads``."""
        return {result.name: result for result in named_results((self.study, self.study.nights, self.status))}

    @cached_property
    def spreads(self) -> Mapping[str, Result]:
        """Percentiles and indices by name (``uncertainty.…``), and the effect of the largest guess.

        Sampled when first asked for.
        """
        found = (self.study.uncertainty, largest_effect(self.study))
        return {result.name: result for result in named_results(found)}

    @cached_property
    def influence(self) -> Influence:
        """What each input moves; kept, since many results rest on the same workings."""
        return Influence()

    def basis(self, name: str) -> Basis:
        """Basis of a result: the weakest among the inputs that matter for it."""
        found = self.results.get(name) or self.spreads[name]
        return self.influence.basis(found.value)

    @cached_property
    def counts(self) -> Mapping[Status, int]:
        """How many checks came to each result."""
        counted = Counter(finding.status for finding in self.findings)
        return {status: counted[status] for status in Status}

    @property
    def worst_first(self) -> tuple[Finding, ...]:
        """Findings in the order of the page: worst first, the catalogue's order within."""
        return tuple(sorted(self.findings, key=_urgency))


def _urgency(finding: Finding) -> tuple[int, int]:
    """Danger not met, danger not assessed, fault not met, accepted, attention not met, the rest."""
    grade = finding.severity.rank
    if finding.status is Status.NOT_MET:
        return ((0, 2, 4)[grade], 0)
    if finding.status is Status.NOT_ASSESSED:
        return (1, 0) if grade == 0 else (5, grade)
    if finding.status is Status.ACCEPTED:
        return (3, grade)
    return (6, 0) if finding.status is Status.MET else (7, 0)


def assess(project: "Project") -> Assessment:
    """Calculate and check a project.

    Raises ``ProjectFaults`` where the file describes something that cannot be calculated, ``OutOfRange`` and
    ``NotConverged`` where a number leaves the range of its formula or no answer can be proven.
    """
    found = study(project)
    findings = apply_deviations(project, all_findings(found))
    return Assessment(project, found, findings, document_status(project, findings))


def as_plain(assessment: Assessment) -> dict[str, Any]:
    """The assessment as plain data for programs: format 1, SI numbers, nothing rounded."""
    project = assessment.project
    document = project.document
    return {
        "format": FORMAT,
        "project": {
            "number": document.number if document else None,
            "revision": document.revision if document else None,
            "name": project.vessel.name if project.vessel else None,
            "status": str(assessment.status.status),
            "status_wished": str(assessment.status.wished) if assessment.status.wished else None,
        },
        "results": {
            name: {
                "value": float(result.value),
                "unit": result.quantity.unit,
                "label": result.quantity.label,
                "basis": str(assessment.basis(name)),
            }
            for name, result in {**assessment.results, **assessment.spreads}.items()
        },
        "checks": [_plain_finding(assessment, finding) for finding in assessment.findings],
        "summary": {str(status): number for status, number in assessment.counts.items()},
    }


def _plain_finding(assessment: Assessment, finding: Finding) -> dict[str, Any]:
    limit = finding.limit
    line = assessment.project.where(finding.key).line if finding.key else None
    return {
        "id": finding.check,
        "title": limit.row.title,
        "status": str(finding.status),
        "severity": str(finding.severity),
        "value": _plain(finding.found),
        "limit": _plain(finding.bound),
        "unit": finding.unit or limit.row.unit or None,
        "margin": _plain(finding.margin),
        "limit_basis": str(limit.basis),
        "source": limit.source,
        "advice": limit.row.advice,
        "where": {"line": line},
    }


def _plain(value: Any) -> float | str | None:
    return value if value is None or isinstance(value, str) else float(value)
