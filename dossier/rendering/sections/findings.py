"""Section 2: what a reader who stops here must know."""

from collections import Counter
from collections.abc import Iterator, Sequence

from dossier.checking.document_status import AS_BUILT, FOR_CONSTRUCTION, SUPERSEDED, Reason
from dossier.checking.finding import Finding, Status
from dossier.data.catalogue import LimitBasis, Severity, catalogue
from dossier.data.check_numbers import number_of
from dossier.rendering.answers import in_hand
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Column,
    FindingsTable,
    Heading,
    Note,
    Pair,
    Paragraph,
    Side,
    Table,
)
from dossier.rendering.blocks import Finding as FindingRow
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections.finding_words import FindingWords, finding_key, is_for_crew, is_for_yard
from dossier.rendering.sections.findings_facts import UNDOCUMENTED, Facts
from dossier.rendering.sections.findings_text import five_sentences, key_figures, numbers_of, verdict
from dossier.rendering.text import Markup, Text, own, severity_blocks, status_mark, strong, text

NUMBER = Align.NUMBER
LEAST = 5
TALLY_WIDTH = 74.0
RESULTS = (Status.NOT_MET, Status.NOT_ASSESSED, Status.ACCEPTED, Status.NOT_APPLICABLE, Status.MET)


def section(draft: Draft) -> Iterator[Block]:
    """Verdict, five sentences and key figures; the findings worst first; counts and thin margins."""
    facts, said = Facts(draft), FindingWords(draft)
    yield Heading(1, draft.words("findings.title"), key="findings", number="2")
    yield Side([key_figures(facts, said)])
    yield Answer(verdict(facts, said))
    if draft.extent("findings") is Extent.SHORT:
        yield from _short(facts, said)
        return
    yield Paragraph(five_sentences(facts, said))
    yield from _table(facts.open, "table", said)
    counted: list[Block] = [
        tally(draft),
        Note(_whose(facts, said)),
        Note(draft.words("findings.numbers_note")),
    ]
    yield Pair(counted, [*_least(facts, said), *_status(facts, said)], left_width=TALLY_WIDTH)


def _short(facts: Facts, said: FindingWords) -> Iterator[Block]:
    """What the readers of this edition must see or put right, and how many stand elsewhere."""
    yard = facts.draft.edition == "yard"
    if yard:
        kept = tuple(f for f in facts.open if is_for_yard(f))
    else:
        kept = tuple(f for f in facts.open if f.severity is Severity.DANGER or is_for_crew(f))
    yield from _table(kept, "table_yard" if yard else "table_aboard", said)
    if kept:
        yield Note(said.words("findings.numbers_note"))
    others = len(facts.open) - len(kept)
    if others:
        yield Note(
            said.words("findings.others", count=others, count_words=said.numeral(others, capital=True))
        )


def _table(findings: Sequence[Finding], caption: str, said: FindingWords) -> Iterator[Block]:
    words = said.words
    if not findings:
        yield Note(words("findings.none_open" if caption == "table" else "findings.none_open_here"))
        return
    rows = [_row(finding, said) for finding in findings]
    yield FindingsTable(rows, words(f"findings.{caption}"), key="table_findings")


def _row(finding: Finding, said: FindingWords) -> FindingRow:
    shown = said.triple(finding)
    return FindingRow(
        number=said.number(finding),
        severity=str(finding.severity),
        status=str(finding.status),
        title=said.title(finding),
        basis=said.basis(finding),
        found=shown.found,
        limit=shown.limit,
        margin=shown.margin,
        action=said.action(finding),
        who=said.who(finding),
        found_note=said.place(finding) if finding.found is not None else "",
        sheet=said.sheet(finding),
        key=finding_key(finding),
    )


def tally(draft: Draft) -> Table:
    """Counts of grade by result; what a row holds, and a column, add up to the totals."""
    words = draft.words
    counts = Counter((f.severity, f.status) for f in draft.assessment.findings)
    columns = [Column(strong(words("findings.tally_grade")), group=own(" "))]
    columns += [
        Column(words(f"pages.{str(s).replace(' ', '_')}"), group=status_mark(s), align=NUMBER)
        for s in RESULTS
    ]
    rows: list[list[Text]] = [
        [
            text(severity_blocks(grade), " ", words(f"pages.{grade.value}")),
            *(str(counts[grade, status]) for status in RESULTS),
        ]
        for grade in Severity
    ]
    together = [str(sum(counts[grade, status] for grade in Severity)) for status in RESULTS]
    held, every = len(draft.assessment.findings), len(catalogue())
    lacking = every - held
    return Table(
        columns,
        rows,
        words("findings.tally", checks=held),
        key="table_tally",
        totals=[[words("findings.tally_together"), *together]],
        notes=words("findings.held", held=held, all=every, lacking=lacking) if lacking else "",
    )


