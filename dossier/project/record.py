"""What a reading leaves behind: faults, doubts, the line of every key, names given and names asked for."""

from dataclasses import dataclass, field

from dossier.notation import Basis, Fault, Line
from dossier.project.model.entry import Refers
from dossier.project.nodes import Node, Spot, Text, shortened

FILE, KEY, UNREADABLE, RANGE, REFERENCE, MISSING = range(6)
"""Ranks of faults: the lower, the earlier a person should mend it."""

MOST_FAULTS = 400


@dataclass(frozen=True, slots=True)
class Where:
    """Where a value stands: its key, the word for it in messages, and what it inherits."""

    key: str
    label: str
    basis: Basis | None = None
    layer: int = 0
    note: str = ""
    spread: Node | None = None
    segment: str = ""
    spot: Spot | None = None
    """Where the key itself stands, if it does."""

    def under(self, segment: str, label: str = "", spot: Spot | None = None) -> "Where":
        """Place of a key under this one."""
        key = f"{self.key}.{segment}" if self.key else segment
        return Where(key, label or segment, self.basis, self.layer, self.note, None, segment, spot)


@dataclass(frozen=True, slots=True)
class Reference:
    """A name asked for, and where."""

    refers: Refers
    name: str
    spot: Spot
    key: str
    label: str


@dataclass(frozen=True, slots=True)
class Given:
    """A name given: to what kind of component, and where."""

    kind: str
    spot: Spot


@dataclass
class Record:
    """Everything one section of the file left behind."""

    faults: list[Fault] = field(default_factory=list)
    doubts: list[Fault] = field(default_factory=list)
    lines: dict[str, Line] = field(default_factory=dict)
    numbers: list[Line] = field(default_factory=list)
    references: list[Reference] = field(default_factory=list)
    names: dict[str, dict[str, Given]] = field(default_factory=dict)
    unsure: set[str] = field(default_factory=set)
    """Lists of names that may be incomplete, since an entry's name could not be read."""
    seen: dict[str, dict[str, str]] = field(default_factory=dict)
    """Names that must differ from each other though they stand in several lists, as results write them."""

    def fault(self, spot: Spot, rank: int, what: str, instead: str = "") -> None:
        """Note something wrong."""
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(Fault(what, instead, spot.file, spot.line, spot.column, rank))

    def doubt(self, spot: Spot, what: str, instead: str = "") -> None:
        """Note something odd."""
        if len(self.doubts) < MOST_FAULTS:
            self.doubts.append(Fault(what, instead, spot.file, spot.line, spot.column, RANGE))

    def line(self, where: Where, node: Node, basis: Basis, spread: tuple[float, float] | None = None) -> Line:
        """Enter the line of a key."""
        text = shortened(node.text, 200) if isinstance(node, Text) else ""
        spot = node.spot if isinstance(node, Text) else where.spot or node.spot
        line = Line(where.key, text, basis, spot.file, spot.line, spot.column, spread, where.note)
        self.lines[where.key] = line
        return line

    def name(self, of: str, name: str, kind: str, spot: Spot) -> None:
        """Enter a name given."""
        self.names.setdefault(of, {}).setdefault(name, Given(kind, spot))

    def ask(self, refers: Refers, node: Text, where: Where) -> None:
        """Enter a name asked for."""
        self.references.append(Reference(refers, node.text, node.spot, where.key, where.label))
