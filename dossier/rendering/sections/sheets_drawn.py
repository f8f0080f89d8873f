"""What every drawing sheet bears: title block, notes, and the words of the drawing."""

from dossier.rendering.draft import Draft
from dossier.rendering.drawings.sheet import Form, TitleBlock

FIELDS = (
    "owner",
    "title",
    "boat",
    "number",
    "author",
    "approval",
    "kind",
    "status",
    "date",
    "revision",
    "language",
    "scale",
    "sheet",
)
"""Labels of the title block, as ``pages`` names them."""

SAME = {"author": "prepared_by", "approval": "approved_by", "kind": "document_type"}


def drawing_paper(draft: Draft) -> str:
    """Paper of a drawing: that of the document, A4 where it is smaller."""
    return "A4" if draft.paper == "A5" else draft.paper


def form_of(  # noqa: PLR0913 - what a title block is told
    draft: Draft, *, title: str, kind: str, scale: str, sheet: str, notes: tuple[str, ...] = ()
) -> Form:
    """Title block and notes of a drawing of this document."""
    document, words = draft.project.document, draft.words
    signer = document.approved_by if document else None
    block = TitleBlock(
        owner=(document.prepared_by if document else None) or "",
        title=title,
        boat=draft.boat,
        number=(document.number if document else None) or str(words("title.not_stated")),
        prepared_by=(document.prepared_by if document else None) or "",
        approved_by=signer or str(words("title.not_approved")),
        is_signed=False,
        document_type=kind,
        status=str(draft.assessment.status.status),
        date=str(document.date) if document and document.date else "",
        revision=(document.revision if document else None) or "—",
        language=words.language,
        scale=scale,
        sheet=sheet,
        words={SAME.get(name, name): str(words(f"pages.title_block_{name}")) for name in FIELDS},
    )
    return Form(block, drawing_paper(draft), notes)
