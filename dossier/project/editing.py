"""Changes the text of a project file and nothing else in it: comments, layout and line ends stay.

A change replaces one value where it stands, or puts new keys behind the last of a mapping. Libraries that
write a whole file anew fold and spread lines nobody touched (see docs/decisions).
"""

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import yaml

from dossier.notation import DossierError
from dossier.project.source_file import UNWANTED

New: TypeAlias = "str | Mapping[str, New]"
"""A value as it is written, or a mapping of such."""

PLAIN = re.compile(r"[A-Za-z0-9½¼¾⅓⅔⅛⅜⅝⅞.+−_/(-][^,:#\[\]{}\"'\\|>&*!%@`\x00-\x1f]*(?: ?%)?")
"""Texts that mean themselves in braces as well as outside."""
INDENT = "  "


class CannotEdit(DossierError):
    """A change that the file's text has no place for; the message says why."""


@dataclass(frozen=True)
class Edit:
    """Characters ``start`` to ``end`` of the text give way to ``text``."""

    start: int
    end: int
    text: str


@dataclass
class _Tree:
    """Where keys and values of a file stand."""

    values: dict[tuple[int, int], list[yaml.Node]] = field(default_factory=dict)
    by_key: dict[tuple[int, int], tuple[str, yaml.Node]] = field(default_factory=dict)

    def gather(self, node: yaml.Node) -> None:
        mark = node.start_mark
        self.values.setdefault((mark.line + 1, mark.column + 1), []).append(node)
        if isinstance(node, yaml.MappingNode):
            for key, held in node.value:
                place = key.start_mark
                self.by_key.setdefault((place.line + 1, place.column + 1), (str(key.value), held))
                self.gather(held)
        elif isinstance(node, yaml.SequenceNode):
            for inner in node.value:
                self.gather(inner)


class FileText:
    """The text of a file with its places; ``load`` must have taken it before."""

    def __init__(self, content: bytes) -> None:
        self.text = content.decode("utf-8")
        self.newline = "\r\n" if "\r\n" in self.text else "\n"
        root = yaml.compose(self.text, yaml.SafeLoader)
        if not isinstance(root, yaml.MappingNode):
            raise CannotEdit("the file is no mapping of keys")
        self.root = root
        self.tree = _Tree()
        self.tree.gather(root)

    def at(self, line: int, column: int, name: str, *, mapping: bool) -> yaml.Node | None:
        """Value that stands at a place, or behind the key of a name that does."""
        key, behind = self.tree.by_key.get((line, column), ("", None))
        found = self.tree.values.get((line, column), [])
        ordered = [behind, *found] if key == name else [*found, behind]
        fitting = [node for node in ordered if node is not None and _is_mapping(node) == mapping]
        return fitting[0] if fitting else None

    def behind(self, line: int, column: int, name: str) -> yaml.Node | None:
        """Value of the key of a name that stands at a place."""
        key, behind = self.tree.by_key.get((line, column), ("", None))
        return behind if key == name else None

    def written(self, node: yaml.Node) -> str:
        """A value as it stands in the file."""
        return self.text[node.start_mark.index : node.end_mark.index].strip()

    def long_form_of(self, node: yaml.Node) -> yaml.Node:
        """The long form ``{is: …}`` round a value, or the value itself."""
        for nodes in self.tree.values.values():
            for outer in nodes:
                if isinstance(outer, yaml.MappingNode) and any(
                    key.value == "is" and held is node for key, held in outer.value
                ):
                    return outer
        return node

    def replaced(self, node: yaml.Node, new: str) -> Edit:
        """The change of one value. Raises CannotEdit for one that is spread over lines of its own."""
        in_block = isinstance(node, yaml.CollectionNode) and not node.flow_style
        if in_block or (isinstance(node, yaml.ScalarNode) and node.style in {"|", ">"}):
            raise CannotEdit("its value is spread over several lines: change it by hand")
        return Edit(node.start_mark.index, node.end_mark.index, new)

    def added(self, mapping: yaml.MappingNode, keys: Mapping[str, New]) -> Edit:
        """New keys behind the last of a mapping, in its own layout."""
        if mapping is self.root:
            return self._at_the_end(keys)
        last = _last(mapping)
        if mapping.flow_style:
            inner = ", ".join(f"{quoted(key)}: {in_braces(held)}" for key, held in keys.items())
            if last is None:
                return Edit(mapping.end_mark.index - 1, mapping.end_mark.index - 1, inner)
            return Edit(last, last, f", {inner}")
        column = mapping.value[0][0].start_mark.column
        end = self._end_of_line(last or mapping.start_mark.index)
        lines = (f"{' ' * column}{quoted(key)}: {in_braces(held)}" for key, held in keys.items())
        return Edit(end, end, "".join(f"{self.newline}{line}" for line in lines))

    def appended(self, listed: yaml.SequenceNode, entry: str) -> Edit:
        """A new entry behind the last of a list, in its own layout."""
        last = _last(listed)
        if last is None:
            raise CannotEdit("the list is empty")
        if listed.flow_style:
            return Edit(last, last, f", {entry}")
        end = self._end_of_line(last)
        return Edit(end, end, f"{self.newline}{' ' * listed.start_mark.column}- {entry}")

    def _at_the_end(self, keys: Mapping[str, New]) -> Edit:
        """New sections at the end of the file, a key to a line."""
        gap = "" if self.text.endswith("\n") else self.newline
        lines: list[str] = []
        for key, held in keys.items():
            lines.append("")
            if isinstance(held, str):
                lines[-1] = f"{quoted(key)}: {held}"
                continue
            lines.append(f"{quoted(key)}:")
            lines += [f"{INDENT}{quoted(inner)}: {in_braces(each)}" for inner, each in held.items()]
        end = len(self.text)
        return Edit(end, end, gap + "".join(f"{line}{self.newline}" for line in lines))

    def _end_of_line(self, index: int) -> int:
        """Where the line of a character ends, its comment included."""
        end = self.text.find("\n", index)
        end = len(self.text) if end < 0 else end
        return end - 1 if end > index and self.text[end - 1] == "\r" else end

    def with_edits(self, edits: Iterable[Edit]) -> str:
        """The text with all changes; they may not overlap."""
        text, before = self.text, len(self.text)
        for edit in sorted(edits, key=lambda edit: (edit.start, edit.end), reverse=True):
            if edit.end > before:
                raise CannotEdit("two changes meet at one place")
            text, before = text[: edit.start] + edit.text + text[edit.end :], edit.start
        return text


