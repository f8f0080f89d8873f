"""Enters what was filled in on sheets into the text of a project file, comments and layout kept.

``take(path, fields)`` changes nothing on disk: it gives the new text, what changed, and what could not be
taken. Every new text has been read as a project before it is given out.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from dossier.notation import Basis, Fault, Line, ProjectFaults
from dossier.project.editing import CannotEdit, Edit, FileText, New, pairs_of
from dossier.project.filled_values import written_value
from dossier.project.load import load, load_content
from dossier.project.project import Project
from dossier.project.source_file import LARGEST_PROJECT, SourceFile, source_file
from dossier.project.spoken_keys import spoken

VALUE, BASIS = "is", "basis"
BASES = frozenset(basis.value for basis in Basis)


@dataclass(frozen=True)
class Filled:
    """What stands in one field of a sheet, and the unit printed in its box."""

    text: str
    unit: str = ""


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
    """One key to change: the value to replace, or the mapping that gets new keys and the way in it."""

    key: str
    said: str
    before: str
    after: str
    node: yaml.Node | None = None
    into: yaml.MappingNode | None = None
    way: tuple[str, ...] = ()


def take(path: str | Path, fields: Mapping[str, Filled]) -> Taken:
    """Enter fields by the keys they are called after. Raises ProjectFaults for faults of the file itself."""
    path = Path(path)
    project = load(path)
    source = source_file(path, path.name, LARGEST_PROJECT)
    text = FileText(source.content or b"")
    planned: dict[str, _Planned] = {}
    refused: list[Refused] = []
    for key, entry in _entries(fields).items():
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
    if said is None or said.plan is None:
        raise CannotEdit("the project file has no such key")
    if len(entry.bases) > 1:
        raise CannotEdit(f"more than one basis is ticked: {' and '.join(entry.bases)}")
    line = project.where(key)
    main = project.files[0].name
    stands = line.key == key and bool(line.line)
    if line.file not in {"", main}:
        raise CannotEdit(f"it stands in {line.file}, line {line.line}: enter it there")
    node, whole = _standing(text, line, key) if stands else (None, None)
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
        _check_replaceable(text, whole, line.text, node)
        return None if before == after else _Planned(key, entry.said, before, after, node=whole)
    into, way = _place(project, text, key)
    return _Planned(key, entry.said, "", after, into=into, way=way)


def _standing(text: FileText, line: Line, key: str) -> tuple[yaml.Node, yaml.Node]:
    """The value of a key that the file has, and the same with its basis and note. Raises CannotEdit."""
    name, place = key.rpartition(".")[2], (line.line or 1, line.column or 1)
    node = text.at(*place, name, mapping=False)
    if node is not None:
        return node, text.long_form_of(node)
    whole = text.at(*place, name, mapping=True)
    for said, inner in pairs_of(whole) if whole is not None else ():
        if said == VALUE and whole is not None:
            return inner, whole
    raise CannotEdit("the file says it with more than one value: change it by hand")


def _check_replaceable(text: FileText, whole: yaml.Node, told: str, node: yaml.Node) -> None:
    """Refuse what a change would tear: values on several lines, short forms that say more than this key."""
    text.replaced(whole, "")
    written = str(node.value) if isinstance(node, yaml.ScalarNode) else ""
    if written and " ".join(written.split()) != " ".join(told.split()):
        raise CannotEdit(f"it comes from the short form '{written[:40]}': change that by hand")


def _place(project: Project, text: FileText, key: str) -> tuple[yaml.MappingNode, tuple[str, ...]]:
    """The innermost mapping of the file round a key that is not there, and the keys to write into it."""
    parts = key.split(".")
    for cut in range(len(parts) - 1, 0, -1):
        outer = ".".join(parts[:cut])
        line = project.where(outer)
        if line.key != outer or not line.line:
            continue
        node = text.at(line.line, line.column or 1, parts[cut - 1], mapping=True)
        if isinstance(node, yaml.MappingNode):
            return node, tuple(parts[cut:])
        if line.text:
            raise CannotEdit(f"the file says {outer}: {line.text}")
        raise CannotEdit(f"{outer} is a list in the file: enter it there")
    return text.root, tuple(parts)


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
        wrong = dict(_behind(faults, source.name, new, edits)) or dict(
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


def _behind(
    faults: Iterable[Fault], name: str, new: str, edits: list[tuple[Edit, tuple[str, ...]]]
) -> Iterator[tuple[str, Fault]]:
    """Changes that faults of the new text lie in."""
    starts = [0]
    for line in new.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    shift = 0
    spans: list[tuple[int, int, tuple[str, ...]]] = []
    for edit, keys in sorted(edits, key=lambda pair: (pair[0].start, pair[0].end)):
        spans.append((edit.start + shift, edit.start + shift + len(edit.text), keys))
        shift += len(edit.text) - (edit.end - edit.start)
    for fault in faults:
        if fault.file != name or not fault.line:
            continue
        at = starts[min(fault.line, len(starts)) - 1] + max(fault.column - 1, 0)
        for start, end, keys in spans:
            if start <= at <= end:
                yield from ((key, fault) for key in _meant(keys, fault, new[start:end], at - start))


def _meant(keys: tuple[str, ...], fault: Fault, inserted: str, at: int) -> list[str]:
    """Of several keys put in together those a fault is about: by the last key written before it."""
    if len(keys) == 1:
        return list(keys)
    before = inserted[: at + 1]
    placed = {key: before.rfind(f"{key.rpartition('.')[2]}:") for key in keys}
    nearest = max(placed.values())
    named = [key for key, place in placed.items() if place == nearest and place >= 0]
    return named or [key for key in keys if key.rpartition(".")[2] in fault.what] or list(keys)
