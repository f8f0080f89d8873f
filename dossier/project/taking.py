"""Enters what was filled in on sheets into the text of a project file, comments and layout kept.

``take(path, fields)`` changes nothing on disk: it gives the new text, what changed, and what could not be
taken. Every new text has been read as a project before it is given out.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from dossier.notation import Basis, Fault, ProjectFaults
from dossier.project.editing import CannotEdit, Edit, FileText, New
from dossier.project.filled_tables import Written, tables_of, written_table
from dossier.project.filled_values import Filled, written_value
from dossier.project.load import load, load_content
from dossier.project.project import Project
from dossier.project.source_file import LARGEST_PROJECT, SourceFile, source_file
from dossier.project.spoken_keys import spoken
from dossier.project.taking_faults import behind
from dossier.project.taking_places import check_replaceable, own_line, place_for, standing_value, value_of

VALUE, BASIS = "is", "basis"
BASES = frozenset(basis.value for basis in Basis)


@dataclass(frozen=True)
class Change:
    """One key: what the file said, empty where it was silent, and what it says now."""

    key: str
    before: str
    after: str


@dataclass(frozen=True)
class Refused:
    """One key that could not be taken, and why."""

    key: str
    text: str
    why: str


@dataclass(frozen=True)
class Taken:
    """The file with all that could be taken; ``content`` is the file as it was where nothing could.

    ``doubts`` are odd values among the changes, which were taken as they are.
    """

    content: bytes
    changes: tuple[Change, ...]
    refused: tuple[Refused, ...]
    doubts: tuple[Fault, ...] = ()


@dataclass
class _Entry:
    """What the fields of one key say together."""

    value: Filled | None = None
    long_form: bool = False
    bases: list[str] = field(default_factory=list)

    @property
    def said(self) -> str:
        """What was filled in, for messages."""
        return self.value.text if self.value else ", ".join(self.bases)


@dataclass(frozen=True)
class _Planned:
    """One key to change: the value to replace, or the mapping that gets new keys and the way in it.

    ``behind`` is the list that gets a new entry behind its last.
    """

    key: str
    said: str
    before: str
    after: str
    node: yaml.Node | None = None
    into: yaml.MappingNode | None = None
    way: tuple[str, ...] = ()
    behind: yaml.SequenceNode | None = None


def take(path: str | Path, fields: Mapping[str, Filled]) -> Taken:
    """Enter fields by the keys they are called after. Raises ProjectFaults for faults of the file itself."""
    path = Path(path)
    project = load(path)
    source = source_file(path, path.name, LARGEST_PROJECT)
    text = FileText(source.content or b"")
    planned: dict[str, _Planned] = {}
    refused: list[Refused] = []
    tables, single = tables_of(fields)
    for table in tables:
        try:
            for written in written_table(project, table):
                planned |= {made.key: made for made in _plan_written(project, text, written)}
        except CannotEdit as why:
            refused.append(Refused(table.key, table.said, str(why)))
    for key, entry in _entries(single).items():
        try:
            made = _plan(project, text, key, entry)
        except CannotEdit as why:
            refused.append(
                Refused(key, entry.value.text if entry.value else ", ".join(entry.bases), str(why))
            )
            continue
        if made is not None:
            planned[key] = made
    return _read_again(path, source, project, text, (planned, refused))


def _entries(fields: Mapping[str, Filled]) -> Mapping[str, _Entry]:
    """Fields by the key they are about: its value, and the bases ticked."""
    found: dict[str, _Entry] = {}
    for name, filled in fields.items():
        key, _, last = name.rpartition(".")
        outer, _, before = key.rpartition(".")
        if last == VALUE:
            entry = found.setdefault(key, _Entry())
            entry.value, entry.long_form = filled, True
        elif before == BASIS and last in BASES:
            found.setdefault(outer, _Entry()).bases.append(last)
        else:
            found.setdefault(name, _Entry()).value = filled
    return found


def _plan(project: Project, text: FileText, key: str, entry: _Entry) -> _Planned | None:
    """How a key is changed; None where the file says the same already. Raises CannotEdit."""
    said = spoken(project, key)
    top, _, rest = key.partition(".")
    tag = rest.partition(".")[0]
    if top == "components" and tag not in (project.components or {}):
        raise CannotEdit(
            f"the file has no {tag} among its components: add it there, then take the sheets again"
        )
    if said is None or said.plan is None:
        raise CannotEdit("the project file has no such key")
    if len(entry.bases) > 1:
        raise CannotEdit(f"more than one basis is ticked: {' and '.join(entry.bases)}")
    line = own_line(project, key)
    stands = line.key == key and bool(line.line)
    node, whole = standing_value(text, line, key) if stands else (None, None)
    if entry.value is not None:
        value = written_value(said.plan, entry.value.text, entry.value.unit)
    elif node is not None:
        value = text.written(node)
    else:
        raise CannotEdit("a basis is ticked and no value is written")
    after = value
    if entry.long_form or entry.bases:
        after = f"{{is: {value}, basis: {entry.bases[0] if entry.bases else Basis.MEASURED}}}"
    if whole is not None and node is not None:
        before = text.written(whole)
        check_replaceable(text, whole, line.text, node)
        return None if before == after else _Planned(key, entry.said, before, after, node=whole)
    into, way = place_for(project, text, key)
    return _Planned(key, entry.said, "", after, into=into, way=way)


def _plan_written(project: Project, text: FileText, written: Written) -> Iterator[_Planned]:
    """How a table's value or new entries are put into the file. Raises CannotEdit."""
    key, line = written.key, own_line(project, written.key)
    standing = value_of(text, line, key) if line.key == key and line.line else None
    value = written.value or f"[{', '.join(written.entries)}]"
    if isinstance(standing, yaml.SequenceNode) and standing.value and written.entries:
        for number, entry in enumerate(written.entries, len(standing.value) + 1):
            yield _Planned(f"{key}[{number}]", written.said, "", entry, behind=standing)
    elif standing is not None:
        before = text.written(standing)
        text.replaced(standing, "")
        if before != value:
            yield _Planned(key, written.said, before, value, node=standing)
    else:
        into, way = place_for(project, text, key)
        yield _Planned(key, written.said, "", value, into=into, way=way)


