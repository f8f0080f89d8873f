"""Section 1: what document, of which boat, which issue, whose."""

from collections.abc import Callable, Iterator

from dossier.checking.finding import Status
from dossier.data.catalogue import Severity, catalogue
from dossier.project.model import Document
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import (
    Block,
    Column,
    Contents,
    DocumentTitle,
    Note,
    PageBreak,
    Paragraph,
    Span,
    Table,
    TitleBlock,
)
from dossier.rendering.draft import LONGEST_NAME, Draft, Extent
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.text import Text, own, strong, text
from dossier.rendering.words import cut

OF_THE_BOOK = frozenset({"title", "measure", "proof"})
"""Sections that are no part of the full document's count."""


def section(draft: Draft) -> Iterator[Block]:
    """Title, status, identification, revisions, what this edition leaves out, contents."""
    words = draft.words
    document = draft.project.document or Document()
    edition = words(f"title.edition_{draft.edition}")
    title = cut(document.title, LONGEST_NAME) if document.title else words("title.title")
    yield DocumentTitle(
        title,
        draft.boat,
        words("pages.edition", edition=edition, date=str(document.date or words("title.undated"))),
    )
    yield Paragraph(words(f"title.purpose_{draft.edition}"))
    yield from _status(draft)
    yield _identification(draft, document)
    if document.revisions:
        yield _revisions(draft, document)
    yield Note(_left_out(draft, document))
    yield TitleBlock(title, edition)
    yield PageBreak()
    yield Contents(words("title.contents"))


def _status(draft: Draft) -> Iterator[Block]:
    """The status the data allow, and what this document says nothing about."""
    words, status = draft.words, draft.assessment.status
    sentences: list[Text] = [words(f"title.status_{status.status.replace(' ', '_')}")]
    if status.refused:
        lower = words(
            "title.status_lower", wished=words.told(str(status.wished)), allowed=words.told(status.allowed)
        )
        sentences += [own(" "), lower]
    yield Paragraph(text(*sentences))
    dangers = [f for f in draft.assessment.findings if f.severity is Severity.DANGER]
    open_ = sum(f.status is Status.NOT_ASSESSED for f in dangers)
    said = FindingWords(draft)
    if open_:
        name = "title.nothing_about_safety" if open_ == len(dangers) else "title.about_danger"
        given = {
            "checks": said.numeral(len(dangers), capital=True),
            "checks_words": said.numeral(len(dangers), capital=True),
            "open_words": said.numeral(open_),
        }
        given["open"] = given["open_words"] if open_ == len(dangers) else open_  # type: ignore[assignment]  # a count
        yield Paragraph(strong(words(name, **given)))
    held, every = len(draft.assessment.findings), len(catalogue())
    if held < every:
        yield Note(words("title.checks_held", held=held, all=every))


def _identification(draft: Draft, document: Document) -> Table:
    """Two columns: what, and as it is stated."""
    words, blank = draft.words, draft.words("title.not_stated")
    rows: list[tuple[Text, Text]] = []

    def row(name: str, value: Text | None) -> None:
        rows.append((words(f"title.{name}"), value or blank))

    _boat(draft, row)
    inspection = draft.project.inspection
    seen = (inspection.place, inspection.date) if inspection else ()
    row("inspected_at", ", ".join(str(part) for part in seen if part))
    row("document_number", document.number)
    row("revision", document.revision)
    row("date", str(document.date or ""))
    row("language", words.language)
    row("edition", words(f"title.edition_{draft.edition}"))
    row("status", words.told(draft.assessment.status.status))
    row("prepared_by", document.prepared_by)
    row("approved_by", document.approved_by or words("title.not_approved"))
    readers = [str(words(f"title.reader_{reader}")) for reader in document.addressed_to or ()]
    row("addressed_to", ", ".join(readers))
    row("next_review", str(document.next_review or ""))
    return Table(
        [Column("", width=52.0, strong=True), Column("")],
        rows,
        words("title.identification"),
        key="table_identification",
        span=Span.TEXT,
        plain=True,
    )


def _boat(draft: Draft, row: "Callable[[str, Text | None], None]") -> None:
    """Rows of the boat."""
    vessel, said = draft.project.vessel, draft.said
    row("boat_name", vessel.name if vessel else None)
    row("boat_kind", vessel.kind if vessel else None)
    sizes = (vessel.length, vessel.beam, vessel.draught) if vessel else ()
    known = [said(size, "length_long") if size is not None else "—" for size in sizes]
    row("size", ", ".join(known) if any(size is not None for size in sizes) else None)
    hull = vessel.hull if vessel else None
    row("hull", draft.words(f"title.hull_{hull}") if hull else None)
    row("built", f"{vessel.built:.0f}" if vessel and vessel.built else None)
    registration = vessel.registration if vessel else None
    row("registration", draft.words("title.none") if isinstance(registration, No) else registration)


def _revisions(draft: Draft, document: Document) -> Table:
    words = draft.words
    heads = ("mark", "date", "by", "change")
    return Table(
        [Column(words(f"title.revision_{head}")) for head in heads],
        [
            (entry.mark or "—", str(entry.date or "—"), entry.by or "—", entry.what or "—")
            for entry in document.revisions or ()
        ],
        words("title.revisions"),
        key="table_revisions",
        span=Span.TEXT,
        plain=True,
    )


def _left_out(draft: Draft, document: Document) -> Text:
    """Sections this edition leaves out or shortens, and the number of the full document."""
    words = draft.words

    def named(extent: Extent) -> str:
        sections = [name for name in draft.extents or () if name not in OF_THE_BOOK]
        return ", ".join(
            str(words(f"title.section_{name}")) for name in sections if draft.extent(name) is extent
        )

    out, short, concise = named(Extent.NONE), named(Extent.SHORT), named(Extent.CONCISE)
    parts: list[Text] = [words("title.nothing_left_out")]
    if out:
        given = {
            "number": document.number or "",
            "revision": document.revision or words("title.not_stated"),
        }
        parts = [words("title.left_out", sections=out, **given)]
    if short:
        parts += [own(" "), words("title.shortened", sections=short)]
    if concise:
        parts += [own(" "), words("title.concise", sections=concise)]
    return text(*parts)
