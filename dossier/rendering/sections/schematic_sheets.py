"""Drawing 1: the heating circuit, on as many sheets as it needs."""

from functools import partial

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.circuit import Circuit
from dossier.rendering.drawings.schematic import schematic
from dossier.rendering.drawings.shapes import Drawing
from dossier.rendering.sections.circuit_drawn import circuit_drawn
from dossier.rendering.sections.sheets_drawn import drawing_paper, form_of


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of the schematic; what it waits for where no ring is written."""
    circuit = circuit_drawn(draft)
    words = draft.words
    if circuit is None:
        return NotAssessed(str(words("drawings.schematic")), ("circuit.ring",))
    kind = words("drawings.schematic_kind")
    count = len(_drawn(draft, circuit, ""))
    made = []
    for place in range(count):
        part = words("drawings.part", number=str(place + 1), count=str(count)) if count > 1 else ""
        made.append(
            DrawingSheet(
                title=words("drawings.schematic"),
                kind=kind + ", " + part if part else kind,
                alt=str(words("drawings.schematic_alt")),
                key=f"drawing 1.{place + 1}" if place else "drawing 1",
                whole=partial(_sheet, draft, circuit, place),
                scale=words("drawings.not_to_scale"),
                paper=drawing_paper(draft),
            )
        )
    return made


def _drawn(draft: Draft, circuit: Circuit, number: str) -> tuple[Drawing, ...]:
    words = draft.words
    form = form_of(
        draft,
        title=str(words("drawings.schematic")),
        kind=str(words("drawings.schematic_kind")),
        scale=str(words("drawings.not_to_scale")),
        sheet=number,
        notes=(str(words("drawings.schematic_note")), str(words("drawings.schematic_where"))),
    )
    return schematic(circuit, form)


def _sheet(draft: Draft, circuit: Circuit, place: int, number: str) -> Drawing:
    """One sheet, told its number."""
    return _drawn(draft, circuit, number)[place]
