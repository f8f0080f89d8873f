"""Walks the nodes along the model: what kind of value stands here, and who reads it.

Every key is accounted for: read, refused with the nearest known key, or refused with what it should be.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from dossier.notation import Basis, ProjectFaults
from dossier.project import scalars
from dossier.project.entries import read_entry
from dossier.project.fields import Items, Kind, Many, Named, Num, One, Pair, Plain, Plan, Row, Words
from dossier.project.lists import read_list, read_named, read_row
from dossier.project.model.circuit import Pipe
from dossier.project.model.conditions import Weather
from dossier.project.model.entry import NONE, Mark
from dossier.project.model.envelope import Glazing
from dossier.project.nearest import listed, nearest
from dossier.project.nodes import List, Map, Node, Spot, Text, shortened, words
from dossier.project.places import Marks
from dossier.project.record import FILE, KEY, MOST_FAULTS, REFERENCE, UNREADABLE, Record, Where
from dossier.project.ring import read_items, read_link_pipe
from dossier.project.short_forms.glazings import glazing_of
from dossier.project.source_file import LARGEST_PICTURE, Folder
from dossier.project.weather import read_weather

GLAZING = One(Glazing)
LONG_FORM = frozenset({"is", "basis", "note", "spread"})


@dataclass
class Reader:
    """Reads one section of a file; what it finds out lands in ``record``."""

    folder: Folder
    defaults: Mapping[int, Basis]
    marks: Marks = field(default_factory=dict)
    record: Record = field(default_factory=Record)

    def basis(self, node: Node, where: Where) -> Basis:
        """Basis of a value: stated round it, else its file's default, else assumed."""
        if where.basis is not None and node.layer <= where.layer:
            return where.basis
        return self.defaults.get(node.layer, self.defaults.get(min(node.layer, 0), Basis.ASSUMED))

    def unknown(self, key: str, spot: Spot, known: Mapping[str, Any] | frozenset[str]) -> str:
        """Refuse a key; gives the known key that may be meant."""
        near = nearest(key, known) if len(self.record.faults) < MOST_FAULTS else ""
        instead = f"write {near}" if near else f"known here: {listed(known, 12)}"
        self.record.fault(spot, KEY, f"unknown key '{shortened(key)}'", instead)
        return near

    def read(self, plan: Plan, node: Node, where: Where) -> Any:
        """Value of a node, None where it cannot be read (a fault then says why) or an overlay took it out."""
        if isinstance(node, Map) and "is" in node.pairs:
            node, where = self.long_form(node, where)
        self.record.line(where, node, self.basis(node, where))
        if isinstance(node, Text):
            if plan.answers_none and node.text.strip().casefold() == "none":
                return NONE
            if node.removes:
                return None
            if node.plain and node.text in {"", "~", "null"}:
                instead = "write one, or take the line out if it is unknown"
                self.record.fault(node.spot, UNREADABLE, f"{where.label} has no value", instead)
                return None
            if GLAZING in plan.kinds:
                node = glazing_of(node) or node
        if where.spread is not None and not any(isinstance(kind, Num) for kind in plan.kinds):
            what = f"{where.label} is no figure and has no spread"
            self.record.fault(where.spread.spot, UNREADABLE, what, "take the spread out")
        kind = self.choose(plan, node, where)
        return None if kind is None else self.read_as(kind, plan, node, where)

    def long_form(self, node: Map, where: Where) -> tuple[Node, Where]:
        """Value, basis, note and spread of ``{is: 2.4 m, basis: measured, note: …, spread: 5 %}``."""
        for key, pair in node.pairs.items():
            if key not in LONG_FORM:
                self.unknown(key, pair.spot, LONG_FORM)
        where = self.stated(node, where)
        note, text = node.get("note"), where.note
        if isinstance(note, Text):
            text = " ".join(note.text.split())
        elif note is not None:
            self.record.fault(
                note.spot, UNREADABLE, f"note is a text, found {words(note)}", "write it in quotes"
            )
        return node.pairs["is"].node, replace(where, note=text, spread=node.get("spread"))

    def stated(self, node: Map, where: Where) -> Where:
        """Place with the basis a mapping states for all its values."""
        stated = node.get("basis")
        if stated is None:
            return where
        basis = scalars.read_basis(self.record, stated, where.under("basis"))
        return replace(where, basis=basis, layer=stated.layer) if basis else where

    def choose(self, plan: Plan, node: Node, where: Where) -> Kind | None:
        """The kind a node is, of those its plan allows."""
        if isinstance(node, Text):
            return self.choose_scalar(plan, node, where)
        fitting = (Many, Row, Items) if isinstance(node, List) else (One, Named, Row)
        for kind in plan.kinds:
            if isinstance(kind, fitting):
                return kind
        if (
            isinstance(node, Map)
            and "from" in node.pairs
            and (Mark.TABLE in plan.marks or Plain(Weather) in plan.kinds)
        ):
            return plan.kinds[0]
        self.misshapen(plan, node, where)
        return None

    def choose_scalar(self, plan: Plan, node: Text, where: Where) -> Kind | None:
        """The kind a text is."""
        scalar = [kind for kind in plan.kinds if isinstance(kind, Num | Pair | Words | Plain)]
        said = node.text.strip().casefold()
        for kind in plan.kinds:
            if isinstance(kind, Row) or (isinstance(kind, Many | Items | Named) and said == "none"):
                return kind
        if len(scalar) == 1:
            return scalar[0]
        for kind in scalar:
            if isinstance(kind, Words) and said in {word.casefold() for word in kind.choices}:
                return kind
            if isinstance(kind, Num) and scalars.looks_numeric(node.text):
                return kind
        if scalar:
            ways = " or ".join(scalars.expected(kind) for kind in scalar)
            what = f"{where.label} is {ways}, found '{shortened(node.text)}'"
            self.record.fault(node.spot, UNREADABLE, what, "write one of these")
        else:
            self.misshapen(plan, node, where)
        return None

    def misshapen(self, plan: Plan, node: Node, where: Where) -> None:
        """Say what shape is asked for."""
        label, kind = where.label, plan.kinds[0] if plan.kinds else None
        found = f"'{words(node)}'" if isinstance(node, Text) else words(node)
        if isinstance(kind, One):
            what, write = "a mapping", kind.cls.example or "{key: value}"
        elif isinstance(kind, Many | Items):
            item = kind.item.kinds[0] if isinstance(kind, Many) else None
            inside = (item.cls.example if isinstance(item, One) else "") or (
                words(node) if isinstance(node, Text) else "…"
            )
            what, write = "a list", f"[{inside}]"
        elif isinstance(kind, Named):
            what, write = "a mapping", "{name: value}"
        elif kind is None:
            what, write = "left out or none", "none"
        else:
            what, write = scalars.expected(kind), "one value"
        if plan.answers_none and kind is not None:
            what += ", or none"
        self.record.fault(
            node.spot, UNREADABLE, f"{label} is {what}, found {found}", f"write {label}: {write}"
        )

    def read_as(self, kind: Kind, plan: Plan, node: Node, where: Where) -> Any:
        """Value of a node as one kind."""
        read: Any
        if isinstance(kind, Many):
            read = read_list(self, kind, node, where)
        elif isinstance(kind, Row):
            read = read_row(self, kind, node, where)
        elif isinstance(kind, Items):
            read = read_items(self, node, where)
        elif isinstance(kind, Named):
            read = read_named(self, kind, plan, node, where)
        elif kind == Plain(Weather):
            read = read_weather(self, node, where)
        elif isinstance(kind, One) and isinstance(node, Map):
            pipe = kind.cls is Pipe
            read = read_link_pipe(self, node, where) if pipe else read_entry(self, kind.cls, node, where)
        else:
            read = self.read_scalar(kind, plan, node, where) if isinstance(node, Text) else None
        return read

    def read_scalar(self, kind: Kind, plan: Plan, node: Text, where: Where) -> Any:
        """Value of a text as one kind."""
        if isinstance(kind, Num):
            return scalars.read_number(self.record, kind, node, where, self.basis(node, where))
        if isinstance(kind, Pair):
            return scalars.read_pair(self.record, kind, node, where, self.basis(node, where))
        if isinstance(kind, Words):
            entry = next((other.cls.example for other in plan.kinds if isinstance(other, One)), "")
            return scalars.read_words(self.record, kind, node, where, entry)
        if Mark.FILE in plan.marks:
            return self.picture(node, where)
        return (
            scalars.read_plain(self.record, kind, node, where, plan.refers)
            if isinstance(kind, Plain)
            else None
        )

    def picture(self, node: Text, where: Where) -> str | None:
        """Name of a file in the project's folder, entered among the sources by its checksum."""
        path = self.folder.path_of(node.text)
        if isinstance(path, str):
            self.record.fault(
                node.spot, REFERENCE, f"'{shortened(node.text)}': {path}", "check the name of the file"
            )
            return None
        try:
            return self.folder.read(node.text, LARGEST_PICTURE, keep=False).name
        except ProjectFaults as error:
            self.record.fault(
                node.spot, FILE, f"{where.label}: {error.faults[0].what}", error.faults[0].instead
            )
            return None
