"""Blank tables and squared paper of the measuring sheets, for what does not fit one box."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fnmatch import fnmatchcase

from dossier.project.spoken_keys import spoken
from dossier.rendering.blocks import Blank, Block, Column, Figure, Span, Table, Together
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.sketch_grid import sketch_grid
from dossier.rendering.sections.measure_inputs import Asked
from dossier.rendering.sections.measure_lines import printed_unit
from dossier.rendering.text import Text

POINT = ("x", "y", "z")
LENGTHS = frozenset({"x", "y", "z", "long", "wide", "high", "thickness", "hole", "fuse_distance"})
METRES = frozenset({"length", "from_source", "from_entry", "from", "to"})
UNITS = {"section": "mm2", "fuse": "A", "insulation": "degC", "mass": "kg", "air_flow": "m3/h"}
PLACES = "layout.places"
FULL_WIDTH = 170.0


AT, SIZE = {head: f"at.{head}" for head in POINT}, {head: f"size.{head}" for head in ("long", "wide", "high")}
"""Heads of a place and of a size, as the parts of a key each."""


@dataclass(frozen=True)
class BlankTable:
    """A table to fill in: the inputs it takes, its heads, how many lines; ``first`` heads the labels.

    ``keys`` are those of an entry of the file under each head, where they are not called as the head is.
    """

    pattern: str
    heads: tuple[str, ...]
    count: int = 0
    first: str = "number"
    label: float = 12.0
    keys: Mapping[str, str] = field(default_factory=dict)

    def box(self, line: str, head: str) -> str:
        """Name of a box in the form: the list, its line, the key in the entry."""
        return f"{self.pattern.removesuffix('*')}[{line}].{self.keys.get(head, head)}"


TABLES = {
    "route": BlankTable("exhaust.route", POINT, 8, "point"),
    "drains": BlankTable("exhaust.drains*", (*POINT, "led_to"), 2, keys=AT),
    "openings": BlankTable("layout.openings", ("name", "kind", *POINT), 8, keys=AT),
    "outlet": BlankTable("layout.canopies", ("name", "from", "to"), 2),
    "passages": BlankTable(
        "exhaust.passes",
        ("name", "material", "thickness", "hole", "sleeve", "closing"),
        4,
        keys={"name": "bulkhead"},
    ),
    "compartments": BlankTable("layout.compartments*", ("name", "from", "to", "holds", "sealed"), 3),
    "fans": BlankTable("combustion_air.fans", ("air_flow",), 2),
    "alarms": BlankTable(
        "safety.co_alarms",
        ("place", "standard", "replace_by", "tested", "from_source"),
        4,
        keys={"place": "at"},
    ),
    "smoke_alarms": BlankTable("safety.smoke_alarms", ("place", "replace_by"), 3, keys={"place": "at"}),
    "extinguishers": BlankTable(
        "safety.extinguishers",
        ("place", "mass", "from_entry", "replace_by"),
        2,
        keys={"place": "at", "mass": "size"},
    ),
    "circuits": BlankTable(
        "electrics.circuits", ("name", "feeds", "length", "section", "fuse", "fuse_distance", "insulation"), 4
    ),
    "places": BlankTable(
        "layout.places*", (*POINT, "long", "wide", "high"), 0, "part", 24.0, keys={**AT, **SIZE}
    ),
}
"""Blank tables by their names in the data."""


@dataclass(frozen=True)
class Form:
    """A blank table with the inputs it takes, and the heads under which only some words may stand."""

    table: Table
    asked: tuple[Asked, ...]
    choices: tuple[tuple[str, tuple[str, ...]], ...] = ()


def forms_of(draft: Draft, extra: Sequence[str], asked: Sequence[Asked]) -> Iterator[Form]:
    """Blank tables of a sheet whose inputs are asked for."""
    for name in extra:
        blank = TABLES.get(name)
        if blank is None:
            continue
        taken = tuple(
            each
            for each in asked
            if fnmatchcase(each.key.pattern, blank.pattern) and (name == "places" or not each.key.names)
        )
        labels = _parts(draft, taken) if name == "places" else [str(n) for n in range(1, blank.count + 1)]
        if taken and labels:
            yield Form(_table(draft, name, blank, labels), taken, tuple(_choices(draft, blank)))


def _choices(draft: Draft, blank: BlankTable) -> Iterator[tuple[str, tuple[str, ...]]]:
    for head in blank.heads:
        said = spoken(draft.project, f"{blank.pattern.removesuffix('*')}.{blank.keys.get(head, head)}")
        if said is not None and said.choices:
            yield str(draft.words(f"measure.head_{head}")), said.choices


def _parts(draft: Draft, taken: Sequence[Asked]) -> list[str]:
    """Parts whose place is asked for; all that have none where the whole list is missing."""
    named = [each.key.names[0] for each in taken if each.key.names and each.key.pattern == PLACES]
    if any(not each.key.names for each in taken):
        placed = (draft.project.layout.places if draft.project.layout else None) or {}
        named += [tag for tag in draft.project.components or {} if tag not in placed]
    return list(dict.fromkeys(named))


def _table(draft: Draft, name: str, blank: BlankTable, labels: Sequence[str]) -> Table:
    words = draft.words
    width = (FULL_WIDTH - blank.label - 2.0 * len(blank.heads)) / len(blank.heads)
    rows: list[Sequence[Cell]] = [
        [label, *(Blank(_unit(draft, head), blank.box(label, head)) for head in blank.heads)]
        for label in labels
    ]
    columns = [Column(words(f"measure.head_{blank.first}"), width=blank.label, strong=True)]
    for head in blank.heads:
        label: Text = words(f"measure.head_{head}")
        columns.append(Column(label, width=width))
    return Table(columns, rows, words(f"measure.table_{name}"), key=f"measure_table_{name}", span=Span.FULL)


def _unit(draft: Draft, head: str) -> str:
    unit = UNITS.get(head, "mm" if head in LENGTHS else "m" if head in METRES else "")
    return printed_unit(unit, draft.numbers.system) if unit else ""


GRIDS = {"exhaust": ("elevation", "plan"), "rooms": ("rooms",)}
SQUARES = {"elevation": (34, 20), "plan": (34, 16), "rooms": (34, 26)}
WATER_AT = 6
SKETCH = "sketch "


def grids(draft: Draft, extra: Sequence[str]) -> Iterator[Block]:
    """Squared paper to sketch on, the views of one thing on one page."""
    for name in extra:
        if name.startswith(SKETCH):
            yield Together([_grid(draft, view) for view in GRIDS[name.removeprefix(SKETCH)]])


def _grid(draft: Draft, view: str) -> Figure:
    words = draft.words
    water = (str(words("measure.waterline")), WATER_AT) if view == "elevation" else None
    title = str(words(f"measure.grid_{view}"))
    drawing = sketch_grid(
        SQUARES[view], title, str(words("measure.forward")), str(words("measure.grid_scale")), water
    )
    return Figure(
        drawing,
        words(f"measure.grid_{view}_caption"),
        str(words("measure.grid_alt", title=title)),
        key=f"sketch_{view}",
        span=Span.FULL,
    )
