"""YAML to nodes, from parser events: nothing is constructed, limits come first, every text keeps its place.

YAML 1.1 would read ``off`` as false and ``12:30`` as 750. Here a scalar is its text and no more; what it
means is the business of the field it stands in.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from dossier.notation import Fault, ProjectFaults
from dossier.project.broken_syntax import DEEPEST, broken
from dossier.project.fault_places import called_in_list, under
from dossier.project.nodes import List, Map, Node, Pair, Spot, Text, shortened
from dossier.project.source_file import UNWANTED, refusal

MOST_NODES = 60_000
MOST_ALIASES = 100
SAFE_TAGS = frozenset(
    {
        "!",
        *(
            f"tag:yaml.org,2002:{kind}"
            for kind in ("str", "int", "float", "bool", "null", "map", "seq", "timestamp")
        ),
    }
)
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not come yet."""

    node: List | Map
    anchor: str | None
    key: Text | None = None
    size: int = 1
    height: int = 1


@dataclass(slots=True)
class _Builder:
    """Builds nodes from events and collects what is wrong with them."""

    name: str
    faults: list[Fault] = field(default_factory=list)
    stack: list[_Open] = field(default_factory=list)
    anchors: dict[str, tuple[Node, int, int]] = field(default_factory=dict)
    root: Node | None = None
    count: int = 0
    aliases: int = 0

    def spot(self, event: Any) -> Spot:
        return Spot(self.name, event.start_mark.line + 1, event.start_mark.column + 1)

    def fault(self, spot: Spot, what: str, instead: str, rank: int = 2, of: str = "") -> None:
        self.faults.append(Fault(what, instead, spot.file, spot.line, spot.column, rank, of))

    def of(self) -> str:
        """Name of the entry that is being read."""
        name = ""
        for place, opened in enumerate(self.stack):
            last = place == len(self.stack) - 1
            inside = "" if last or opened.key is None else opened.key.text
            in_list = place > 0 and isinstance(self.stack[place - 1].node, List)
            name = under(under(name, called_in_list(opened.node) if in_list else ""), inside)
        return name

    def stop(self, spot: Spot, what: str, instead: str) -> ProjectFaults:
        return refusal(self.name, what, instead, spot.line, spot.column)

    def grow(self, size: int, height: int, spot: Spot) -> None:
        """Count what an event or alias adds, and stop where it is more than a project ever holds."""
        self.count += size
        if self.count > MOST_NODES:
            raise self.stop(
                spot, f"the file holds more than {MOST_NODES} values", "split it, or move lists to CSV"
            )
        if len(self.stack) + height > DEEPEST:
            raise self.stop(spot, f"the file is nested more than {DEEPEST} deep", "no project needs that")

    def add(self, node: Node, spot: Spot, size: int, height: int) -> None:
        """Put a finished node where it belongs."""
        if not self.stack:
            self.root = node
            return
        top = self.stack[-1]
        top.size += size
        top.height = max(top.height, height + 1)
        if isinstance(top.node, List):
            top.node.items.append(node)
        elif top.key is None:
            if isinstance(node, Text):
                top.key = node
            else:
                self.fault(spot, "a list or mapping stands where a key belongs", "write key: value", 1)
                top.key = Text("", spot, removes=True)
        else:
            self.enter(top.node, top.key, node)
            top.key = None

    def enter(self, target: Map, key: Text, held: Node) -> None:
        """Enter a pair, refusing doubled keys and merge keys; keys are told apart by their words alone."""
        word = " ".join(key.text.split())
        if word == "<<" and key.plain:
            self.fault(key.spot, "merge keys (<<) are not read", "write the keys out", 1)
        elif word in target.pairs:
            first = target.pairs[word].spot.line
            what = f"{shortened(word)} stands twice, first in line {first}"
            self.fault(key.spot, what, self.keep_one(target, word), 1, self.of())
        elif word:
            target.pairs[word] = Pair(key.spot, held)
        elif not key.removes:
            self.fault(key.spot, "a value has no key", "write key: value", 1)

    def keep_one(self, target: Map, word: str) -> str:
        """What to do about a doubled key: in a list it may begin the next item, its dash missing."""
        listed = len(self.stack) > 1 and isinstance(self.stack[-2].node, List)
        begins = listed and word == next(iter(target.pairs), "")
        return (
            "begin the next item of the list with - , or keep one of them" if begins else "keep one of them"
        )

    def tagged(self, event: Any) -> None:
        """Refuse tags that ask for more than text, lists and mappings."""
        if event.tag is not None and event.tag not in SAFE_TAGS:
            self.fault(self.spot(event), f"the tag {shortened(event.tag)} is not read", "take it out", 1)

    def anchored(self, anchor: str | None, node: Node, size: int, height: int) -> None:
        if anchor is not None:
            self.anchors[anchor] = (node, size, height)

    def scalar(self, event: Any) -> None:
        spot = self.spot(event)
        self.tagged(event)
        found = UNWANTED.search(event.value)
        if found:
            self.fault(spot, f"the character U+{ord(found[0]):04X} has no place in a text", "take it out")
        self.grow(1, 0, spot)
        node = Text(event.value, spot, not event.style)
        self.anchored(event.anchor, node, 1, 0)
        self.add(node, spot, 1, 0)

    def alias(self, event: Any) -> None:
        spot = self.spot(event)
        self.aliases += 1
        if self.aliases > MOST_ALIASES:
            raise self.stop(spot, f"the file holds more than {MOST_ALIASES} aliases", "write the values out")
        if event.anchor not in self.anchors:
            raise self.stop(
                spot, f"*{shortened(event.anchor)} points at nothing before it", "write the value out"
            )
        node, size, height = self.anchors[event.anchor]
        self.grow(size, height, spot)
        self.add(node, spot, size, height)

    def begin(self, event: Any, node: List | Map) -> None:
        spot = self.spot(event)
        self.tagged(event)
        self.grow(1, 1, spot)
        self.stack.append(_Open(node, event.anchor))

    def end(self) -> None:
        done = self.stack.pop()
        self.anchored(done.anchor, done.node, done.size, done.height)
        self.add(done.node, done.node.spot, done.size, done.height)


def _events(text: str, name: str) -> Iterator[Any]:
    try:
        yield from yaml.parse(text, Loader=LOADER)
    except yaml.YAMLError as error:
        raise refusal(name, *broken(error, text)) from None
    except (RecursionError, ValueError, OverflowError):
        raise refusal(name, "the file cannot be read", "compare with an example") from None


def compose(text: str, name: str) -> tuple[Node | None, list[Fault]]:
    """Node of a clean text (None if it is empty), and what is wrong with its keys and tags.

    Raises ProjectFaults where the text cannot be read any further or passes a limit.
    """
    build = _Builder(name)
    documents = 0
    for event in _events(text, name):
        kind = type(event).__name__
        if kind == "ScalarEvent":
            build.scalar(event)
        elif kind == "MappingStartEvent":
            build.begin(event, Map({}, build.spot(event)))
        elif kind == "SequenceStartEvent":
            build.begin(event, List([], build.spot(event)))
        elif kind in {"MappingEndEvent", "SequenceEndEvent"}:
            build.end()
        elif kind == "AliasEvent":
            build.alias(event)
        elif kind == "DocumentStartEvent":
            documents += 1
            if documents > 1:
                raise build.stop(
                    build.spot(event), "the file holds a second document", "keep one file for one project"
                )
    return build.root, build.faults
