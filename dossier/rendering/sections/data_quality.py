"""Section 3: what the result rests on, and what nobody looked at."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from dossier.checking.judging import MAKER_SILENT
from dossier.data.catalogue import Severity
from dossier.notation import Basis
from dossier.project.model import ProjectFile
from dossier.rendering.answers import missing_keys
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Bullets,
    Column,
    Heading,
    Note,
    Pair,
    Paragraph,
    Side,
    SideNote,
    Span,
    Table,
)
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.measure_next import LOAD, WHOLE, Wanted, moving_guesses, wanted, what_moves
from dossier.rendering.text import Text, capital, own, strong, text

NUMBER = Align.NUMBER
INPUTS_WIDTH = 95.0
PAPERS = frozenset({"commissioning", "deviations", "document", "inspection", "limits", "pictures", "records"})
"""Groups of the file that tell of papers and tests; one row holds them all."""


def section(draft: Draft) -> Iterator[Block]:
    """Inputs by basis, what to measure next, what was not examined, what this document is not."""
    words = draft.words
    counts, missing = _counts(draft), _missing(draft)
    yield Heading(
        1, words("limits.title"), key="data_quality", number="3", new_sheet=draft.opens("data_quality")
    )
    if draft.extent("data_quality") is not Extent.SHORT:
        yield Side([SideNote(words("limits.basis_title"), words("limits.basis"))])
    total = Counter(basis for (_, basis), number in counts.items() for _ in range(number))
    yield Answer(
        words(
            "limits.answer",
            inputs=sum(total.values()),
            missing=sum(missing.values()),
            **{basis.value: total[basis] for basis in Basis},
        ),
        _rests_most_on(draft),
    )
    short = draft.extent("data_quality") is Extent.SHORT
    this_is_not: list[Block] = [
        Heading(3, words("limits.what_this_is_not_title")),
        Bullets(words.lines("limits.what_this_is_not")),
    ]
    if short:
        yield from _not_examined(draft)
        yield from _measuring(draft)
        yield from this_is_not
    else:
        looked_at = [*_measuring(draft), *_not_examined(draft), *_makers(draft)]
        looked_at.append(Paragraph(words("limits.rules_looked_at")))
        yield Pair([_inputs(draft, counts, missing)], looked_at, left_width=INPUTS_WIDTH)
        yield from _measure_next(draft)
        left_out = [Heading(3, words("limits.calculation_limits_title"))]
        yield Pair(this_is_not, [*left_out, Bullets(words.lines("limits.calculation_limits"))])
    if short:
        yield Paragraph(words("limits.rules_looked_at"))


def _counts(draft: Draft) -> Counter[tuple[str, Basis]]:
    """Numbers of the file by top-level key and basis."""
    return Counter((line.key.partition(".")[0], line.basis) for line in draft.project.inputs())


def _missing(draft: Draft) -> Counter[str]:
    """Missing keys by top-level key."""
    return Counter(re.split(r"\W", key)[0] for key in missing_keys(draft.assessment.worst_first))


def _rests_most_on(draft: Draft) -> Text:
    first = next((guess for guess in moving_guesses(draft) if guess.result == LOAD), None)
    if first is None:
        return ""
    named = draft.inputs.phrase(first.key)
    return draft.words("limits.rests_most_on", result=named, share=_share(draft, first))


def _share(draft: Draft, guess: Wanted) -> str:
    """By how much a guess moves a result; beyond ten times that tells nothing more."""
    if guess.share >= WHOLE:
        return str(draft.words("limits.many_times"))
    return draft.said(guess.share, "share")


def _inputs(draft: Draft, counts: Counter[tuple[str, Basis]], missing: Counter[str]) -> Table:
    words = draft.words
    present = {group for group, _ in counts} | set(missing)
    groups = [name for name in ProjectFile.model_fields if name in present]
    groups += sorted(present - set(groups))
    held: list[tuple[Text, tuple[str, ...]]] = [
        (draft.named(group), (group,)) for group in groups if group not in PAPERS
    ]
    papers = tuple(group for group in groups if group in PAPERS)
    if papers:
        held.append((words("limits.papers"), papers))

    def figures(within: Sequence[str]) -> list[Text]:
        stated = [str(sum(counts[group, basis] for group in within)) for basis in Basis]
        return [*stated, str(sum(missing[group] for group in within))]

    return Table(
        [
            Column(words("limits.column_group")),
            *(Column(words(f"limits.column_{basis.value}"), align=NUMBER) for basis in Basis),
            Column(words("limits.column_missing"), align=NUMBER),
        ],
        [[strong(name), *figures(within)] for name, within in held],
        words("limits.inputs_by_basis"),
        key="table_inputs",
        totals=[[words("limits.together"), *figures(groups)]],
        notes=words("limits.inputs_note"),
        span=Span.TEXT,
    )


def _measure_next(draft: Draft) -> Iterator[Block]:
    words, said = draft.words, FindingWords(draft)
    listed, more = wanted(draft)
    if not listed:
        yield Note(words("limits.measure_next_none"))
        return
    left = (own(" "), words("limits.missing_more", more=more)) if more else ()
    heads = ("rank", "input", "now", "spread", "holds_up", "key", "line")
    yield Table(
        [
            Column(
                words(f"limits.column_{head}"),
                align=NUMBER if head in {"rank", "line"} else Align.TEXT,
                small=head == "key",
                wide_only=head == "key",
            )
            for head in heads
        ],
        [_wanted(draft, said, rank, each) for rank, each in enumerate(listed, 1)],
        words("limits.measure_next_title"),
        key="table_measure_next",
        notes=text(words("limits.measure_next"), *left),
        span=Span.FULL,
    )


def _wanted(draft: Draft, said: FindingWords, rank: int, each: Wanted) -> list[Text]:
    words, line = draft.words, draft.project.where(each.key)
    named = capital(draft.inputs.phrase(each.key))
    number = str(line.line) if line.key and line.line else "—"
    if each.findings:
        numbers = ", ".join(said.number(finding) for finding in each.findings)
        grade = words(f"pages.{each.findings[0].severity.value}")
        holds = words("limits.holds_up", grade=grade, numbers=numbers)
        return [str(rank), named, words("limits.measure_missing"), "—", holds, each.key, number]
    what = what_moves(draft, each.result)
    name = "limits.moves_untold" if each.untold else "limits.moves"
    moves = words(name, what=what, share=_share(draft, each))
    now, spread = each.now or words("limits.silent"), each.spread or "—"
    return [str(rank), named, now, spread, moves, each.key, number]


def _makers(draft: Draft) -> Iterator[Block]:
    """Dangers judged by a fallback, since the maker's figure is missing."""
    said = FindingWords(draft)
    silent = [
        f for f in draft.assessment.findings if MAKER_SILENT in f.remark and f.severity is Severity.DANGER
    ]
    if silent:
        named = ", ".join(f"{f.limit.row.title} ({said.number(f)})" for f in silent)
        yield Heading(3, draft.words("limits.maker_title"))
        yield Paragraph(draft.words("limits.maker", checks=named))


