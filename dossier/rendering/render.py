"""Renders an assessment as a PDF: ``render``. A failed build leaves an older file untouched."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from dossier.project.model import Document
from dossier.rendering.attachments import attachments
from dossier.rendering.blocks import Imprint
from dossier.rendering.draft import LONGEST_NAME, Draft
from dossier.rendering.editions import blocks_of, extents
from dossier.rendering.numbers import Numbers, System
from dossier.rendering.pages import render_pdf
from dossier.rendering.words import cut, words_of

if TYPE_CHECKING:
    from dossier.assessment import Assessment
    from dossier.project import Project

LONGEST = 100
"""Characters of a file's name that are taken from the document."""
PROOF = "proof"
"""The edition that is for nobody but the owner, and says so on each page."""


def file_name(project: "Project", edition: str) -> str:
    """Name of the PDF: number, revision, edition."""
    document = project.document
    number = (document.number if document else None) or "dossier"
    revision = (document.revision if document else None) or ""
    plain = "".join(c if c.isalnum() or c in "-." else "_" for c in f"{number}-{revision}-{edition}")
    return f"{plain.replace('--', '-').strip('.-')[:LONGEST]}.pdf"


def render(  # noqa: PLR0913 - what a document may be asked to be
    assessment: "Assessment",
    out: str | Path,
    *,
    edition: str = "full",
    paper: str = "A4",
    units: str = "metric",
    templates: Path | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Path:
    """Write one edition to ``out`` (a file, or a folder in which it is named) and give its path.

    Raises ``PageFault`` where a page cannot be set, ``OSError`` where it cannot be written.
    """
    words = words_of(assessment.project, edition, templates)
    draft = Draft(assessment, words, Numbers(System(units), words.style), edition, paper, extents(edition))
    path = Path(out)
    if path.is_dir() or not path.suffix:
        path.mkdir(parents=True, exist_ok=True)
        path /= file_name(assessment.project, edition)
    blocks = list(blocks_of(draft))
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        render_pdf(blocks, imprint(draft), part, paper=paper, words=words, progress=progress)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return path


def imprint(draft: Draft) -> Imprint:
    """What every sheet bears."""
    document, words = draft.project.document or Document(), draft.words
    return Imprint(
        boat=draft.boat,
        title=cut(document.title or str(words("title.title")), LONGEST_NAME),
        number=cut(document.number or str(words("title.not_stated")), LONGEST_NAME),
        revision=cut(document.revision or "—", LONGEST_NAME),
        status=words.told(draft.assessment.status.status),
        date=str(document.date or ""),
        undated=str(words("title.undated")),
        edition=str(words(f"title.edition_{draft.edition}")),
        language=words.language,
        owner=cut(document.prepared_by or "", LONGEST_NAME),
        author=cut(document.prepared_by or "", LONGEST_NAME),
        approval=cut(document.approved_by or str(words("title.not_approved")), LONGEST_NAME),
        subject=str(words("title.subject", boat=draft.boat)),
        foot=words("proof.foot" if draft.edition == PROOF else "safety.foot"),
        large=draft.edition == "aboard",
        attachments=tuple(attachments(draft)),
    )
