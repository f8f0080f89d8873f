"""How each key of the model is read, worked out once from its annotation."""

import types
from collections.abc import Callable, Mapping
from functools import cache
from typing import Annotated, Any, ForwardRef, Literal, Union, get_args, get_origin, get_type_hints

from dossier.notation import Basis, Quantity
from dossier.notation.records import dataclass
from dossier.project.model.circuit import Unit
from dossier.project.model.components import Component
from dossier.project.model.conditions import Weather
from dossier.project.model.entry import Entry, Figure, Likely, Mark, Needed, No, Refers
from dossier.project.model.values import At, Date, Rated


@dataclass(frozen=True)
class Plan:
    """How a value is read: what kinds of value it may be, and the marks of its field.

    Of several kinds the first whose shape fits is taken.
    """

    kinds: tuple["Kind", ...]
    answers_none: bool = False
    refers: Refers | None = None
    marks: frozenset[Mark] = frozenset()


@dataclass(frozen=True)
class Num:
    """A figure."""

    quantity: Quantity
    how: Figure | None = None
    likely: Likely | None = None


@dataclass(frozen=True)
class Pair:
    """A rated pair."""

    rated: Num
    at: Num


@dataclass(frozen=True)
class Words:
    """One of some words."""

    choices: tuple[str, ...]


@dataclass(frozen=True)
class Plain:
    """A text, a yes-or-no, a date, a basis, a weather file: by its type."""

    type: type


@dataclass(frozen=True)
class One:
    """An entry."""

    cls: type[Entry]


@dataclass(frozen=True)
class Many:
    """A list."""

    item: Plan


@dataclass(frozen=True)
class Row:
    """A few values in order: a point, a size, a point of a curve."""

    cls: Callable[..., Any]
    fields: tuple[tuple[str, Num], ...]


@dataclass(frozen=True)
class Named:
    """A mapping of names to values."""

    name: Plan
    held: Plan


@dataclass(frozen=True)
class Items:
    """Items of the circuit in flow order."""


Kind = Num | Pair | Words | Plain | One | Many | Row | Named | Items


@dataclass(frozen=True)
class Key:
    """One key of an entry: its attribute, plan, and what needs it."""

    attribute: str
    plan: Plan
    required: bool
    needed_by: str


def _of(marks: tuple[Any, ...], kind: Any) -> Any:
    return next((mark for mark in marks if isinstance(mark, kind)), None)


def _number(marks: tuple[Any, ...]) -> Num:
    quantity = _of(marks, Quantity) or Quantity("", "1", "figure")
    return Num(quantity, _of(marks, Figure), _of(marks, Likely))


def _options(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) in {Union, types.UnionType}:
        return tuple(option for part in get_args(annotation) for option in _options(part))
    return (annotation,)


def _kind(annotation: Any, marks: tuple[Any, ...]) -> Kind:  # noqa: PLR0911 - one line for each kind
    origin, parts = get_origin(annotation), get_args(annotation)
    if annotation is Rated:
        return Pair(_number(marks), Num(_of(marks, At).quantity))
    if annotation is float:
        return _number(marks)
    if annotation in {str, bool, Date, Basis, Weather}:
        return Plain(annotation)
    if origin is Literal:
        return Words(parts)
    if origin is tuple:
        if isinstance(parts[0], ForwardRef | str) or Unit in _options(parts[0]):
            return Items()
        return Many(plan_of(parts[0], marks))
    if origin is not None and issubclass(origin, Mapping):
        held = plan_of(parts[1], ())
        return Named(plan_of(parts[0], ()), held)
    if isinstance(annotation, type) and issubclass(annotation, Entry):
        return One(annotation)
    if isinstance(annotation, type) and issubclass(annotation, tuple):
        hints = get_type_hints(annotation, include_extras=True)
        return Row(annotation, tuple((name, _number(get_args(hint)[1:])) for name, hint in hints.items()))
    raise TypeError(f"no reader for {annotation}")


@cache
def plan_of(annotation: Any, marks: tuple[Any, ...]) -> Plan:
    """Plan of an annotation with the marks that stand beside it."""
    if get_origin(annotation) is Annotated:
        inner, *more = get_args(annotation)
        return plan_of(inner, (*more, *marks))
    options = [option for option in _options(annotation) if option is not type(None)]
    flat: list[Any] = []
    found: list[Any] = list(marks)
    for option in options:
        if get_origin(option) is Annotated:
            inner, *more = get_args(option)
            flat.append(inner)
            found.extend(more)
        elif option != No:
            flat.append(option)
    return Plan(
        tuple(_kind(option, tuple(found)) for option in flat),
        No in options,
        _of(marks, Refers),
        frozenset(mark for mark in marks if isinstance(mark, Mark)),
    )


@cache
def keys_of(cls: type[Entry]) -> Mapping[str, Key]:
    """Keys of an entry as the file writes them."""
    keys = {}
    for attribute, field in cls.model_fields.items():
        marks = tuple(field.metadata)
        annotation: Any = field.annotation
        plan = plan_of(annotation, marks)
        if Mark.FROM_KEY in plan.marks:
            continue
        needed = _of(marks, Needed)
        keys[field.alias or attribute] = Key(
            attribute, plan, field.is_required(), needed.by if needed else ""
        )
    return keys


@cache
def name_from_key(cls: type[Entry]) -> str:
    """Field that takes the name an entry stands under, empty if none does."""
    return next(
        (name for name, field in cls.model_fields.items() if Mark.FROM_KEY in field.metadata),
        "",
    )


@cache
def kinds_keys() -> frozenset[str]:
    """Keys of all kinds of component together."""
    return frozenset(key for cls in Component.kinds.values() for key in keys_of(cls))
