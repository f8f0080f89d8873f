"""Appendix B: what formulas, limits and tables rest on, and whether the text was seen."""

from collections.abc import Iterator, Mapping

from dossier.data.catalogue import LimitBasis
from dossier.notation import Line, Row, Source, Standing, origins_behind
from dossier.rendering.blocks import Align, Block, Bullets, Column, Heading, Note, Paragraph, Span, Table
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.text import text

UNSOURCED = "common practice, no source"


def section(draft: Draft) -> Iterator[Block]:
    """Standards and books first, then limits, then tables; the short form has limits alone."""
    words = draft.words
    yield Heading(2, words("sources.title"), key="sources", numbered=False)
    yield Paragraph(words("sources.introduction"))
    yield Bullets([words(f"sources.standing_{name}") for name in ("seen", "from_memory", "practice", "own")])
    yield Note(words("sources.newer_editions"))
    yield from _limits(draft)
    if draft.extent("appendices") is Extent.WHOLE:
        yield from _formulas(draft)
        yield from _tables(draft)


def _limits(draft: Draft) -> Iterator[Block]:
    words = draft.words
    used: dict[tuple[str, LimitBasis], list[str]] = {}
    unsourced = 0
    for finding in draft.assessment.findings:
        limit = finding.limit
        if limit.source.startswith(UNSOURCED) or limit.source == str(Standing.OWN):
            unsourced += 1
            continue
        used.setdefault((limit.source, limit.basis), []).append(finding.check)
    rows = [[_checks(draft, checks), source, str(basis)] for (source, basis), checks in used.items()]
    if rows:
        yield Table(
            columns=[
                Column(words("sources.column_used_for"), width=36),
                Column(words("sources.column_source")),
                Column(words("sources.column_basis"), width=26),
            ],
            rows=rows,
            caption=words("sources.limits_title"),
            key="table_sources_limits",
            span=Span.FULL,
        )
    if unsourced:
        yield Note(words("sources.without_source", count=str(unsourced)))


def _checks(draft: Draft, checks: list[str]) -> str:
    """Checks by their group, each group named once: ``exhaust: length, bends``."""
    by_group: dict[str, list[str]] = {}
    for check in checks:
        group, _, name = check.partition(".")
        by_group.setdefault(draft.named(group), []).append(draft.named(name))
    return "; ".join(f"{group}: {', '.join(names)}" for group, names in by_group.items())


def _formulas(draft: Draft) -> Iterator[Block]:
    words = draft.words
    clauses: dict[tuple[str, Standing], dict[str, None]] = {}
    places: dict[tuple[str, Standing], dict[str, None]] = {}
    for chapter in draft.workings.chapters:
        for by_formula in chapter.formulas:
            source: Source = by_formula.statement.source
            key = (source.title, source.standing)
            clauses.setdefault(key, {})
            if source.clause:
                clauses[key][source.clause] = None
            places.setdefault(key, {})[str(words(f"workings.chapter_{chapter.name}"))] = None
    order = list(Standing)
    found = sorted(clauses, key=lambda key: order.index(key[1]))
    if found:
        yield Table(
            columns=[
                Column(words("sources.column_source")),
                Column(words("sources.column_clause")),
                Column(words("sources.column_used_for")),
                Column(words("sources.column_standing"), width=26),
            ],
            rows=[
                [
                    title,
                    "; ".join(clauses[title, standing]) or "—",
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
    used = _rows_used(draft)
    if used:
        yield Table(
            columns=[
                Column(words("sources.column_table"), width=38),
                Column(words("sources.column_source")),
                Column(words("sources.column_rows"), align=Align.NUMBER, width=14),
            ],
            rows=[
                [draft.named(table.rpartition("/")[2]), text(source), str(len(rows))]
                for (table, source), rows in used.items()
            ],
            caption=words("sources.tables_title"),
            key="table_sources_tables",
            span=Span.FULL,
        )


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
