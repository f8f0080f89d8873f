"""Section 5 for those who do the work: their checks in short tables, worst first, each with its package."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from dossier.checking.finding import Finding, Status
from dossier.data.catalogue import Severity
from dossier.data.commissioning import work_packages
from dossier.data.wording import wanted
from dossier.rendering.blocks import Align, Answer, Block, Column, Note, Span, Table, TwoColumns
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
    yield from tables.missed([f for f in apply if f.status in {Status.NOT_MET, Status.ACCEPTED}])
    unknown = [f for f in apply if f.status is Status.NOT_ASSESSED]
    met = [f for f in apply if f.status is Status.MET]
    yield TwoColumns([*tables.unknown(unknown), *tables.met(met)])
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

    def missed(self, findings: Sequence[Finding]) -> Iterator[Block]:
        """Those with a figure or a fact that does not hold: found, limit, margin."""
        heads = (("found", 27.0), ("limit", 27.0), ("margin", 23.0))
        columns = [
            Column(self.words(f"survey.{head}"), align=Align.NUMBER, width=wide) for head, wide in heads
        ]
        rows = [self._row(finding, self._judged(finding)) for finding in findings]
        yield from self._table(columns, rows, "not_met", self.words("survey.short_notes"))

    def unknown(self, findings: Sequence[Finding]) -> Iterator[Block]:
        """Those that were not made: what they wait for."""
        rows = [self._row(finding, [], self._waits(finding)) for finding in findings]
        yield from self._table([], rows, "not_assessed")

    def met(self, findings: Sequence[Finding]) -> Iterator[Block]:
        """Those that hold as planned: their limit."""
        rows = [self._row(finding, [], self._kept(finding)) for finding in findings]
        yield from self._table([], rows, "met")

    def _table(
        self, columns: Sequence[Column], rows: Sequence[Sequence[Text]], result: str, notes: Text = ""
    ) -> Iterator[Block]:
        words = self.words
        if rows:
            yield Table(
                [
                    Column(words("survey.number"), width=7.0),
                    Column(words("survey.check_by_grade")),
                    *columns,
                    Column(words("survey.package"), align=Align.NUMBER, width=13.0),
                ],
                rows,
                words(f"survey.short_{result}"),
                key=f"table_survey_{result}",
                notes=notes,
                span=Span.FULL,
            )

    def _row(self, finding: Finding, middle: Sequence[Text], below: Text = "") -> list[Text]:
        grade = str(finding.severity)
        title: list[Text] = [severity_blocks(grade), " ", self.words(f"pages.{grade}"), own(": ")]
        title.append(finding.limit.row.title)
        if finding.found is not None and finding.place and finding.is_open:
            title += [own(" ("), self.said.place(finding), own(")")]
        if finding.status is Status.ACCEPTED:
            title += [own("; "), self.words("pages.accepted_deviation")]
        title += [own(". "), below] if below else []
        return [
            target(check_key(finding), self.said.number(finding)),
            text(*title),
            *middle,
            self.packages.get(finding.check, ""),
        ]

    def _judged(self, finding: Finding) -> list[Text]:
        shown = self.said.triple(finding)
        return [shown.found, shown.limit, shown.margin]

    def _kept(self, finding: Finding) -> Text:
        return self.words("survey.short_limit", limit=self.said.triple(finding).limit)

    def _waits(self, finding: Finding) -> Text:
        """Limit, and what is missing."""
        limit, keys = self.said.triple(finding).limit, self.said.keys(finding, FEW, with_keys=False)
        return self.words("survey.short_waits", limit=limit, keys=keys)
