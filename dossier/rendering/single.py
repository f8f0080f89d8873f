"""One drawing or figure of a dossier as a file of its own: svg, pdf, png, dxf.

All that the sections of the document draw can be had; nothing is listed here by name.
"""

import io
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dossier.notation import DossierError
from dossier.project.nearest import near_names
from dossier.rendering import fonts
from dossier.rendering.blocks import DrawingSheet, Figure
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.drawings.dxf import dxf
from dossier.rendering.drawings.png import png
from dossier.rendering.drawings.shapes import Drawing
from dossier.rendering.drawings.svg import svg
from dossier.rendering.drawings.traced import shapes_of
from dossier.rendering.editions import blocks_of, extents
from dossier.rendering.language import editions_by_language
from dossier.rendering.numbers import Numbers, System
from dossier.rendering.words import homes, language_of, words_of

if TYPE_CHECKING:
    from dossier.assessment import Assessment

FIRST = ("drawings",)
"""Sections looked at before the others: most of what is asked for stands there."""
FULL, MEASURE = "full", "measure"
PREFIX = "figure_"


@dataclass(frozen=True)
class Drawn:
    """What can be drawn: its name, its title, and its sheets in order."""

    name: str
    title: str
    sheets: tuple[Any, ...]


def draft_of(assessment: "Assessment", paper: str = "A4", units: str = "metric") -> Draft:
    """The document from which single drawings are taken: all that the full edition has, and the sketches.

    In a language without the full edition, the first that it has.
    """
    project = assessment.project
    edition = FULL
    if FULL not in (had := editions_by_language(homes()).get(language_of(project), ())) and had:
        edition = had[0]
    words = words_of(project, edition)
    found = extents(MEASURE) if edition == FULL else {}
    found |= {section: extent for section, extent in extents(edition).items() if extent is not Extent.NONE}
    ordered = {section: found[section] for section in (*FIRST, *found)}
    return Draft(assessment, words, Numbers(System(units), words.style), edition, paper, ordered)


USUAL = (
    "schematic", "arrangement", "exhaust", "heights", "one_line", "fuel", "build_up", "valves", "tags",
    "exhaust_elevation", "exhaust_plan", "ways", "warm_up", "pump", "index", "starts", "hours", "day",
    "season",
)  # fmt: skip
"""Names that most projects draw, for shells that complete a word before anything is calculated."""


def all_drawn(draft: Draft) -> Iterator[Drawn]:
    """Everything that can be drawn, as the sections come to it; sheets of one drawing together."""
    sheets: dict[str, list[Any]] = {}
    title = ""
    for block in blocks_of(draft):
        for found in _in(block):
            if isinstance(found, DrawingSheet):
                name = found.name or found.key
                if name not in sheets and sheets:
                    yield _told(sheets, title)
                    sheets = {}
                title = str(found.title)
                sheets.setdefault(name, []).append(found)
            else:
                yield Drawn(found.key.removeprefix(PREFIX), str(found.caption), (found.drawing,))
        if sheets and not isinstance(block, DrawingSheet):
            yield _told(sheets, title)
            sheets = {}
    if sheets:
        yield _told(sheets, title)


def _told(sheets: Mapping[str, list[DrawingSheet]], title: str) -> Drawn:
    ((name, found),) = sheets.items()
    count = len(found)
    drawn = [
        sheet.drawing if sheet.whole is None else sheet.whole(f"{place} / {count}")
        for place, sheet in enumerate(found, 1)
    ]
    return Drawn(name, title, tuple(drawn))


def _in(held: Any) -> Iterator[Any]:
    """Figures and drawing sheets under a block."""
    if isinstance(held, DrawingSheet | Figure):
        yield held
    elif isinstance(held, list | tuple):
        for inner in held:
            yield from _in(inner)
    elif is_dataclass(held):
        for field in fields(held):
            yield from _in(getattr(held, field.name))


def find(draft: Draft, name: str) -> Drawn:
    """The drawing or figure of a name; raises DossierError with the names there are."""
    known = []
    for drawn in all_drawn(draft):
        if drawn.name == name:
            return drawn
        known.append(drawn.name)
    near = near_names(name, known)
    hint = f"perhaps {', '.join(near)}" if near else f"there are {', '.join(known)}"
    raise DossierError(f"nothing is drawn under the name {name!r}; {hint}")


def files_of(drawn: Drawn, out: Path) -> Mapping[Path, bytes]:
    """What to write for a drawing, by the ending of the path; a pdf holds all sheets, others one each.

    Raises DossierError for an ending that is not known, and for a figure that the format cannot hold.
    """
    kind = out.suffix.casefold()
    if kind == ".pdf":
        return {out: _pdf(drawn)}
    writer = WRITERS.get(kind)
    if writer is None:
        raise DossierError(f"{out}: a drawing is written as {', '.join(sorted(WRITERS))} or .pdf")
    names = [out, *(out.with_stem(f"{out.stem}_{n}") for n in range(2, len(drawn.sheets) + 1))]
    made = (writer(shapes_of(sheet, drawn.title)) for sheet in drawn.sheets)
    return dict(zip(names, made, strict=True))


WRITERS: Mapping[str, Callable[[Drawing], bytes]] = {
    ".svg": lambda drawing: svg(drawing).encode("utf-8"),
    ".png": png,
    ".dxf": lambda drawing: dxf(drawing).encode("utf-8", "dxfreplace"),
}


def _pdf(drawn: Drawn) -> bytes:
    """All sheets as pages of their own size; no clock in it."""
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415 - as slow to load as it is

    fonts.register()
    written = io.BytesIO()
    canvas = Canvas(written, invariant=1, pageCompression=1, initialFontName=fonts.REGULAR)
    canvas.setTitle(fonts.shown(drawn.title))
    for sheet in drawn.sheets:
        canvas.setPageSize((sheet.width, sheet.height))
        sheet.draw(canvas, 0.0, 0.0)
        canvas.showPage()
    canvas.save()
    return written.getvalue()
