"""The checks of one group: each with its figures, whose limit it is, on which data, and what it waits for."""

from collections import Counter
from collections.abc import Iterator, Sequence

from dossier.checking.finding import Finding, Item, Status
from dossier.data.catalogue import LimitBasis, Severity
from dossier.rendering.answers import limit_in_words, limit_of_row, triple
from dossier.rendering.blocks import Align, Answer, Block, Check, ChecksTable, Column, Note, Span, Table
from dossier.rendering.draft import Extent
from dossier.rendering.sections.finding_words import FindingWords, check_key
from dossier.rendering.text import Markup, Text, capital, own, severity_blocks, status_mark, text

NUMBER = Align.NUMBER
KEYS = 8
"""Missing keys named beside a check."""
MOST, MOST_CONCISE = 8, 3
"""Things one check looked at that are listed one by one; beyond that the worst of them."""
REST = (Status.MET, Status.NOT_ASSESSED, Status.ACCEPTED, Status.NOT_APPLICABLE)


def group_answer(findings: Sequence[Finding], said: FindingWords) -> Answer:
    """How many checks of a group are not met, and what the others came to."""
    words, counts = said.words, Counter(finding.status for finding in findings)
    applicable = len(findings) - counts[Status.NOT_APPLICABLE]
    open_ = counts[Status.NOT_MET]
    dangers = sum(f.status is Status.NOT_MET and f.severity is Severity.DANGER for f in findings)
    if not applicable:
        return Answer(words("survey.answer_none_apply", checks_words=said.numeral(len(findings))))
    if open_:
        strong = words(
            "survey.answer_open",
            open=open_,
            open_words=said.numeral(open_, capital=True),
            checks_words=said.numeral(len(findings)),
            dangers=dangers,
            dangers_words=said.numeral(dangers),
        )
    elif applicable and counts[Status.NOT_ASSESSED] == applicable:
        strong = words("survey.answer_nothing", checks_words=said.numeral(applicable))
    else:
        strong = words("survey.answer_none_open", checks_words=said.numeral(len(findings)))
    rest = [
        str(words(f"survey.count_{str(status).replace(' ', '_')}", count=counts[status]))
        for status in REST
        if counts[status]
    ]
    return Answer(strong, words("survey.answer_counts", counts=", ".join(rest)) if rest else "")


def group_checks(
    findings: Sequence[Finding],
    said: FindingWords,
    shown_elsewhere: frozenset[str] = frozenset(),
) -> Iterator[Block]:
    """Checks worst first, what they looked at one by one, and those that a rule leaves out.

    ``shown_elsewhere`` are checks whose items stand in tables of their own. Where the part is concise,
    what is met is not taken apart.
    """
    concise = said.draft.extent("survey") is Extent.CONCISE
    apply = [f for f in findings if f.status is not Status.NOT_APPLICABLE]
    if apply:
        yield ChecksTable([_check(f, said) for f in apply], said.words("survey.checks"))
    known = [f for f in apply if any(item.found is not None for item in f.items)]
    itemised = [
        f
        for f in known
        if f.check not in shown_elsewhere and (len(f.items) > 1 or f.items[0].what != f.place)
    ]
    if concise:
        itemised = [f for f in itemised if f.is_open and len(f.items) > 1]
    if itemised:
        yield _items(itemised, said, concise=concise)
    ruled_out = [f for f in findings if f.status is Status.NOT_APPLICABLE]
    if ruled_out and concise:
        yield Note(_ruled_out_in_words(ruled_out, said))
    elif ruled_out:
        yield _ruled_out(ruled_out, said)


def _check(finding: Finding, said: FindingWords) -> Check:
    row, shown = finding.limit.row, said.triple(finding, both=True)
    return Check(
        number=said.number(finding),
        severity=str(finding.severity),
        status=str(finding.status),
        title=row.title,
        question=row.question,
        found=shown.found,
        limit=shown.limit,
        margin=shown.margin,
        found_note=said.place(finding) if finding.found is not None else "",
        notes=[note for note in _notes(finding, said) if note],
        key=check_key(finding),
    )


def _spaced(*parts: Text) -> Markup:
    kept = [part for part in parts if part]
    return text(*(piece for n, part in enumerate(kept) for piece in ((own(" "), part) if n else (part,))))


def _notes(finding: Finding, said: FindingWords) -> Iterator[Text]:
    """Limit in words and its source; data and remark, or what is missing; deviation; photographs."""
    words, basis = said.words, said.weakest_basis(finding)
    concise = said.draft.extent("survey") is Extent.CONCISE
    rests_on: Text = ""
    if finding.status is Status.NOT_ASSESSED:
        rests_on = words(
            "answers.waits_for", why=finding.why, keys=said.keys(finding, KEYS, with_keys=not concise)
        )
    elif basis is not None:
        rests_on = words("answers.data_says", basis=basis[0], line=str(basis[1] or ""))
    if finding.status is Status.NOT_ASSESSED and concise:
        asked = limit_in_words(said.draft.numbers, finding.limit.row)
        yield _spaced(words("answers.limit_asked", words=asked, whose=said.whose(finding)), rests_on)
        return
    if finding.status is Status.MET and concise:
        line = "" if basis is None or basis[1] is None else str(basis[1])
        yield _spaced(words("answers.rests", basis=said.basis(finding), line=line), _remark(finding, said))
        return
    yield _spaced(_limit(finding, said), rests_on, _remark(finding, said))
    deviation = said.deviations.get(finding.check)
    if deviation is not None and finding.status is Status.ACCEPTED:
        blank = str(words("title.not_stated"))
        yield words(
            "answers.deviation_says",
            found=deviation.found or blank,
            reason=deviation.reason or blank,
            instead=deviation.instead or blank,
            names=said.names(deviation),
            date=str(deviation.date or blank),
            until=str(deviation.until or blank),
        )
    for picture in said.draft.project.pictures or ():
        if picture.check == finding.check:
            yield words(
                "survey.photograph",
                file=picture.file,
                caption=picture.caption or "",
                looking=picture.looking or "",
                date=str(picture.date or ""),
            )