def least_in_hand(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Met checks with the smallest share of their limit in hand, those of the document itself left out."""
    shares = [(share, f) for f in findings if (share := in_hand(f)) is not None]
    kept = [(share, f) for share, f in shares if f.limit.row.group != UNDOCUMENTED]
    return tuple(f for _, f in sorted(kept, key=lambda pair: pair[0])[:LEAST])


def _least(facts: Facts, said: FindingWords) -> Iterator[Block]:
    words = said.words
    least = least_in_hand(facts.draft.assessment.findings)
    if not least:
        yield Note(words("findings.least_none"))
        return
    rows = []
    for finding in least:
        shown = said.triple(finding)
        rows.append((finding.limit.row.title, shown.found, shown.limit, shown.margin))
    yield Table(
        [
            Column(words("findings.least_check")),
            Column(words("findings.least_found"), align=NUMBER),
            Column(words("findings.least_limit"), align=NUMBER),
            Column(words("findings.least_margin"), align=NUMBER, strong=True),
        ],
        rows,
        words("findings.least"),
        key="table_least",
        notes=words("findings.least_note"),
    )


def _whose(facts: Facts, said: FindingWords) -> Markup:
    words = said.words
    counts = Counter(f.limit.basis for f in facts.open_dangers)
    parts = [
        str(
            words(
                "findings.whose_count",
                basis=words(f"findings.whose_{str(basis).replace(' ', '_')}"),
                count=counts[basis],
            )
        )
        for basis in LimitBasis
        if counts[basis]
    ]
    if facts.unknown_dangers:
        parts.append(str(words("findings.whose_unknown", count=len(facts.unknown_dangers))))
    return words("findings.whose", counts=", ".join(parts)) if parts else words("findings.whose_none")


def _status(facts: Facts, said: FindingWords) -> Iterator[Block]:
    """Why the document bears its status, where that is not the one wished for or none is."""
    words, status = said.words, facts.draft.assessment.status
    title = strong(words("findings.status_title", status=status.status))
    if status.wished == SUPERSEDED:
        yield Paragraph(text(title, " ", words("findings.status_superseded")))
        return
    if status.wished == status.status:
        sentences = [words("findings.status_as_wished", status=status.status)]
    elif status.wished is None:
        sentences = [words("findings.status_allowed", allowed=status.allowed)]
    else:
        sentences = [words("findings.status_lower", wished=status.wished, allowed=status.allowed)]
    for against in (FOR_CONSTRUCTION, AS_BUILT):
        reasons = [reason for reason in status.reasons if reason.against == against]
        if reasons:
            sentences.append(_against(facts, said, against, reasons))
    yield Paragraph(text(title, *(piece for sentence in sentences for piece in (" ", sentence))))


def _why(reason: Reason, facts: Facts) -> Text:
    """What a check came to; of one that was not made, the inputs it waits for in words."""
    finding = facts.of_check(reason.check)
    if (
        finding is None
        or finding.status is not Status.NOT_ASSESSED
        or not reason.why.startswith(finding.status)
    ):
        return reason.why
    inputs = facts.draft.inputs.listed(finding.missing, with_keys=False)
    return facts.draft.words("findings.status_needs", inputs=inputs)


def _against(facts: Facts, said: FindingWords, against: str, reasons: Sequence[Reason]) -> Markup:
    """What stands against a status: findings by number, and those of the document by their words."""
    against_it = {reason.check for reason in reasons}
    listed = sorted((f for f in facts.open if f.check in against_it), key=lambda f: number_of(f.check))
    parts = (
        [said.words("findings.status_findings", numbers=numbers_of(tuple(listed), said, len(listed)))]
        if listed
        else []
    )
    shown = {f.check for f in listed}
    parts += [
        said.words(
            "findings.status_finding",
            number=str(number_of(reason.check)),
            title=reason.title or reason.check,
            why=_why(reason, facts),
        )
        for reason in reasons
        if reason.check not in shown
    ]
    joined = text(*(piece for part in parts for piece in ((", ", part) if part is not parts[0] else (part,))))
    return said.words("findings.status_against", status=against, count=len(reasons), numbers=joined)
