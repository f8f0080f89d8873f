"""Section 6.17: what does the system weigh, and how does the boat answer?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.masses import Masses

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The answer and the parts."""
    found = draft.study.masses
    if isinstance(found, NotAssessed):
        yield from missing(draft, "masses", "6.17", found)
        return
    words = draft.words
    yield heading(draft, "masses", "6.17")
    yield feeds(draft, ["mass"])
    yield _answer(draft, found)
    yield grounds(draft, "masses", numbers=[found.filled], chapters=["mass"])
    yield _parts(draft, found)
    if found.unweighed:
        yield Note(words("masses.unweighed", keys=draft.keys(found.unweighed)))
    if found.unplaced:
        yield Note(words("masses.unplaced", keys=draft.keys(found.unplaced)))


def _answer(draft: Draft, found: Masses) -> Answer:
    words = draft.words
    name = "masses.answer" if not found.unweighed else "masses.answer_at_least"
    answer = words(name, dry=draft.said(found.dry, "mass_fine"), filled=draft.said(found.filled, "mass_fine"))
    rest: Text = ""
    if found.list is not None:
        rest = words("masses.lists", angle=draft.said(found.list, "angle_fine"))
    return Answer(draft.worked(found.filled, answer), rest)


def _parts(draft: Draft, found: Masses) -> Table:
    words, numbers = draft.words, draft.numbers
    kilograms, metres = numbers.unit("mass_fine"), numbers.unit("length")
    rows: list[Sequence[Cell]] = [
        [
            strong(part.tag),
            draft.named(part.kind),
            draft.cell(part.dry, "mass_fine"),
            draft.cell(part.coolant, "mass_fine"),
            draft.cell(part.filled, "mass_fine"),
            draft.cell(part.x, "length"),
            draft.cell(part.y, "length"),
            draft.cell(part.z, "length"),
        ]
        for part in found.parts
        if part.filled is not None or part.x is not None
    ]
    totals: list[Cell] = [
        strong(words("masses.together")),
        "",
        draft.worked(found.dry, strong(draft.cell(found.dry, "mass_fine"))),
        "",
        draft.worked(found.filled, strong(draft.cell(found.filled, "mass_fine"))),
        "",
        "",
        "",
    ]
    return Table(
        columns=[
            Column(words("masses.part")),
            Column(words("masses.kind")),
            Column(words("masses.dry"), kilograms, NUMBER),
            Column(words("masses.liquid"), kilograms, NUMBER),
            Column(words("masses.filled"), kilograms, NUMBER),
            Column(words("masses.x"), metres, NUMBER),
            Column(words("masses.y"), metres, NUMBER),
            Column(words("masses.z"), metres, NUMBER),
        ],
        rows=rows,
        totals=[totals],
        caption=words("masses.caption"),
        key="table_masses",
        notes=words("masses.notes"),
    )