def _limit(finding: Finding, said: FindingWords) -> Markup:
    words, limit, numbers = said.words, finding.limit, said.draft.numbers
    phrase = limit_in_words(numbers, limit.row)
    if not limit.overridden:
        name = "answers.limit_source_same" if limit.basis is LimitBasis.STANDARD else "answers.limit_source"
        basis = str(limit.basis)
        if limit.source.casefold().startswith(basis.casefold()):
            name = "answers.limit_source_same"
        basis = basis[:1].upper() + basis[1:]
        return _spaced(
            words("answers.limit_says", words=phrase), words(name, basis=basis, source=limit.source)
        )
    own_figure = limit_of_row(numbers, finding)
    return _spaced(
        words("answers.limit_own", figure=own_figure, source=limit.source or str(words("title.not_stated"))),
        words("answers.limit_laxer") if limit.laxer else "",
        words("answers.limit_catalogue", words=phrase, source=limit.row.source),
    )


def _remark(finding: Finding, said: FindingWords) -> Text:
    return said.words("answers.remark_says", remark=said.remark(finding)) if finding.remark else ""


def _result(status: Status, said: FindingWords) -> Markup:
    word = said.words(f"pages.{str(status).replace(' ', '_')}")
    return text(status_mark(str(status)), " ", word)


def _worst(items: Sequence[Item]) -> list[Item]:
    """Items with the worst first, in their order where they are alike."""

    def order(item: Item) -> tuple[int, float]:
        margin = float(item.margin) if isinstance(item.margin, int | float) else 0.0
        return list(Status).index(item.status), margin

    return sorted(items, key=order)


def _shown(finding: Finding, *, concise: bool) -> list[Item]:
    """Things a check looked at: of many those with the least in hand; where concise, those not met."""
    if not concise:
        return list(finding.items) if len(finding.items) <= MOST else _worst(finding.items)[:MOST]
    return _worst([item for item in finding.items if item.status is not Status.MET])[:MOST_CONCISE]


def _items(findings: Sequence[Finding], said: FindingWords, *, concise: bool) -> Table:
    """What the checks looked at, one by one."""
    words, rows = said.words, list[list[Text]]()
    for finding in findings:
        items = _shown(finding, concise=concise)
        for place, item in enumerate(items):
            shown = triple(said.draft.numbers, finding.limit.row, item)
            rows.append(
                [
                    said.number(finding),
                    finding.limit.row.title if place == 0 else "",
                    capital(said.looked_at(item.what)),
                    said.draft.named(shown.found),
                    shown.limit,
                    said.draft.named(shown.margin),
                    _result(item.status, said),
                ]
            )
        more = len(finding.items) - len(items)
        if more:
            left = words("survey.items_met" if concise else "survey.items_more", more=more)
            rows.append([said.number(finding), "", left, "", "", "", ""])
    heads = (("found", 21.0), ("limit", 23.0), ("margin", 19.0))
    return Table(
        [
            Column(words("survey.number"), width=7.0),
            Column(words("survey.items_check"), width=37.0),
            Column(words("survey.items_what"), width=32.0),
            *(Column(words(f"survey.{head}"), align=NUMBER, width=wide) for head, wide in heads),
            Column(words("survey.result"), width=24.0),
        ],
        rows,
        words("survey.items"),
        span=Span.FULL,
    )


def _grade(finding: Finding, said: FindingWords) -> Markup:
    word = said.words(f"pages.{finding.severity.value}")
    return text(severity_blocks(str(finding.severity)), " ", word)


def _ruled_out_in_words(findings: Sequence[Finding], said: FindingWords) -> Markup:
    """Checks that do not apply, those of one rule together."""
    rules: dict[str, list[str]] = {}
    for finding in findings:
        word = said.words(f"pages.{finding.severity.value}")
        named = f"{said.number(finding)} {finding.limit.row.title} ({word})"
        rules.setdefault(finding.why, []).append(named)
    listed = "; ".join(f"{why}: {', '.join(named)}" for why, named in rules.items())
    return said.words("survey.not_applicable_listed", listed=listed)


def _ruled_out(findings: Sequence[Finding], said: FindingWords) -> Table:
    words = said.words
    rows: list[list[Text]] = [
        [
            said.number(finding),
            finding.limit.row.title,
            _grade(finding, said),
            finding.why,
        ]
        for finding in findings
    ]
    columns = [Column(words(f"survey.{name}")) for name in ("number", "check", "grade", "rule")]
    return Table(columns, rows, words("survey.not_applicable"), span=Span.FULL)
