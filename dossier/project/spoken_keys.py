"""What a key of one project file is, in words: its description, how it is written, and of which part it is.

``spoken(project, "components.B1.after_run")`` knows the burner's own keys, since B1 is a burner in the file.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from dossier.notation.records import dataclass
from dossier.project.describe import units_of
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
from dossier.project.model import ProjectFile
from dossier.project.model.circuit import Pipe
from dossier.project.model.components import Component
from dossier.project.model.entry import Entry
from dossier.project.model.values import Date

if TYPE_CHECKING:
    from dossier.project.project import Project

COMPONENTS = "components"
RING, BRANCHES = ("circuit", "ring"), ("circuit", "branches")
PIPE = ("circuit", "ring", "pipe")


@dataclass(frozen=True)
class SpokenKey:
    """A key in words.

    ``pattern`` is the key without names, as the catalogue of checks writes it; ``names`` are those it holds
    (a tag, a zone, a pipe). ``unit`` is the one people write, ``choices`` the words that may stand there,
    ``listed`` tells that the key holds several values or entries, ``yes_or_no`` what it says, ``plan`` how
    it is read. ``children`` are the plain keys of the one entry it holds.
    """

    key: str
    pattern: str
    names: tuple[str, ...]
    description: str
    unit: str = ""
    choices: tuple[str, ...] = ()
    yes_or_no: bool = False
    is_date: bool = False
    listed: bool = False
    plan: Plan | None = None
    children: tuple[str, ...] = ()


def spoken(project: "Project", key: str) -> SpokenKey | None:
    """A key in words; None where the model has no such key."""
    walk = _Walk(project)
    return walk.to(key)


class _Walk:
    """One way through the model, part by part."""

    def __init__(self, project: "Project") -> None:
        self.project = project
        self.pattern: list[str] = []
        self.names: list[str] = []

    def to(self, key: str) -> SpokenKey | None:
        """The key at the end of the way."""
        cls: type[Entry] = ProjectFile
        parts = key.split(".")
        held: tuple[type[Entry], Key] | None = None
        while parts:
            found = keys_of(cls).get(parts[0])
            if found is None:
                return None
            held = cls, found
            self.pattern.append(parts.pop(0))
            inner, parts = self._into(found.plan, parts)
            if inner is None:
                return self._said(key, *held, rest=parts)
            cls = inner
        return self._said(key, *held, rest=[]) if held else None

    def _into(self, plan: Plan, parts: list[str]) -> tuple[type[Entry] | None, list[str]]:
        """Class of the entries a key holds and what is left of the way; None at its end."""
        for kind in plan.kinds:
            if not parts:
                return None, parts
            if tuple(self.pattern) == (COMPONENTS,):
                return self._component(parts)
            if isinstance(kind, Items) or tuple(self.pattern) == BRANCHES:
                return self._pipe(parts)
            if isinstance(kind, One):
                return kind.cls, parts
            held = _entry_of(kind)
            if held is not None:
                return self._member(held, parts)
        return None, parts

    def _component(self, parts: list[str]) -> tuple[type[Entry] | None, list[str]]:
        tag, *rest = parts
        part = (self.project.components or {}).get(tag)
        kind = part.kind if part is not None else tag
        cls = Component.kinds.get(kind)
        if cls is None:
            return (Component, parts) if tag in keys_of(Component) else (None, parts)
        self.pattern.append(kind)
        if part is not None:
            self.names.append(tag)
        return cls, rest

    def _pipe(self, parts: list[str]) -> tuple[type[Entry] | None, list[str]]:
        """Runs are told by their names, wherever in the ring or its branches they lie."""
        keys = keys_of(Pipe)
        at = next((n for n, part in enumerate(parts) if n and part in keys), None)
        if at is None:
            return None, parts
        self.names.append(parts[at - 1])
        self.pattern = list(PIPE)
        return Pipe, parts[at:]

    def _member(self, cls: type[Entry], parts: list[str]) -> tuple[type[Entry], list[str]]:
        """One entry of a list or mapping; its name may be left out, and may hold dots."""
        keys = keys_of(cls)
        at = next((n for n, part in enumerate(parts) if part in keys), None)
        if at is None:
            self.names.append(".".join(parts))
            return cls, []
        if at:
            self.names.append(".".join(parts[:at]))
        return cls, parts[at:]

    def _said(self, key: str, cls: type[Entry], found: Key, *, rest: Sequence[str]) -> SpokenKey:
        """The key in words; what is left of the way counts members of a list, or names one figure."""
        plan = found.plan
        held = next(
            (kind.held for kind in plan.kinds if isinstance(kind, Named) and _plainly_numbers(kind)), None
        )
        if len(rest) == 1 and held is not None:
            self.names.append(rest[0])
            plan, rest = held, ()
        if rest:
            key = key.removesuffix("." + ".".join(rest))
        kinds = plan.kinds
        number = next((_number(kind) for kind in kinds if _number(kind) is not None), None)
        words = next((kind.choices for kind in kinds if isinstance(kind, Words)), ())
        plain = next((kind.type for kind in kinds if isinstance(kind, Plain)), None)
        return SpokenKey(
            key,
            ".".join(self.pattern),
            tuple(self.names),
            cls.model_fields[found.attribute].description or "",
            next(iter(units_of(number)), "") if number is not None else "",
            tuple(words),
            plain is bool,
            plain is Date,
            any(isinstance(kind, Many | Named | Items | One | Row) for kind in kinds),
            plan,
            tuple(child for kind in kinds if isinstance(kind, One) for child in _plain_keys(kind.cls)),
        )


def _plainly_numbers(kind: Named) -> bool:
    """Whether a mapping gives a figure to each name."""
    return all(isinstance(held, Num) for held in kind.held.kinds)


def _plain_keys(cls: type[Entry]) -> list[str]:
    """Keys of an entry that hold one value each."""
    plain = (Num, Pair, Words, Plain)
    return [name for name, key in keys_of(cls).items() if all(isinstance(k, plain) for k in key.plan.kinds)]


def _entry_of(kind: Kind) -> type[Entry] | None:
    """Class of the entries a list or mapping holds."""
    held = kind.item if isinstance(kind, Many) else kind.held if isinstance(kind, Named) else None
    return next((inner.cls for inner in held.kinds if isinstance(inner, One)), None) if held else None


def _number(kind: Kind) -> Num | None:
    if isinstance(kind, Pair):
        return kind.rated
    return kind if isinstance(kind, Num) else None
