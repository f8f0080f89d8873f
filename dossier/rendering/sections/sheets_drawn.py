"""What every drawing sheet bears: title block, notes, and the words of the drawing."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from dossier.notation import Real
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings import signs, wires
from dossier.rendering.drawings.shapes import Drawing
from dossier.rendering.drawings.sheet import Form, TitleBlock, numbered
from dossier.rendering.drawings.space import Place3
from dossier.rendering.drawings.tag_list import tag_list
from dossier.rendering.text import text

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

FURNITURE = {
    "connector": "goes on at the same letter",
    "Part": "Part",
    "part": "part",
    "main": "main part",
    "branches": "branches",
    "sheet_of_drawing": "sheet",
    "of": "of",
    "joined": "joined",
    "worst": "worst branch",
    "legend": "Lines and symbols on this sheet",
    **wires.WORDS,
    **signs.WORDS,
}
"""Words that drawings have of themselves: kinds of line, signs, and how parts hang together."""

SAME = {"author": "prepared_by", "approval": "approved_by", "kind": "document_type"}
Make = Callable[[Form], Sequence[Drawing]]


@dataclass(frozen=True)
class Subject:
    """One drawing of the document: its number, its words in the templates, and how it is made.

    ``name`` is that of its texts: ``drawings.fuel_title``, ``_kind``, ``_alt``. ``make`` draws all its sheets
    on a form. ``tags`` are those that stand on every sheet.
    """

    number: int
    name: str
    make: Make
    notes: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    is_landscape: bool = True


def drawing_paper(draft: Draft) -> str:
    """Paper of a drawing: that of the document, A4 where it is smaller."""
    return "A4" if draft.paper == "A5" else draft.paper


def place_of(point: Iterable[Real]) -> Place3:
    """A point aboard as plain numbers, in metres."""
    x, y, z = (float(number) for number in point)
    return x, y, z


def tags_shown(draft: Draft) -> Callable[[Iterable[str]], str]:
    """Says which tags a sheet shows, for a drawing whose sheets differ in this."""
    return lambda tags: str(draft.words("drawings.tags_shown", tags=tag_list(tags)))


def sheets_of(draft: Draft, subject: Subject) -> list[DrawingSheet]:
    """The sheets of one drawing, drawn but for their numbers."""
    words, name = draft.words, subject.name
    form = _form(draft, subject)
    drawings = subject.make(form)
    title, kind = words(f"drawings.{name}_title"), words(f"drawings.{name}_kind")
    made = []
    for place, drawing in enumerate(drawings):
        part = words("drawings.part", number=str(place + 1), count=str(len(drawings)))
        typed = str(text(kind, ", ", part) if len(drawings) > 1 else kind)
        made.append(
            DrawingSheet(
                title=title,
                kind=kind,
                alt=str(words(f"drawings.{name}_alt")),
                key=f"drawing_{subject.number}_{place + 1}" if place else f"drawing_{subject.number}",
                whole=partial(numbered, drawing, form.paper, kind=typed),
                scale=drawing.scale,
                paper=drawing_paper(draft),
                landscape=subject.is_landscape,
                name=name,
                part=place + 1,
                parts=len(drawings),
            )
        )
    return made


def _form(draft: Draft, subject: Subject) -> Form:
    """Title block, notes and words of its sheets."""
    document, words = draft.project.document, draft.words
    signer = document.approved_by if document else None
    block = TitleBlock(
        owner=(document.prepared_by if document else None) or "",
        title=str(words(f"drawings.{subject.name}_title")),
        boat=draft.boat,
        number=(document.number if document else None) or str(words("title.not_stated")),
        prepared_by=(document.prepared_by if document else None) or "",
        approved_by=signer or str(words("title.not_approved")),
        is_signed=False,
        status=words.told(draft.assessment.status.status),
        date=str(document.date) if document and document.date else "",
        revision=(document.revision if document else None) or "—",
        language=words.language,
        scale=str(words("drawings.not_to_scale")),
        words={SAME.get(name, name): str(words(f"pages.title_block_{name}")) for name in FIELDS},
    )
    notes = subject.notes
    if subject.tags:
        notes = (tags_shown(draft)(subject.tags), *notes)
    paper = drawing_paper(draft)
    paper = paper if subject.is_landscape else f"{paper} portrait"
    furniture = {name: words.told(said) for name, said in FURNITURE.items()}
    return Form(block, paper, notes, furniture | dict(subject.words))