def _is_mapping(node: yaml.Node) -> bool:
    return isinstance(node, yaml.MappingNode)


def _last(node: yaml.Node) -> int | None:
    """Index behind the last character of the last value in a node, None where it holds none."""
    if isinstance(node, yaml.CollectionNode):
        if node.flow_style and not node.value:
            return None
        inner = [part for pair in node.value for part in (pair if isinstance(pair, tuple) else (pair,))]
        if not inner:
            return None
        ends = [_end(part) for part in inner]
        return max(ends)
    return int(node.end_mark.index)


def _end(node: yaml.Node) -> int:
    """Index behind the last character of a node."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style:
        return _last(node) or int(node.start_mark.index)
    if isinstance(node, yaml.ScalarNode) and node.style in {"|", ">"}:
        held = (
            node.end_mark.buffer[node.start_mark.index : node.end_mark.index] if node.end_mark.buffer else ""
        )
        return int(node.start_mark.index) + len(held.rstrip()) if held else int(node.end_mark.index) - 1
    return int(node.end_mark.index)


def quoted(text: str) -> str:
    """A text as it may stand anywhere in a file; raises CannotEdit for signs that have no place in one.

    >>> quoted("38 mm"), quoted("fuel 80 %, water 60 %")
    ('38 mm', '"fuel 80 %, water 60 %"')
    """
    if UNWANTED.search(text):
        raise CannotEdit("it holds a control or an invisible mark")
    line = " ".join(text.split())
    return line if PLAIN.fullmatch(line) else json.dumps(line, ensure_ascii=False)


def in_braces(held: New) -> str:
    """A value on one line; texts are written already."""
    if isinstance(held, str):
        return held
    return "{" + ", ".join(f"{quoted(key)}: {in_braces(inner)}" for key, inner in held.items()) + "}"


def pairs_of(node: Any) -> Iterator[tuple[str, yaml.Node]]:
    """Keys and values of a mapping."""
    for key, held in node.value:
        yield str(key.value), held
