"""A boat's file changed key by key: what a change leaves alone is read once.

``WrittenBoat(text).project({"vessel.hull": "wood", "zones.0.floats": None})`` is the project of the file
with dotted keys set, or left out where they are set to None; a number in the way counts in a list. Sections
that change go through the reader, as those of an alternative do; places are those of the file as it was.
``in_full`` writes a mapping out as a file and reads it, for whoever asks about places.
"""

import hashlib
from collections.abc import Mapping
from copy import copy
from functools import cached_property
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import yaml

from dossier.notation import ProjectFaults
from dossier.project import Project, load
from dossier.project.alternatives import default_basis
from dossier.project.load import _project
from dossier.project.nodes import List, Map, Node, Spot, Text
from dossier.project.sections import Reading, read_sections
from dossier.project.source_file import Folder, SourceFile
from dossier.project.syntax import compose

NAME = "boat.yaml"
OF_THE_WHOLE = {"format", "include", "defaults", "alternatives"}
"""Keys that say something of all sections."""


def in_full(text: str) -> Project:
    """Project of a file with this text."""
    with TemporaryDirectory() as folder:
        file = Path(folder) / NAME
        file.write_text(text, encoding="utf-8")
        return load(file)


def as_text(whole: Any) -> str:
    """Text of a file that holds a mapping."""
    return yaml.dump(whole, Dumper=yaml.CSafeDumper, allow_unicode=True, sort_keys=False)


def _said(held: Any) -> str:
    """A scalar as it is written in a file."""
    if held is None or isinstance(held, bool):
        return {None: "null", True: "true", False: "false"}[held]
    return str(held)


def _as_node(held: Any, spot: Spot) -> Node:
    if isinstance(held, Mapping):
        node = Map({}, spot)
        for key, item in held.items():
            node.put(str(key), _as_node(item, spot))
        return node
    if isinstance(held, list | tuple):
        return List([_as_node(item, spot) for item in held], spot)
    return Text(_said(held), spot, plain=held is None)


def _put(node: Node, way: list[str], held: Any) -> Node:
    """Copy of a node with the value at the end of the way set; the nodes beside the way are shared."""
    first, *rest = way
    changed = copy(node)
    if isinstance(changed, List):
        changed.items = list(changed.items)
        place = int(first)
        changed.items[place] = (
            _put(changed.items[place], rest, held) if rest else _as_node(held, changed.items[place].spot)
        )
        return changed
    if not isinstance(changed, Map):
        raise TypeError(f"{first} cannot stand under a text")
    changed.pairs = dict(changed.pairs)
    before = changed.pairs.get(first)
    if rest:
        changed.put(first, _put(before.node if before else Map({}, changed.spot), rest, held))
    elif held is None:
        changed.pairs.pop(first, None)
    else:
        changed.put(first, _as_node(held, before.node.spot if before else changed.spot))
    return changed


class WrittenBoat:
    """One project file, read once."""

    def __init__(self, text: str) -> None:
        self.text = text

    @cached_property
    def _root(self) -> Map:
        root, faults = compose(self.text, NAME)
        assert not faults
        assert isinstance(root, Map)
        assert not root.pairs.keys() & {"include", "alternatives"}, "those are read from a whole file alone"
        return root

    @cached_property
    def _reading(self) -> Reading:
        return read_sections(self._root, self._folder(), self._defaults)

    @property
    def _defaults(self) -> dict[int, Any]:
        stated = default_basis(self._root)
        return {0: stated} if stated else {}

    def _folder(self) -> Folder:
        content = self.text.encode()
        return Folder(
            Path("no such folder"), [SourceFile(NAME, content, hashlib.sha256(content).hexdigest())]
        )

    def mapping(self, changes: Mapping[str, Any]) -> Any:
        """What the file would hold, as mappings, lists and texts."""
        return _as_mapping(self._changed(changes))

    def _changed(self, changes: Mapping[str, Any]) -> Map:
        root: Node = self._root
        for path, held in changes.items():
            root = _put(root, path.split("."), held)
        assert isinstance(root, Map)
        return root

    def project(self, changes: Mapping[str, Any] | None = None) -> Project:
        """The project with keys changed. Raises ``ProjectFaults`` as reading the file does."""
        changes = changes or {}
        if OF_THE_WHOLE & {path.split(".")[0] for path in changes}:
            return in_full(as_text(self.mapping(changes)))
        folder = self._folder()
        root = self._changed(changes)
        reading = read_sections(root, folder, self._defaults, (self._root, self._reading))
        if reading.faults:
            raise ProjectFaults(reading.faults)
        return _project(reading, folder, root)


def _as_mapping(node: Node) -> Any:
    if isinstance(node, Map):
        return {key: _as_mapping(pair.node) for key, pair in node.pairs.items()}
    return [_as_mapping(item) for item in node.items] if isinstance(node, List) else node.text
