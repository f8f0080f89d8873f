"""Runs of the circuit on the measuring sheet: one line a run, a box for each input that is asked for."""

from collections.abc import Iterator, Sequence

from dossier.rendering.blocks import Blank, Block, Column, Span, Table
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.sections.measure_inputs import Asked
from dossier.rendering.sections.measure_lines import unit_of
from dossier.rendering.text import Markup, Text, strong, text

RUNS = "circuit.ring.pipe."
FORMS = (
    ("where", ("length", "bends", "route", "through", "within_reach")),
    ("held", ("support", "sleeved", "oxygen_tight", "temperature_rating", "pressure_rating")),
)
"""Two tables: where a run lies, and how it is held and what it stands."""
WIDTH, LABEL = 170.0, 26.0


def runs(draft: Draft, asked: Sequence[Asked]) -> Iterator[Block]:
    """Tables of the runs; inputs that stand in neither go into a third."""
    known = {head for _, heads in FORMS for head in heads}
    others = tuple(dict.fromkeys(_head(each) for each in asked if _head(each) not in known))
    for name, heads in (*FORMS, ("others", others)):
        kept = [head for head in heads if any(_head(each) == head for each in asked)]
        if kept:
            yield _table(draft, name, kept, asked)


def _head(each: Asked) -> str:
    return each.key.pattern.removeprefix(RUNS)


def _table(draft: Draft, name: str, heads: Sequence[str], asked: Sequence[Asked]) -> Table:
    words = draft.words
    by_place = {(each.key.names[0], _head(each)): each for each in asked if each.key.names}
    tags = dict.fromkeys(tag for tag, head in by_place if head in heads)
    first = {head: next(each for each in asked if _head(each) == head) for head in heads}
    width = (WIDTH - LABEL - 2.0 * len(heads)) / len(heads)
    rows: list[Sequence[Cell]] = [
        [tag, *(_cell(draft, by_place.get((tag, head))) for head in heads)] for tag in tags
    ]
    return Table(
        [
            Column(words("measure.head_run"), width=LABEL, strong=True),
            *[Column(_label(draft, first[head]), width=width) for head in heads],
        ],
        rows,
        words(f"measure.runs_{name}"),
        key=f"measure_runs_{name}",
        notes=_notes(heads, first),
        span=Span.FULL,
    )


def _cell(draft: Draft, each: Asked | None) -> Cell:
    if each is None:
        return ""
    return Blank(unit_of(draft, each), f"{each.key.key}.is", below=each.now)


def _label(draft: Draft, each: Asked) -> Text:
    return draft.words(f"measure.run_{_head(each).partition('.')[0]}")


def _notes(heads: Sequence[str], first: "dict[str, Asked]") -> Markup:
    """How each column is measured, under its key."""
    parts: list[Text] = []
    for head in heads:
        parts += [" " if parts else "", strong(head), ": ", first[head].how.how]
    return text(*parts)
