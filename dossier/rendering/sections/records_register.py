"""Section 10.3: findings and deviations with their state, and room to close them."""

from collections.abc import Iterator, Sequence

from dossier.checking.finding import Finding, Status
from dossier.project.model import Deviation
from dossier.rendering.blocks import Block, Column, Heading, Note, Paragraph, Span, Table, Together
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.sections.finding_words import FindingWords, is_for_yard
from dossier.rendering.text import Text, severity_blocks, text

PITCH = 9.0
YARD = "yard"


def register(draft: Draft, number: str) -> Iterator[Block]:
    """Open and accepted findings, then the deviations in full."""
    words, said = draft.words, FindingWords(draft)
    head = Heading(2, words("records.register_title"), key="register", number=number)
    listed = [finding for finding in draft.assessment.worst_first if _is_listed(draft, finding)]
    if listed:
        yield Together([head, Paragraph(words("records.register")), _findings(said, listed)])
    else:
        yield head
        yield Note(words("records.register_none"))
    waiting = sum(f.is_open and f.status is Status.NOT_ASSESSED for f in draft.assessment.findings)
    if waiting:
        yield Note(words("records.register_more", count=waiting))
    deviations = draft.project.deviations or ()
    if deviations:
        yield _deviations(said, deviations)


def _is_listed(draft: Draft, finding: Finding) -> bool:
    """Findings that somebody must close; in the yard's edition those that a yard has to do with."""
    if finding.status not in {Status.NOT_MET, Status.ACCEPTED}:
        return False
    return draft.edition != YARD or is_for_yard(finding)


def _findings(said: FindingWords, listed: Sequence[Finding]) -> Table:
    words = said.words
    rows: list[Sequence[Cell]] = [
        [
            said.number(finding),
            finding.limit.row.title,
            text(severity_blocks(str(finding.severity)), " ", words(f"pages.{finding.severity.value}")),
            said.triple(finding).found,
            _state(said, finding),
            "",
        ]
        for finding in listed
    ]
    heads = (("number", 8.0), ("finding", 50.0), ("grade", 22.0), ("found", 28.0), ("state", 24.0))
    return Table(
        [
            *(Column(words(f"records.column_{name}"), width=width) for name, width in heads),
            Column(words("records.column_closed"), width=32.0),
        ],
        rows,
        words("records.register_caption"),
        key="table_register",
        span=Span.FULL,
        pitch=PITCH if said.draft.edition != "survey" else 0.0,
    )


def _state(said: FindingWords, finding: Finding) -> Text:
    deviation = said.deviations.get(finding.check)
    if finding.status is Status.ACCEPTED and deviation is not None:
        return said.words("records.state_accepted", until=str(deviation.until or NOT_APPLICABLE))
    return said.words("records.state_open")


def _deviations(said: FindingWords, deviations: Sequence[Deviation]) -> Table:
    words = said.words
    titles = {finding.check: finding for finding in said.draft.assessment.findings}
    rows: list[Sequence[Cell]] = []
    for one in deviations:
        finding = titles.get(one.check)
        rows.append(
            [
                said.number(finding) if finding is not None else NOT_APPLICABLE,
                finding.limit.row.title if finding is not None else one.check,
                one.found or NOT_APPLICABLE,
                one.reason or NOT_APPLICABLE,
                one.instead or NOT_APPLICABLE,
                said.names(one) or NOT_APPLICABLE,
                words(
                    "records.from_until",
                    date=str(one.date or NOT_APPLICABLE),
                    until=str(one.until or NOT_APPLICABLE),
                ),
            ]
        )
    heads = (
        ("number", 8.0),
        ("finding", 27.0),
        ("found", 30.0),
        ("reason", 32.0),
        ("instead", 29.0),
        ("accepted", 27.0),
        ("until", 22.0),
    )
    return Table(
        [Column(words(f"records.column_{name}"), width=width) for name, width in heads],
        rows,
        words("records.deviations_caption"),
        key="table_deviations",
        span=Span.FULL,
    )
