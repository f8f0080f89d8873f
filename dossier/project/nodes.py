"""The file as written: texts, lists and mappings, each with its place."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import TypeAlias, Union


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a file; line and column count from 1, in a table the column counts its columns."""

    file: str
    line: int = 0
    column: int = 0


@dataclass(slots=True)
class Text:
    """A scalar, as the user wrote it.

    ``layer`` tells which file or overlay it came with: 0 the project file, below 0 an included file, 1 an
    overlay. ``removes`` marks a ``none`` of an overlay that stands for something the base has.
    """

    text: str
    spot: Spot
    plain: bool = True
    layer: int = 0
    removes: bool = False


@dataclass(slots=True)
class List:
    """A list."""

    items: "list[Node]"
    spot: Spot
    layer: int = 0


@dataclass(slots=True)
class Map:
    """A mapping in the order of the file: by key, where the key stands, and the value."""

    pairs: "dict[str, Pair]"
    spot: Spot
    layer: int = 0
    expanded: bool = field(default=False)

    def get(self, key: str) -> "Node | None":
        """Value under a key, None where there is none."""
        pair = self.pairs.get(key)
        return pair.node if pair else None

    def put(self, key: str, held: "Node", spot: Spot | None = None) -> None:
        """Enter a value under a key."""
        self.pairs[key] = Pair(spot or held.spot, held)


@dataclass(slots=True)
class Pair:
    """Where a key stands, and its value."""

    spot: Spot
    node: "Node"


Node: TypeAlias = Union[Text, List, Map]  # noqa: UP007 - used before its parts are known, for Python 3.10


def in_layer(node: Node, layer: int) -> Node:
    """Copy of a node and all under it, marked as of a layer."""
    if isinstance(node, Text):
        return replace(node, layer=layer)
    if isinstance(node, List):
        return List([in_layer(item, layer) for item in node.items], node.spot, layer)
    pairs = {key: Pair(pair.spot, in_layer(pair.node, layer)) for key, pair in node.pairs.items()}
    return Map(pairs, node.spot, layer)


def words(node: Node | None) -> str:
    """Text of a node, shortened, for messages."""
    if node is None:
        return ""
    if isinstance(node, Text):
        return shortened(node.text)
    return "a list" if isinstance(node, List) else "a mapping"


def shortened(text: str, most: int = 60) -> str:
    """Text on one line, cut where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= most else f"{line[: most - 1]}…"


def texts(node: Node | None) -> Iterator[Text]:
    """All texts under a node."""
    if isinstance(node, Text):
        yield node
    elif isinstance(node, List):
        for item in node.items:
            yield from texts(item)
    elif isinstance(node, Map):
        for pair in node.pairs.values():
            yield from texts(pair.node)
