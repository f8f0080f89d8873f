"""Which status the data allow the document, and what stands against the one wished for."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Annotated

from dossier.checking.finding import Finding, Status
from dossier.checking.signatures import unsigned
from dossier.checking.stated import stated
from dossier.data.catalogue import Severity
from dossier.notation import ARITHMETIC, Real, q, solved
from dossier.notation.records import dataclass

if TYPE_CHECKING:
    from dossier.project import Project

DRAFT, FOR_CONSTRUCTION, AS_BUILT, SUPERSEDED = "draft", "for construction", "as built", "superseded"
RISING = (DRAFT, FOR_CONSTRUCTION, AS_BUILT)
TESTS = "commissioning"
SETTLED = (Status.MET, Status.NOT_APPLICABLE)
DANGERS = q("n", "1", "danger-grade checks not assessed", name="document.dangers_not_assessed")
OPEN_TESTS = q("n", "1", "hold points not signed", name="document.tests_open")


@dataclass(frozen=True)
class Reason:
    """One thing that stands against a status: the check, and what it came to."""

    against: str
    check: str
    title: str
    why: str


@dataclass(frozen=True)
class DocumentStatus:
    """The status the data allow, the one wished for, and why they differ.

    ``status`` is the one printed: what is wished, but never more than is allowed; where nothing is wished,
    what is allowed. ``reasons`` hold what stands against every status above the allowed one.
    """

    status: str
    allowed: str
    wished: str | None
    reasons: tuple[Reason, ...]
    dangers_not_assessed: Annotated[Real, DANGERS]
    tests_open: Annotated[Real, OPEN_TESTS]

    @property
    def refused(self) -> tuple[Reason, ...]:
        """Reasons why the status wished for is not printed; none where it is."""
        if self.wished not in RISING:
            return ()
        beyond = RISING[: RISING.index(self.wished) + 1]
        return tuple(reason for reason in self.reasons if reason.against in beyond)


def waits_for_a_test(finding: Finding) -> bool:
    """Whether all a check waits for are results of tests."""
    return bool(finding.missing) and all(key.split(".")[0] == TESTS for key in finding.missing)


def document_status(project: "Project", findings: Iterable[Finding]) -> DocumentStatus:
    """Status that the findings allow, deviations applied; and the one to print."""
    found = tuple(findings)
    dangers = [f for f in found if f.severity is Severity.DANGER]
    for_construction = [*_construction(dangers)]
    as_built = [*_as_built(project, found, dangers)]
    allowed = DRAFT if for_construction else FOR_CONSTRUCTION if as_built else AS_BUILT
    wished = stated(project, "document.status_wished")
    printed = allowed
    if wished == SUPERSEDED:
        printed = SUPERSEDED
    elif wished in RISING:
        printed = min(wished, allowed, key=RISING.index)
    unknown = sum(f.status is Status.NOT_ASSESSED for f in dangers)
    return DocumentStatus(
        printed,
        allowed,
        wished,
        (*for_construction, *as_built),
        solved(float(unknown), DANGERS, "n = count of the checks", ARITHMETIC),
        solved(float(len(unsigned(project))), OPEN_TESTS, "n = count of the hold points", ARITHMETIC),
    )


def _reason(against: str, finding: Finding) -> Reason:
    told = finding.status.value
    if finding.status is Status.NOT_ASSESSED and finding.missing:
        told = f"{told}: needs {', '.join(finding.missing)}"
    return Reason(against, finding.check, finding.limit.row.title, told)


def _construction(dangers: Sequence[Finding]) -> Iterable[Reason]:
    """Dangers not met and not accepted, and those not assessed for want of more than a test."""
    for finding in dangers:
        unknown = finding.status is Status.NOT_ASSESSED and not waits_for_a_test(finding)
        if finding.status is Status.NOT_MET or unknown:
            yield _reason(FOR_CONSTRUCTION, finding)


def _as_built(project: "Project", found: Sequence[Finding], dangers: Sequence[Finding]) -> Iterable[Reason]:
    """Dangers that wait for a test, an exhaust that was not measured, hold points that are not signed."""
    for finding in dangers:
        if finding.status is Status.NOT_ASSESSED and waits_for_a_test(finding):
            yield _reason(AS_BUILT, finding)
    by_check = {finding.check: finding for finding in found}
    measured = by_check.get("document.exhaust_measured")
    if measured is not None and measured.status not in SETTLED:
        yield _reason(AS_BUILT, measured)
    elif measured is None:
        yield Reason(
            AS_BUILT, "document.exhaust_measured", "Exhaust measured aboard, not drawn", "not checked"
        )
    signatures = unsigned(project)
    if signatures:
        told = ", ".join(f"Hold {number}" for number in signatures)
        title = (
            by_check["document.commissioned"].limit.row.title if "document.commissioned" in by_check else ""
        )
        yield Reason(AS_BUILT, "document.commissioned", title, f"not signed: {told}")
