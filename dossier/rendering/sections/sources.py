"""Appendix B: what formulas, limits and tables rest on, and whether the text was seen."""

from collections.abc import Iterator, Mapping, Sequence

from dossier.data.catalogue import LimitBasis, Severity
from dossier.data.check_numbers import number_of
from dossier.notation import Line, Row, Source, Standing, origins_behind
from dossier.rendering.blocks import Block, Bullets, Column, Heading, Note, Paragraph, Span, Table, TwoColumns
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections.finding_words import is_for_crew, is_for_yard
from dossier.rendering.text import text

SECTIONS = {
    "shell": "6.2",
    "loss": "6.3",
    "warm_up": "6.4",
    "coolant": "6.5",
    "flow": "6.7",
    "heat": "6.8",
    "pressure": "6.9",
    "store": "6.10",
    "tap_water": "6.11",
    "recovery": "6.12",
    "expansion": "6.13",
    "exhaust": "5.1",
    "fuel": "6.14",
    "electrics": "6.15",
    "moisture": "6.16",
    "mass": "6.17",
    "placement": "5.5",
    "other": "5",
}
"""Where the document uses what the chapters of the workings show."""
YARD = "yard"
UNSOURCED = "common practice, no source"


def section(draft: Draft) -> Iterator[Block]:
    """Standards and books first, then limits, then tables; the short form has limits alone."""
    words = draft.words
    yield Heading(2, words("sources.title"), key="sources", numbered=False)
    yield Paragraph(words("sources.introduction"))
    yield Bullets([words(f"sources.standing_{name}") for name in ("seen", "from_memory", "practice", "own")])
    yield Note(words("sources.newer_editions"))
    if draft.extent("appendices") is Extent.SHORT:
        yield TwoColumns(list(_limits(draft)))
        return
    yield from _limits(draft)
    yield from _formulas(draft)
    yield from _tables(draft)


def _limits(draft: Draft) -> Iterator[Block]:
    words = draft.words
    used: dict[tuple[str, LimitBasis], list[int]] = {}
    unsourced = 0
    findings = draft.assessment.findings
    if draft.edition == YARD:
        findings = tuple(finding for finding in findings if is_for_yard(finding))
    elif draft.extent("appendices") is Extent.SHORT:
        findings = tuple(
            f for f in findings if f.is_open and (f.severity is Severity.DANGER or is_for_crew(f))
        )
    for finding in findings:
        limit = finding.limit
        if limit.source.startswith(UNSOURCED) or limit.source == str(Standing.OWN):
            unsourced += 1
            continue
        source = limit.source if limit.overridden else draft.made(limit.source)
        used.setdefault((source, limit.basis), []).append(number_of(finding.check))
    rows = [
        [source, words.told(str(basis)), ", ".join(map(str, sorted(checks)))]
        for (source, basis), checks in used.items()
    ]
    if rows:
        yield Table(
            columns=[
                Column(words("sources.column_source"), small=True),
                Column(words("sources.column_basis"), width=19),
                Column(words("sources.column_checks"), width=17),
            ],
            rows=rows,
            caption=words("sources.limits_title"),
            key="table_sources_limits",
            span=Span.FULL,
        )
    if unsourced:
        yield Note(words("sources.without_source", count=str(unsourced)))


def _formulas(draft: Draft) -> Iterator[Block]:
    words = draft.words
    clauses: dict[tuple[str, Standing], dict[str, None]] = {}
    places: dict[tuple[str, Standing], dict[str, None]] = {}
    for chapter in draft.all_workings.chapters:
        for by_formula in chapter.formulas:
            source: Source = by_formula.statement.source
            key = (source.title, source.standing)
            clauses.setdefault(key, {})
            if source.clause:
                clauses[key][source.clause] = None
            places.setdefault(key, {})[SECTIONS[chapter.name]] = None
    order = list(Standing)
    found = sorted(clauses, key=lambda key: order.index(key[1]))
    if found:
        yield Table(
            columns=[
                Column(words("sources.column_source"), small=True),
                Column(words("sources.column_section"), width=17),
                Column(words("sources.column_standing"), width=18),
            ],
            rows=[
                [
                    "; ".join([title, *clauses[title, standing]]),
                    ", ".join(places[title, standing]),
                    str(standing),
                ]
                for title, standing in found
            ],
            caption=words("sources.formulas_title"),
            key="table_sources_formulas",
            span=Span.FULL,
        )


def _tables(draft: Draft) -> Iterator[Block]:
    """Sources of the rows of tables and of the assumptions that results rest on."""
    words = draft.words
    by_table: dict[str, list[str]] = {}
    for table, source in _rows_used(draft):
        by_table.setdefault(table.rpartition("/")[2], []).append(source)
    if by_table:
        yield Table(
            columns=[
                Column(words("sources.column_table"), width=22),
                Column(words("sources.column_source"), small=True),
            ],
            rows=[[draft.named(table), text(_joined(sources))] for table, sources in by_table.items()],
            caption=words("sources.tables_title"),
            key="table_sources_tables",
            span=Span.FULL,
        )


def _joined(sources: Sequence[str]) -> str:
    """Sources one after another; those that are common practice once, with what each is about.

    >>> _joined(["ISO 6946", f"{UNSOURCED} (a)", f"{UNSOURCED} (b)", UNSOURCED])
    'ISO 6946; common practice, no source (a; b)'
    """
    bare = [source for source in sources if not source.startswith(UNSOURCED)]
    unsourced = [source[len(UNSOURCED) :].strip() for source in sources if source.startswith(UNSOURCED)]
    if unsourced:
        about = "; ".join(one.removeprefix("(").removesuffix(")") for one in unsourced if one)
        bare.append(f"{UNSOURCED} ({about})" if about else UNSOURCED)
    return "; ".join(bare)


def _rows_used(draft: Draft) -> Mapping[tuple[str, str], set[str]]:
    """Rows by table and source, in the order in which results first rest on them."""
    assumptions = str(draft.words("sources.assumptions"))
    found: dict[tuple[str, str], set[str]] = {}
    for origin in origins_behind(*(result.value for result in draft.assessment.results.values())):
        if isinstance(origin, Row):
            found.setdefault((origin.table, origin.source), set()).add(origin.row)
        elif isinstance(origin, Line) and origin.line is None and origin.source:
            found.setdefault((assumptions, origin.source), set()).add(origin.key)
    return dict(sorted(found.items(), key=lambda pair: pair[0][0]))
