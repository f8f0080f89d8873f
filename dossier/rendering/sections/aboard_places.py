"""Section 8: on which page things stand in this book, and where they are in the boat."""

from collections.abc import Iterator

from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import Align, Blank, Block, Cell, Column, Heading, Note, Table, TwoColumns
from dossier.rendering.sections.crew import Crew
from dossier.rendering.text import Text, blank, own, page_of, strong, text
from dossier.sizing.needs_aboard import answers_at

FINDS = (
    ("alarm", "emergency_card"),
    ("start", "start_and_stop"),
    ("valves", "valve_positions"),
    ("readings", "normal_readings"),
    ("wrong", "faults"),
    ("tonight", "tonight"),
    ("top_up", "top_up"),
    ("service", "maintenance"),
    ("autumn", "procedure_before_season"),
    ("frost", "procedure_lay_up"),
    ("damage", "procedure_after_damage"),
    ("spares", "spares"),
)
"""What the reader wants, and the key of the page that has it."""

PLACES = (
    ("stop", "stop_place", ("safety", "stop"), ""),
    ("panel", "panel", (), "burner"),
    ("isolator", "isolator", (), "burner"),
    ("fuel_shut_off", "fuel_shut_off", ("fuel", "shut_off"), "burner"),
    ("burner", ("burner",), (), "burner"),
    ("pump", ("pump",), (), ""),
    ("header", ("header_tank",), (), "header_tank"),
    ("vessel", ("membrane_vessel",), (), "membrane_vessel"),
    ("safety_valve", ("safety_valve",), (), "safety_valve"),
    ("bypass", ("bypass_valve",), (), "bypass_valve"),
    ("recovery", ("recovery_exchanger",), (), "recovery_exchanger"),
    ("tap", ("tap_exchanger", "water_heater"), (), "tap_exchanger or water_heater"),
    ("high_points", "high_points", (), ""),
    ("low_points", "low_points", (), ""),
    ("extinguisher", "extinguisher_place", ("safety", "extinguishers"), ""),
    ("fire_port", "fire_port_place", ("safety", "fire_port"), ""),
    ("co_alarms", "alarm_places", ("safety", "co_alarms"), ""),
    ("plug", "", (), "burner"),
)
"""What is looked for, the placeholder or the kinds of part that tell where, the key that may say none, the
need."""


def finder(crew: Crew) -> Iterator[Block]:
    """The first thing on the first page: where to look in this book."""
    words, draft = crew.words, crew.draft
    rows: list[list[Cell]] = [
        [strong(words(f"aboard.find_{name}")), page_of(key)]
        for name, key in FINDS
        if key != "emergency_card" or draft.has("emergency_card")
    ]
    yield Table(
        [Column(words("aboard.find_what")), Column(words("aboard.find_page"), align=Align.NUMBER)],
        rows,
        words("aboard.finder"),
        key="table_finder",
        plain=True,
    )


def places(crew: Crew) -> Iterator[Block]:
    """Where things are in the boat; an empty box where nobody said."""
    words = crew.words
    yield Heading(2, words("aboard.places_title"), key="where_things_are")
    rows: list[list[Cell]] = []
    for name, filled_from, key, need in PLACES:
        if not crew.has(need):
            continue
        place = _place(crew, filled_from, key)
        rows.append([words(f"aboard.place_{name}"), place or Blank()])
    placed = Table(
        [Column(words("aboard.places_what"), strong=True), Column(words("aboard.places_where"))],
        rows,
        words("aboard.places_caption"),
        key="table_places_aboard",
    )
    yield TwoColumns([placed])
    yield Note(words("aboard.places_note"))


def _place(crew: Crew, filled_from: str | tuple[str, ...], key: tuple[str, ...]) -> Text:
    """Tag and place, ``none aboard``, or nothing."""
    answers = list(answers_at(crew.draft.project, list(key))) if key else []
    if answers and all(isinstance(answer, No) or answer == () for answer in answers):
        return strong(crew.words("emergency_card.none_aboard"))
    if isinstance(filled_from, str):
        return crew.filling[filled_from] if filled_from else ""
    components = crew.draft.project.components or {}
    tags = [tag for tag, part in components.items() if part.kind in filled_from]
    return crew.joined([_tag(crew, tag) for tag in tags], ", ")


def _tag(crew: Crew, tag: str) -> Text:
    """A tag with its place, or with a box to write it in."""
    said = crew.filling.named(tag)
    return said if said != tag else text(tag, own(" "), blank())
