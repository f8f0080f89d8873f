"""Sets a document and writes it as a PDF: ``render_pdf``.

The blocks are set and laid out twice or more, until every page number that is printed somewhere is the right
one; only then is anything drawn.
"""

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from dossier.notation import PageFault
from dossier.rendering import fonts
from dossier.rendering.blocks import Block, Imprint
from dossier.rendering.layout import (  # noqa: F401 - each declares its setters
    breaks,
    checks,
    contents,
    figures,
    findings,
    forms,
    gathered,
    key_figures,
    leaf,
    listings,
    panels,
    prose,
    sheets,
    tables,
    two_columns,
)
from dossier.rendering.layout.flow import Page, fill
from dossier.rendering.layout.item import Marker
from dossier.rendering.layout.measures import sheet
from dossier.rendering.layout.numbering import Numbering
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.running import leaf_marks, notes_column, running_foot, running_head
from dossier.rendering.layout.setting import Setting
from dossier.rendering.pdf import Writer
from dossier.rendering.words import Words

PASSES = 6


def lay_out(blocks: Sequence[Block], setting: Setting) -> list[Page]:
    """Sheets of a document, every printed page number being right.

    Raises PageFault at a reference that leads nowhere.
    """
    for _ in range(PASSES):
        setting.start_pass()
        pages = fill(setting.set_all(blocks), sheet(setting.paper))
        found = {key: number for number, page in enumerate(pages, 1) for key, _ in page.places()}
        missing = [key for key in setting.wanted if key not in found]
        if missing:
            raise PageFault("references lead nowhere: " + ", ".join(repr(key) for key in missing))
        settled = not setting.asks_pages or (found == setting.pages and setting.sheets == len(pages))
        setting.pages, setting.sheets = found, len(pages)
        if settled:
            return pages
    raise PageFault("the page numbers do not settle: a reference moves the place it leads to")


def draw(
    pages: Sequence[Page], setting: Setting, writer: Writer, progress: Callable[[int, int], None] | None
) -> None:
    """Draw all sheets."""
    pen: Pen = writer.pen
    for number, page in enumerate(pages, 1):
        writer.start_page(page.sheet.width, page.sheet.height)
        if page.sheet.leaf:
            leaf_marks(pen, page, setting)
        if not page.sheet.framed:
            running_head(pen, page, setting)
            notes_column(pen, page, setting)
        for placed in page.placed:
            top = page.sheet.height - placed.top
            for key, below in placed.item.places():
                if key in setting.wanted or isinstance(placed.item, Marker):
                    pen.place(key, top - below)
            if isinstance(placed.item, Marker) and placed.item.entry is not None:
                writer.bookmark(placed.item.entry)
            placed.item.draw(pen, placed.x, top)
        if not page.sheet.framed:
            running_foot(pen, page, number, setting)
        writer.end_page()
        if progress is not None:
            progress(number, len(pages))


def render_pdf(  # noqa: PLR0913 - a document, how it is set, and where it goes
    blocks: Iterable[Block],
    imprint: Imprint,
    out: Path,
    *,
    paper: str = "A4",
    words: Words | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> int:
    """Write a document as a PDF and give the number of its sheets.

    ``paper`` is ``A4``, ``letter`` or ``A5``. ``progress`` is told each sheet drawn and how many there are.
    The file is written whole or not at all, and the same blocks and imprint give the same bytes. Raises
    PageFault where something cannot be set as asked.
    """
    fonts.register()
    blocks = tuple(blocks)
    words = words or Words(imprint.language)
    setting = Setting(imprint, words, Numbering(blocks, words), paper)
    pages = lay_out(blocks, setting)
    writer = Writer(imprint)
    draw(pages, setting, writer, progress)
    writer.save(out)
    return len(pages)
