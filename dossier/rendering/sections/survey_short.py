"""Section 5 for those who do the work: their checks in short tables, worst first, each with its package."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from dossier.checking.finding import Finding, Status
from dossier.data.catalogue import Severity
from dossier.data.commissioning import work_packages
from dossier.data.wording import wanted
from dossier.rendering.blocks import Align, Answer, Block, Column, Note, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.finding_words import FindingWords, check_key
from dossier.rendering.sections.yard_package import asked_of
from dossier.rendering.text import Text, own, severity_blocks, target, text
from dossier.sizing.needs_aboard import needs_met

FEW = 2
"""Missing inputs named in a row."""


def short_survey(draft: Draft, findings: Sequence[Finding]) -> Iterator[Block]:
    """What the checks came to, a table for each result, and the numbers of those that do not apply."""
    words, said = draft.words, FindingWords(draft)
    ruled_out = [f for f in findings if f.status is Status.NOT_APPLICABLE]
    apply = [f for f in findings if f.status is not Status.NOT_APPLICABLE]
    yield _answer(apply, said)
    tables = _Tables(packages_of(draft), said)
    yield from tables.judged([f for f in apply if f.status in {Status.NOT_MET, Status.ACCEPTED}], "not_met")
    yield from tables.unknown([f for f in apply if f.status is Status.NOT_ASSESSED])
    yield from tables.judged([f for f in apply if f.status is Status.MET], "met")
    if ruled_out:
        numbers = sorted(ruled_out, key=lambda finding: int(said.number(finding)))
        linked: list[Text] = []
        for finding in numbers:
            linked += [own(", ")] if linked else []
            linked.append(target(check_key(finding), said.number(finding)))
        yield Note(words("survey.short_not_applicable", numbers=text(*linked), count=len(numbers)))


def packages_of(draft: Draft) -> Mapping[str, str]:
    """Numbers of the work packages that must meet a check, by the check."""
    aboard = needs_met(draft.project)
    found: dict[str, list[int]] = {}
    for package in work_packages():
        if wanted(package.needs, aboard):
            for finding in asked_of(draft, package):
                found.setdefault(finding.check, []).append(package.number)
    return {check: ", ".join(map(str, numbers)) for check, numbers in found.items()}


def _answer(findings: Sequence[Finding], said: FindingWords) -> Answer:
    counts = Counter(finding.status for finding in findings)
    dangers = sum(
        f.severity is Severity.DANGER and f.status in {Status.NOT_MET, Status.NOT_ASSESSED} for f in findings
    )
    return Answer(
        said.words(
            "survey.short_answer",
            count=len(findings),
            missed=counts[Status.NOT_MET],
            unknown=counts[Status.NOT_ASSESSED],
            dangers=dangers,
        )
    )


class _Tables:
    """The tables of one draft, each of one result and worst first."""

    def __init__(self, packages: Mapping[str, str], said: FindingWords) -> None:
        self.packages, self.said, self.words = packages, said, said.words

    def judged(self, findings: Sequence[Finding], result: str) -> Iterator[Block]:
        """Those with a figure or a fact: found, limit, margin."""
        heads = (("found", 27.0), ("limit", 27.0), ("margin", 23.0))
        columns = [
            Column(self.words(f"survey.{head}"), align=Align.NUMBER, width=wide) for head, wide in heads
        ]
        rows = [self._row(finding, self._judged(finding)) for finding in findings]
        yield from self._table(columns, rows, result, self.words("survey.short_notes"))

    def unknown(self, findings: Sequence[Finding]) -> Iterator[Block]:
        """Those that were not made: their limit, and what they wait for."""
        columns = [
            Column(self.words("survey.limit"), width=27.0),
            Column(self.words("survey.short_needs"), width=60.0),
        ]
        rows = [self._row(finding, self._unknown(finding)) for finding in findings]
        yield from self._table(columns, rows, "not_assessed")

    def _table(
        self, columns: Sequence[Column], rows: Sequence[Sequence[Text]], result: str, notes: Text = ""
    ) -> Iterator[Block]:
        words = self.words
        before = (("number", 8.0), ("check", None), ("grade", 23.0))
        if rows:
            yield Table(
                [
                    *(Column(words(f"survey.{head}"), width=wide) for head, wide in before),
                    *columns,
                    Column(words("survey.package"), align=Align.NUMBER, width=15.0),
                ],
                rows,
                words(f"survey.short_{result}"),
                key=f"table_survey_{result}",
                notes=notes,
                span=Span.FULL,
            )

    def _row(self, finding: Finding, middle: Sequence[Text]) -> list[Text]:
        title: list[Text] = [finding.limit.row.title]
        if finding.found is not None and finding.place and finding.is_open:
            title += [own(" ("), self.said.place(finding), own(")")]
        if finding.status is Status.ACCEPTED:
            title += [own("; "), self.words("pages.accepted_deviation")]
        grade = str(finding.severity)
        return [
            target(check_key(finding), self.said.number(finding)),
            text(*title),
            text(severity_blocks(grade), " ", self.words(f"pages.{grade}")),
            *middle,
            self.packages.get(finding.check, ""),
        ]

    def _judged(self, finding: Finding) -> list[Text]:
        shown = self.said.triple(finding)
        return [shown.found, shown.limit, shown.margin]

    def _unknown(self, finding: Finding) -> list[Text]:
        return [self.said.triple(finding).limit, self.said.keys(finding, FEW, with_keys=False)]
