"""Tables of a sheet: boxes of one line become one entry of a list, or one named entry.

A box of a table is called ``layout.openings[2].at.x``: the list, its line, the key in the entry. A line that
names an entry of the file changes that entry; other lines become new entries.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from dossier.notation import Basis
from dossier.project.editing import CannotEdit, quoted
from dossier.project.fields import Many, Named, One, Plan, Row
from dossier.project.filled_values import Filled, with_unit, written_value
from dossier.project.project import Project
from dossier.project.spoken_keys import spoken

BOX = re.compile(r"([^\[\]]+)\[([^\[\]]+)\]\.(.+)")
NAMES = ("name", "bulkhead", "at")
"""Keys by which an entry of a list is known, the first that it has."""
NONE = "none"

Line = dict[str, Filled]
"""Boxes of one line by the keys in the entry."""


@dataclass
class FilledTable:
    """All lines of one table that hold something."""

    key: str
    lines: dict[str, Line] = field(default_factory=dict)

    @property
    def said(self) -> str:
        """What was filled in, for messages."""
        return "; ".join(", ".join(box.text for box in line.values()) for line in self.lines.values())


@dataclass(frozen=True)
class Written:
    """A value as the file writes it, for a key; ``entries`` are to be put behind those the list has."""

    key: str
    said: str
    value: str = ""
    entries: tuple[str, ...] = ()


def tables_of(fields: Mapping[str, Filled]) -> tuple[list[FilledTable], dict[str, Filled]]:
    """Boxes of tables, and all others."""
    tables: dict[str, FilledTable] = {}
    rest: dict[str, Filled] = {}
    for name, filled in fields.items():
        found = BOX.fullmatch(name)
        if found is None:
            rest[name] = filled
            continue
        table = tables.setdefault(found[1], FilledTable(found[1]))
        table.lines.setdefault(found[2], {})[found[3]] = filled
    return list(tables.values()), rest


def written_table(project: Project, table: FilledTable) -> Iterator[Written]:
    """What a table changes in the file. Raises CannotEdit."""
    said = spoken(project, table.key)
    if said is None or said.plan is None:
        raise CannotEdit("the project file has no such key")
    kind = said.plan.kinds[0]
    texts = [box.text.casefold() for line in table.lines.values() for box in line.values()]
    if texts == [NONE]:
        yield Written(table.key, NONE, NONE if said.plan.answers_none else "[]")
    elif isinstance(kind, Named):
        for label, line in table.lines.items():
            yield from _named(project, table.key, label, line)
    elif isinstance(kind, Many) and any(isinstance(inner, Row) for inner in kind.item.kinds):
        rows = [_in_row(kind.item, line) for line in table.lines.values()]
        yield Written(table.key, table.said, f"{{is: [{', '.join(rows)}], basis: {Basis.MEASURED}}}")
    elif isinstance(kind, Many) and any(isinstance(inner, One) for inner in kind.item.kinds):
        yield from _listed(project, table)
    else:
        raise CannotEdit("it is no list of entries")


def _named(project: Project, key: str, label: str, line: Line) -> Iterator[Written]:
    """An entry under its name: changed where it is there, else written whole."""
    name = line.pop("name").text if "name" in line else label
    if "." in name:
        raise CannotEdit(f"the name {quoted(name)} has a full stop in it: enter it in the file")
    if not line:
        raise CannotEdit(f"nothing but the name is written for {name}")
    yield from _entry(project, f"{key}.{name}", line)


def _entry(project: Project, key: str, line: Line) -> Iterator[Written]:
    values = _values(project, key, line)
    said = ", ".join(box.text for box in line.values())
    if project.where(key).key == key:
        for inner, value in values.items():
            yield Written(f"{key}.{inner}", said, f"{{is: {value}, basis: {Basis.MEASURED}}}")
        return
    yield Written(key, said, _in_braces(values))


def _listed(project: Project, table: FilledTable) -> Iterator[Written]:
    """Entries of a list: those the file names already are changed, the others put behind them."""
    new = []
    for line in table.lines.values():
        naming = next((name for name in NAMES if name in line), "")
        known = f"{table.key}.{line[naming].text}" if naming else ""
        if known and project.where(known).key == known:
            yield from _entry(project, known, {key: box for key, box in line.items() if key != naming})
        else:
            new.append(_in_braces(_values(project, table.key, line)))
    if new:
        yield Written(table.key, table.said, entries=tuple(new))


def _values(project: Project, key: str, line: Line) -> dict[str, str]:
    """Keys of an entry with their values as the file writes them."""
    plans: dict[str, Plan] = {}
    for column in line:
        inner = column.partition(".")[0]
        said = spoken(project, f"{key}.{inner}")
        if said is None or said.plan is None:
            raise CannotEdit(f"an entry has no {inner}")
        plans[inner] = said.plan
    values = {}
    for inner, plan in plans.items():
        if inner in line:
            values[inner] = written_value(plan, line[inner].text, line[inner].unit)
            continue
        parts = {name.partition(".")[2]: box for name, box in line.items() if name.startswith(f"{inner}.")}
        values[inner] = _in_row(plan, parts)
    return values


def _in_row(plan: Plan, line: Line) -> str:
    """A point or a size out of its boxes; all of them are needed."""
    row = next((kind for kind in plan.kinds if isinstance(kind, Row)), None)
    names = [name for name, _ in row.fields] if row is not None else []
    missing = [name for name in names if name not in line]
    if missing or not names:
        raise CannotEdit(
            f"{' and '.join(missing)} of a line is not filled in: all of {', '.join(names)} are needed"
        )
    figures = (quoted(with_unit(line[name].text, line[name].unit)) for name in names)
    return f"[{', '.join(figures)}]"


def _in_braces(values: Mapping[str, str]) -> str:
    inner = "".join(f"{key}: {value}, " for key, value in values.items())
    return f"{{{inner}basis: {Basis.MEASURED}}}"
