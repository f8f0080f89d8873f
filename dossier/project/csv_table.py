"""Lists given as CSV files: heads are keys with their unit, rows are entries, each cell keeps its place.

A semicolon between cells goes with a decimal comma, as spreadsheets of half the world write it. Byte-order
marks and the Windows encoding are taken.
"""

import csv
import re
from typing import TYPE_CHECKING

from dossier.notation import ProjectFaults
from dossier.notation.records import dataclass
from dossier.project.fields import Items, Many, One, Plan, Row, keys_of, kinds_keys
from dossier.project.model.circuit import Pipe
from dossier.project.model.components import Component
from dossier.project.nodes import List, Map, Node, Pair, Spot, Text, in_layer, shortened, words
from dossier.project.record import KEY, REFERENCE, UNREADABLE, Where
from dossier.project.source_file import LARGEST_TABLE, clean_text
from dossier.project.syntax import compose
from dossier.project.units import UnknownUnit, unit

if TYPE_CHECKING:
    from dossier.project.reader import Reader

MOST_ROWS = 20_000
MOST_COLUMNS = 100
_HEAD = re.compile(r"(?P<key>[^\[\]]*?)\s*(?:\[(?P<unit>[^\[\]]*)\])?")
_FIGURE = re.compile(r"[+-−]?[0-9]*[.,]?[0-9]+(?:[eE][+-]?[0-9]+)?")
_DECIMAL_COMMA = re.compile(r"([+-−]?[0-9]*),([0-9]+)")


@dataclass(frozen=True)
class Head:
    """One column: its key, its unit, its number counted from 1."""

    key: str
    unit: str
    column: int


def _lines(reader: "Reader", written: Text) -> tuple[str, str] | None:
    """Name and text of a table's file."""
    path = reader.folder.path_of(written.text)
    if isinstance(path, str):
        what = f"'{shortened(written.text)}': {path}"
        reader.record.fault(written.spot, REFERENCE, what, "check the name of the file")
        return None
    try:
        source = reader.folder.read(written.text, LARGEST_TABLE)
        return source.name, clean_text(source.content or b"", source.name, windows=True)
    except ProjectFaults as error:
        reader.record.faults.extend(error.faults)
        return None


def _rows(reader: "Reader", name: str, text: str) -> list[tuple[int, list[str]]] | None:
    """Rows with the line each begins in."""
    first = text.split("\n", 1)[0]
    cut = ";" if ";" in first else "\t" if "\t" in first and "," not in first else ","
    parser = csv.reader(text.split("\n"), delimiter=cut)
    rows, begins = [], 1
    try:
        for cells in parser:
            if any(cell.strip() for cell in cells):
                rows.append(
                    (begins, [_point(cell.strip()) if cut == ";" else cell.strip() for cell in cells])
                )
            begins = parser.line_num + 1
            if len(rows) > MOST_ROWS or len(cells) > MOST_COLUMNS:
                what = f"the table has more than {MOST_ROWS} rows or {MOST_COLUMNS} columns"
                reader.record.fault(Spot(name, begins), UNREADABLE, what, "split it")
                return None
    except csv.Error:
        reader.record.fault(
            Spot(name, parser.line_num), UNREADABLE, "the table cannot be read from here on", "save it anew"
        )
        return None
    if not rows:
        reader.record.fault(Spot(name, 1), UNREADABLE, "the table is empty", "write its heads and rows")
        return None
    return rows


def _point(cell: str) -> str:
    """Cell with a decimal point for its decimal comma."""
    return _DECIMAL_COMMA.sub(r"\1.\2", cell) if _DECIMAL_COMMA.fullmatch(cell) else cell


def _heads(reader: "Reader", name: str, row: tuple[int, list[str]], known: frozenset[str]) -> list[Head]:
    line, cells = row
    heads: list[Head] = []
    for column, cell in enumerate(cells, 1):
        spot = Spot(name, line, column)
        found = _HEAD.fullmatch(cell)
        key, used = (found["key"].strip(), (found["unit"] or "").strip()) if found else (cell, "")
        if not key:
            if any(cell for cell in cells[column - 1 :]):
                reader.record.fault(spot, KEY, "a column has no head", "write its key")
        elif key.split(".")[0] not in known:
            reader.unknown(key, spot, known)
        elif key in {head.key for head in heads}:
            reader.record.fault(spot, KEY, f"the column '{key}' stands twice", "keep one of them")
        else:
            if used:
                try:
                    unit(used)
                except UnknownUnit as error:
                    instead = f"write [{error.near}]" if error.near else "write a unit such as [m2]"
                    reader.record.fault(spot, UNREADABLE, f"'{shortened(used)}' is no known unit", instead)
                    continue
            heads.append(Head(key, used, column))
    return heads