def _not_examined(draft: Draft) -> Iterator[Block]:
    words, inspection = draft.words, draft.project.inspection
    parts = inspection.not_examined if inspection else None
    yield Heading(3, words("limits.not_examined_title"))
    if not parts:
        yield Paragraph(words("limits.not_examined_unknown"))
        return
    yield Paragraph(words("limits.not_examined"))
    yield Table(
        [Column(words("limits.column_part")), Column(words("limits.column_why"))],
        [(part.part or "—", part.why or "—") for part in parts],
        words("limits.not_examined_title"),
        key="table_not_examined",
        span=Span.TEXT,
    )


def _measuring(draft: Draft) -> Iterator[Block]:
    """Where, when, how loaded, who was there, with which instruments."""
    words, project = draft.words, draft.project
    inspection, tests = project.inspection, project.commissioning
    heights = tests.heights if tests else None
    said: list[Text] = []
    if inspection and (inspection.place or inspection.date):
        blank = words("title.not_stated")
        said.append(
            words(
                "limits.measured_where",
                place=inspection.place or blank,
                date=str(inspection.date) if inspection.date else blank,
            )
        )
    else:
        said.append(words("limits.measured_nowhere"))
    if inspection and inspection.afloat is not None:
        said.append(words("limits.afloat" if inspection.afloat else "limits.ashore"))
    loading = (heights.loading if heights else None) or (inspection.loading if inspection else None)
    said.append(words("limits.loading", loading=loading) if loading else words("limits.loading_unknown"))
    if inspection and inspection.present:
        said.append(words("limits.present", present=", ".join(inspection.present)))
    instruments = [
        str(
            words(
                "limits.instrument",
                what=one.for_ or words("title.not_stated"),
                serial=one.serial or "",
                calibrated=str(one.calibrated or ""),
            )
        )
        for one in (tests.instruments if tests else None) or ()
    ]
    said.append(
        words("limits.instruments", instruments="; ".join(instruments))
        if instruments
        else words("limits.instruments_unknown")
    )
    yield Heading(3, words("limits.measuring_title"))
    yield Paragraph(
        text(*(piece for n, part in enumerate(said) for piece in ((own(" "), part) if n else (part,))))
    )
