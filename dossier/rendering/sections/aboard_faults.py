"""Section 8: fault trees as indented text: first look, questions with their exits, remedy, stop rule."""

from collections.abc import Iterator

from dossier.data.procedures import FaultLine, FaultTree, fault_trees
from dossier.rendering.blocks import (
    Align,
    Block,
    Cell,
    Column,
    Heading,
    Note,
    Paragraph,
    Steps,
    StopRule,
    Table,
    Together,
    TwoColumns,
)
from dossier.rendering.sections.crew import Crew
from dossier.rendering.text import Text, line_break, own, page_of, strong, text

PANELS = {
    1: ("short_circuit",),
    2: ("failed_starts",),
    5: ("carbon_monoxide",),
    6: ("overheat_stat", "hot_coolant"),
    11: ("coolant_in_tap_water",),
    13: ("hot_tap_water",),
}
"""Cautions that stand over a tree."""


def faults(crew: Crew) -> Iterator[Block]:
    """A list of symptoms with their pages, then the trees."""
    words = crew.words
    trees = [tree for tree in fault_trees() if _questions(crew, tree)]
    yield Heading(2, words("maintenance.faults_title"), key="faults")
    yield Paragraph(words("maintenance.faults"))
    yield Paragraph(words("maintenance.two_failed_starts"))
    rows: list[list[Cell]] = [
        [_fault(crew, tree), words.told(tree.symptom), page_of(f"fault_{tree.number}")] for tree in trees
    ]
    symptoms = Table(
        [
            Column("", strong=True, width=None if crew.narrow else 17.0),
            Column(words("aboard.symptom"), strong=True),
            Column(words("aboard.find_page"), align=Align.NUMBER),
        ],
        rows,
        words("aboard.symptoms"),
        key="table_symptoms",
        plain=True,
    )
    yield TwoColumns([symptoms])
    if crew.draft.edition == "aboard":
        yield Note(words("aboard.tests_elsewhere"))
    yield TwoColumns([Together(list(_tree(crew, tree))) for tree in trees])


def _fault(crew: Crew, tree: FaultTree) -> Text:
    return crew.words("maintenance.fault", number=tree.number)


def _lines(crew: Crew, tree: FaultTree, part: str) -> list[FaultLine]:
    return [line for line in tree.lines if line.part == part and crew.has(line.needs)]


def _questions(crew: Crew, tree: FaultTree) -> list[FaultLine]:
    return _lines(crew, tree, "question")


def _tree(crew: Crew, tree: FaultTree) -> Iterator[Block]:
    """One tree, on one sheet as far as it holds it."""
    words = crew.words
    title = text(_fault(crew, tree), own("  "), own(words.told(tree.symptom)))
    yield Heading(3, title, key=f"fault_{tree.number}")
    yield from crew.panels(PANELS.get(tree.number, ()))
    for line in _lines(crew, tree, "first look"):
        yield Paragraph(text(strong(words("maintenance.first_look"), own(": ")), crew.said(line.text)))
    yield Steps([_question(crew, line) for line in _questions(crew, tree)])
    for line in _lines(crew, tree, "remedy"):
        yield Paragraph(text(strong(words("maintenance.remedy"), own(": ")), crew.said(line.text)))
    stops = [crew.said(line.text) for line in _lines(crew, tree, "stop")]
    if stops:
        yield StopRule(words("maintenance.stop"), crew.joined(stops))


def _question(crew: Crew, line: FaultLine) -> Text:
    """The question, and each exit that leads out of the tree on a line of its own."""
    parts: list[Text] = [crew.said(line.text)]
    for answer, exit_ in (("yes", line.yes), ("no", line.no)):
        if exit_:
            said = strong(crew.words(f"maintenance.{answer}"), own(" → "))
            parts += [line_break(), said, crew.said(exit_)]
    return text(*parts)