def _cell(reader: "Reader", head: Head, cell: str, spot: Spot, plan: Plan | None) -> Node | None:
    """Node of a cell: a figure takes its head's unit; a list is split; brackets are read as in the file."""
    if cell[0] in "[{":
        try:
            node, faults = compose(cell, spot.file)
        except ProjectFaults as error:
            what = error.faults[0].what
            reader.record.fault(spot, UNREADABLE, f"{head.key}: {what}", error.faults[0].instead)
            return None
        reader.record.faults.extend(faults)
        return placed(node, spot) if node is not None else None
    if plan and any(isinstance(kind, Many | Row) for kind in plan.kinds) and cell != "none":
        parts = re.split(r"[\s;]+" if any(isinstance(kind, Row) for kind in plan.kinds) else r"[,;]\s*", cell)
        return List([Text(_figure(part, head.unit), spot) for part in parts if part], spot)
    if head.unit and not _FIGURE.fullmatch(cell) and cell[0] in "0123456789.+-−":
        what = f"{head.key} has its unit in the head, found '{shortened(cell)}'"
        reader.record.fault(spot, UNREADABLE, what, "write the figure alone")
        return None
    return Text(_figure(cell, head.unit), spot)


def _figure(cell: str, used: str) -> str:
    return f"{cell} {used}" if used and _FIGURE.fullmatch(cell) else cell


def placed(node: Node, spot: Spot) -> Node:
    """Node with all its parts at one place."""
    if isinstance(node, Text):
        return Text(node.text, spot, node.plain)
    if isinstance(node, List):
        return List([placed(item, spot) for item in node.items], spot)
    return Map({key: Pair(spot, placed(pair.node, spot)) for key, pair in node.pairs.items()}, spot)


def _entry(reader: "Reader", heads: list[Head], cells: list[str], spot: Spot, plans: dict[str, Plan]) -> Map:
    """A row as a mapping; dotted heads make mappings in it."""
    row = Map({}, spot)
    for head in heads:
        cell = cells[head.column - 1] if head.column <= len(cells) else ""
        if not cell:
            continue
        at = Spot(spot.file, spot.line, head.column)
        first, *rest = head.key.split(".")
        node = _cell(reader, head, cell, at, plans.get(first) if not rest else None)
        node = Text("", at, removes=True) if node is None else node
        target = row
        for segment in (first, *rest)[: len(rest)]:
            inner = target.get(segment)
            if not isinstance(inner, Map):
                inner = Map({}, at)
                target.put(segment, inner, at)
            target = inner
        target.put((first, *rest)[-1], node, at)
    return row


def _known(plan: Plan) -> tuple[frozenset[str], dict[str, Plan], str]:
    """Keys a table may have as heads, their plans, and the head that names its rows."""
    kind = plan.kinds[0]
    if isinstance(kind, Items):
        keys = {name: key.plan for name, key in keys_of(Pipe).items()}
        return frozenset({"branch", "unit", *keys}), keys, "branch"
    if isinstance(kind, One) and kind.cls is Component:
        keys = {name: key.plan for cls in Component.kinds.values() for name, key in keys_of(cls).items()}
        return kinds_keys() | {"tag", "basis"}, keys, "tag"
    if isinstance(kind, One):
        keys = {name: key.plan for name, key in keys_of(kind.cls).items()}
        return frozenset({*keys, "basis"}), keys, ""
    return frozenset(), {}, ""


def table_of(reader: "Reader", plan: Plan, node: Map, where: Where) -> List | Map | None:
    """Rows of ``{from: file.csv}`` as a list, or by their name as a mapping."""
    known, plans, naming = _known(plan)
    written = node.get("from")
    for key, pair in node.pairs.items():
        if not naming and key not in {"from", "basis"}:
            reader.unknown(key, pair.spot, frozenset({"from", "basis"}))
    if not isinstance(written, Text):
        spot = written.spot if written is not None else node.spot
        reader.record.fault(
            spot,
            UNREADABLE,
            f"from names a file, found {words(written)}",
            f"write {{from: {where.label}.csv}}",
        )
        return None
    found = _lines(reader, written)
    rows = _rows(reader, *found) if found else None
    if rows is None or found is None:
        return None
    name = found[0]
    heads = _heads(reader, name, rows[0], known)
    width = len(rows[0][1])
    entries = []
    for line, cells in rows[1:]:
        spot = Spot(name, line)
        if len(cells) > width and any(cells[width:]):
            what = f"the row has {len(cells)} cells, its heads are {width}"
            reader.record.fault(spot, UNREADABLE, what, "put cells that hold a comma in quotes")
            continue
        entries.append(_entry(reader, heads, cells, spot, plans))
    rows_of: List | Map = List(list(entries), Spot(name, 1))
    if naming:
        rows_of = _by_name(reader, entries, naming, Spot(name, 1))
    laid = in_layer(rows_of, node.layer)
    return laid if isinstance(laid, List | Map) else None


def _by_name(reader: "Reader", entries: list[Map], naming: str, spot: Spot) -> Map:
    """Rows under the name each bears; rows of one branch follow each other in it."""
    rows = Map({}, spot)
    for entry in entries:
        name = entry.pairs.pop(naming, None)
        if name is None or not isinstance(name.node, Text):
            reader.record.fault(entry.spot, KEY, f"the row has no {naming}", f"fill its column {naming}")
            continue
        word = name.node.text
        if naming == "branch":
            branch = rows.get(word)
            if not isinstance(branch, List):
                branch = List([], entry.spot)
                rows.put(word, branch, name.spot)
            item = entry if "unit" in entry.pairs else Map({"pipe": Pair(entry.spot, entry)}, entry.spot)
            branch.items.append(item)
        elif word in rows.pairs:
            reader.record.fault(
                name.spot, REFERENCE, f"the name '{shortened(word)}' is given twice", f"rename one {naming}"
            )
        else:
            rows.put(word, entry, name.spot)
    return rows