def _read_again(
    path: Path,
    source: SourceFile,
    project: Project,
    text: FileText,
    made_and_refused: tuple[dict[str, _Planned], list[Refused]],
) -> Taken:
    """The text with all changes that can be read; those that cannot are refused, the others tried again."""
    (planned, refused), before = made_and_refused, project.warnings
    while planned:
        edits = list(_edits(text, planned.values()))
        new = text.with_edits(edit for edit, _ in edits)
        faults, doubts = _read(path, source.name, new)
        if not faults:
            changes = tuple(Change(made.key, made.before, made.after) for made in planned.values())
            known = {doubt.what for doubt in before}
            odd = tuple(doubt for doubt in doubts if doubt.what not in known)
            return Taken(new.encode("utf-8"), changes, tuple(refused), odd)
        wrong = dict(behind(faults, source.name, new, edits)) or dict(
            _alone(path, source.name, text, planned)
        )
        for key, fault in (wrong or dict.fromkeys(planned, faults[0])).items():
            made = planned.pop(key)
            why = f"{fault.what}; {fault.instead}" if fault.instead else fault.what
            refused.append(Refused(key, made.said, why))
    return Taken(source.content or b"", (), tuple(refused))


def _read(path: Path, name: str, text: str) -> tuple[tuple[Fault, ...], tuple[Fault, ...]]:
    """What is wrong with a text as a project file, and what is odd in it."""
    try:
        project = load_content(SourceFile(name, text.encode("utf-8"), ""), path.parent)
    except ProjectFaults as faults:
        return faults.faults, ()
    return (), project.warnings


def _alone(
    path: Path, name: str, text: FileText, planned: Mapping[str, _Planned]
) -> Iterator[tuple[str, Fault]]:
    """Changes with which the file has faults, tried one by one."""
    for key, made in planned.items():
        faults, _ = _read(path, name, text.with_edits(edit for edit, _ in _edits(text, [made])))
        if faults:
            yield key, faults[0]


def _edits(text: FileText, planned: Iterable[_Planned]) -> Iterator[tuple[Edit, tuple[str, ...]]]:
    """Changes of the text, each with the keys it is about; new keys of one mapping are one change."""
    added: dict[int, tuple[Any, dict[str, Any], list[str]]] = {}
    for made in planned:
        if made.behind is not None:
            yield text.appended(made.behind, made.after), (made.key,)
            continue
        if made.node is not None:
            yield text.replaced(made.node, made.after), (made.key,)
            continue
        _, tree, keys = added.setdefault(id(made.into), (made.into, {}, []))
        keys.append(made.key)
        here = tree
        for part in made.way[:-1]:
            inner = here.setdefault(part, {})
            here = inner if isinstance(inner, dict) else here
        here[made.way[-1]] = made.after
    for mapping, tree, keys in added.values():
        new: Mapping[str, New] = tree
        yield text.added(mapping, new), tuple(keys)
