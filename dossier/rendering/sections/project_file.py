"""Appendix C: the project file as it was read, with line numbers, and the checksum of every file."""

from collections.abc import Iterator

from dossier import __version__
from dossier.project.source_file import SourceFile
from dossier.rendering.blocks import (
    Align,
    Block,
    Column,
    Heading,
    Listing,
    Note,
    Paragraph,
    Span,
    Table,
)
from dossier.rendering.draft import Draft

LONGEST = 400
"""Lines of a table or included file that are printed; the project file itself is printed whole."""


def section(draft: Draft) -> Iterator[Block]:
    """Checksums first, then every text that was read."""
    words, project = draft.words, draft.project
    yield Heading(2, words("project_file.title"), key="project_file", numbered=False)
    yield Paragraph(words("project_file.introduction"))
    yield Paragraph(words("project_file.attached"))
    yield _checksums(draft)
    yield Note(words("project_file.made_with", version=__version__, format=str(project.format)))
    for file in project.files:
        if file.content is None:
            continue
        lines = file.text.splitlines()
        shown = printed_lines(draft, file)
        yield Listing(lines[:shown], file.name, key=f"file {file.name}")
        if shown < len(lines):
            yield Note(words("project_file.cut", count=str(len(lines) - shown)))


def _checksums(draft: Draft) -> Table:
    words = draft.words
    return Table(
        columns=[
            Column(words("project_file.column_file")),
            Column(words("project_file.column_size"), align=Align.NUMBER),
            Column(words("project_file.column_checksum"), width=55),
        ],
        rows=[[file.name, _size(file), file.sha256] for file in draft.project.files],
        caption=words("project_file.checksums_title"),
        key="table_checksums",
        span=Span.FULL,
    )


def _size(file: SourceFile) -> str:
    return "—" if file.content is None else f"{len(file.content):,}"


def printed_lines(draft: Draft, file: SourceFile) -> int:
    """How many lines of a file this document prints."""
    count = len(file.text.splitlines()) if file.content is not None else 0
    return count if file is draft.project.files[0] else min(count, LONGEST)


def line_key(draft: Draft, file: str, line: int | None) -> str:
    """Place of a line of a file in this document; empty where it is not printed."""
    if line is None or not draft.prints_file:
        return ""
    files = draft.project.files
    there = next((each for each in files if each.name == file), files[0] if files and not file else None)
    if there is None or line > printed_lines(draft, there):
        return ""
    return f"file {there.name}:{line}"
