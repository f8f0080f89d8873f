"""The JSON Schema of the project file, made from the model, so that an editor knows what the reader knows.

It takes whatever the reader takes, short forms too, and is no more than a help while writing: names that lead
nowhere, figures in the wrong unit and keys that contradict each other are the reader's to find.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from dossier.notation import Basis
from dossier.project.describe import example_keys, example_of, plain, range_of, unit_of
from dossier.project.fields import (
    Items,
    Key,
    Kind,
    Many,
    Named,
    Num,
    One,
    Pair,
    Plain,
    Plan,
    Row,
    Words,
    keys_of,
)
from dossier.project.known import checks, materials, pipe_sizes, typical_parts
from dossier.project.model.build_up import Frames
from dossier.project.model.circuit import Group, Pipe, Unit
from dossier.project.model.components import Component
from dossier.project.model.conditions import Weather
from dossier.project.model.entry import COUNT, NUMBER, Entry, Mark
from dossier.project.model.envelope import Glazing
from dossier.project.model.file import ProjectFile
from dossier.project.model.papers import Alternative
from dossier.project.model.values import Date, Point, Size

Schema = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
ANY_SCALAR = ["string", "number", "boolean"]
"""A text, as editors read it: they take 112 for a number and yes for a Boolean, our reader never does."""
NONE = {"const": "none"}
BASIS = {"enum": [str(basis) for basis in Basis], "description": "What the value rests on"}
BASES = {"$ref": "#/$defs/basis"}
STATED = {"$ref": "#/$defs/stated"}
DATE = {"type": "string", "pattern": r"^[0-9]{4}-[0-9]{2}(-[0-9]{2})?$", "examples": ["2026-11-20"]}
YES_OR_NO = {"anyOf": [{"type": "boolean"}, {"enum": ["yes", "no", "true", "false"]}]}
TABLE = {
    "type": "object",
    "properties": {"from": {"type": "string", "description": "A CSV file in the project's folder"}},
    "required": ["from"],
}
GLAZING_IN_WORDS = {"type": "string", "examples": ["single 8 mm", "double acrylic 6 mm"]}
FRAMES_IN_WORDS = {"type": "string", "pattern": "^every ", "examples": ["every 500 mm"]}
SHORT_ITEM = {"type": "string", "examples": ["P1", "hose 22, 1.6 m, 2 bends", "M1 to M2"]}
LONG_FORM = {
    "type": "object",
    "description": "A value with its basis, a note, its spread",
    "properties": {
        "is": True,
        "basis": BASES,
        "note": {"type": ANY_SCALAR},
        "spread": {"type": ANY_SCALAR, "examples": ["5 %"]},
    },
    "required": ["is"],
    "additionalProperties": False,
}
FORMS: dict[type, Schema] = {bool: YES_OR_NO, Date: DATE, Basis: BASES, Weather: TABLE}
LIBRARIES: dict[str, Callable[[], Iterable[str]]] = {
    "material": materials,
    "pipe_size": pipe_sizes,
    "check": checks,
}


def schema() -> Schema:
    """The whole schema; the same for the same version of the program."""
    made = _Maker()
    whole = made.entry(ProjectFile)
    return {
        "$schema": DIALECT,
        "title": "Project file of a boat's heating",
        **whole,
        "required": ["format"],
        "$defs": {"basis": BASIS, "stated": LONG_FORM, **dict(sorted(made.found.items()))},
    }


class _Maker:
    """Makes the schema of each class once, and refers to it."""

    def __init__(self) -> None:
        self.found: dict[str, Schema] = {}

    def reference(self, cls: type[Entry]) -> Schema:
        """Reference to the schema of an entry."""
        if cls.__name__ not in self.found:
            self.found[cls.__name__] = {}
            self.found[cls.__name__] = self.component() if cls is Component else self.entry(cls)
        return {"$ref": f"#/$defs/{cls.__name__}"}

    def entry(self, cls: type[Entry]) -> Schema:
        """An entry: its keys, nothing else; ``basis`` may stand in any."""
        keys = keys_of(cls)
        required = [name for name, key in keys.items() if key.required and not issubclass(cls, Component)]
        properties = {name: self.key(cls, name, key) for name, key in keys.items()}
        return {
            "type": "object",
            "description": (cls.__doc__ or "").split("\n")[0],
            "properties": {"basis": BASES, **properties},
            "additionalProperties": False,
            **({"required": required} if required else {}),
            **({"examples": [plain(cls.example)]} if cls.example else {}),
        }

    def component(self) -> Schema:
        """A component: one class for each kind, or a typical part."""
        kinds = []
        for kind, cls in Component.kinds.items():
            made = self.entry(cls)
            made["properties"]["kind"] = {"const": kind}
            made["required"] = ["kind"]
            self.found[f"component {kind}"] = made
            kinds.append({"$ref": f"#/$defs/component {kind}"})
        typical = {
            "type": "object",
            "description": "A row of the table of typical parts, assumed until its plate is read",
            "properties": {"typical": {"enum": sorted(typical_parts())}},
            "required": ["typical"],
        }
        return {"anyOf": [*kinds, typical]}

    def key(self, cls: type[Entry], name: str, key: Key) -> Schema:
        """One key with its description."""
        said = cls.model_fields[key.attribute].description or ""
        made = self.plan(key.plan)
        if cls is ProjectFile and name == "format":
            made = {"anyOf": [{"const": 1}, {"const": "1"}]}
        example = example_keys(cls).get(name)
        shown = {"examples": [example]} if isinstance(example, str) else {}
        return {**({"description": said} if said else {}), **made, **shown}

    def plan(self, plan: Plan) -> Schema:
        """Any of the kinds a value may be; short and long form, and ``none`` where it is an answer."""
        ways = [way for kind in plan.kinds for way in self.ways(kind, plan)]
        if plan.answers_none:
            ways.append(NONE)
        if Mark.TABLE in plan.marks:
            ways.append(TABLE)
        if any("$ref" not in way and way is not TABLE for way in ways):
            ways.append(STATED)
        return ways[0] if len(ways) == 1 else {"anyOf": ways}

    def ways(self, kind: Kind, plan: Plan) -> list[Schema]:
        """How a value of a kind may be written."""
        if isinstance(kind, One):
            also = {Glazing: [GLAZING_IN_WORDS], Frames: [FRAMES_IN_WORDS]}.get(kind.cls, [])
            return [self.reference(kind.cls), *also]
        if isinstance(kind, Many):
            items = self.plan(kind.item)
            plain = [way for way in items.get("anyOf", ()) if way is not STATED]
            return [{"type": "array", "items": plain[0] if len(plain) == 1 else items}]
        if isinstance(kind, Items):
            return [self.items()]
        if isinstance(kind, Named):
            return [self.named(kind)]
        if isinstance(kind, Row):
            return self.row(kind)
        return [_scalar(kind, plan)]

    def items(self) -> Schema:
        """A list of the circuit."""
        inner: list[Schema] = [SHORT_ITEM, self.reference(Unit), self.reference(Group)]
        pipe = self.reference(Pipe)
        inner.append({"type": "object", "properties": {"pipe": pipe, "basis": BASES}, "required": ["pipe"]})
        return {"type": "array", "items": {"anyOf": inner}}

    def named(self, kind: Named) -> Schema:
        """A mapping of names."""
        made: Schema = {"type": "object"}
        if kind.held.kinds == (One(Alternative),):
            note = {"description": "What it is, in words", "type": ANY_SCALAR}
            made["additionalProperties"] = {
                "type": "object",
                "properties": {"note": note, **dict.fromkeys(keys_of(ProjectFile), True)},
                "additionalProperties": False,
            }
            return made
        made["additionalProperties"] = self.plan(kind.held)
        words = [choice for k in kind.name.kinds if isinstance(k, Words) for choice in k.choices]
        if words:
            made["propertyNames"] = {"enum": [*words, "basis"]}
        made["properties"] = {"basis": {"anyOf": [BASES, made["additionalProperties"]]}}
        return made

    def row(self, kind: Row) -> list[Schema]:
        """A few values in order, or by name; a place or size in words."""
        columns = {name: self.plan(Plan((num,))) for name, num in kind.fields}
        in_order = {
            "type": "array",
            "prefixItems": list(columns.values()),
            "items": False,
            "minItems": len(columns),
        }
        by_name = {
            "type": "object",
            "properties": columns,
            "required": list(columns),
            "additionalProperties": False,
        }
        words: Mapping[Any, str] = {Size: "0.5 m x 0.3 m x 0.3 m", Point: "1.3 m aft of main_bulkhead"}
        also = [{"type": "string", "examples": [words[kind.cls]]}] if kind.cls in words else []
        return [in_order, by_name, *also]


def _scalar(kind: Kind, plan: Plan) -> Schema:
    if isinstance(kind, Num):
        plain = kind.how in {COUNT, NUMBER}
        said = {"description": ", ".join(filter(None, (kind.quantity.label, unit_of(kind), range_of(kind))))}
        example = example_of(kind)
        shown = [float(example) if plain else example] if example else []
        return {"type": ["number", "string"] if plain else "string", **said, "examples": shown}
    if isinstance(kind, Pair):
        example = f"{example_of(kind.rated)} at {example_of(kind.at)}"
        return {"type": "string", "pattern": " at ", "examples": [example]}
    if isinstance(kind, Words):
        return {"enum": list(kind.choices)}
    if isinstance(kind, Plain):
        return _of_type(kind, plan)
    raise TypeError(f"no schema for {kind}")


def _of_type(kind: Plain, plan: Plan) -> Schema:
    if kind.type in FORMS:
        return FORMS[kind.type]
    for to in plan.refers.to if plan.refers else ():
        if to in LIBRARIES:
            return {"anyOf": [{"enum": sorted(LIBRARIES[to]())}, {"type": ANY_SCALAR}]}
    return {"type": ANY_SCALAR}
