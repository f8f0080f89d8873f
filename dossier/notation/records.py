"""Frozen dataclasses whose methods are shared.

``dataclass(frozen=True)`` of the standard library compiles six methods for each class. Hundreds of classes
are declared at every start, and compiling took longer than sizing a boat; here all share the same methods. A
class is declared and used as ever: fields, ``replace``, equality, hash, pickling, matching.

What is made by the ten thousand stays with the standard library and has slots, which are smaller.
"""

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, fields
from dataclasses import dataclass as declared
from functools import cache
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

__all__ = ["dataclass"]

Class = TypeVar("Class", bound=type)


class _Record:
    """The methods that all share."""

    __match_args__: tuple[str, ...]

    def __init__(self, *given: object, **named: object) -> None:
        names = self.__match_args__
        if len(given) == len(names) and not named:
            vars(self).update(zip(names, given, strict=True))
        elif len(given) + len(named) == len(names) and all(map(named.__contains__, names[len(given) :])):
            vars(self).update(zip(names, given, strict=False), **named)
        else:
            vars(self).update(_completed(type(self), given, named))

    def __repr__(self) -> str:
        said = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
        return f"{type(self).__qualname__}({said})"

    def __eq__(self, other: object) -> bool:
        return _values(self) == _values(other) if type(other) is type(self) else NotImplemented

    def __hash__(self) -> int:
        return hash(_values(self))

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def __delattr__(self, name: str) -> NoReturn:
        raise FrozenInstanceError(f"cannot delete field {name!r}")


SHARED = [name for name, member in vars(_Record).items() if callable(member)]


def _values(record: Any) -> tuple[object, ...]:
    return tuple([getattr(record, name) for name in record.__match_args__])


def _completed(cls: Any, given: tuple[object, ...], named: dict[str, object]) -> dict[str, object]:
    """Values of all fields, defaults put in; ``TypeError`` for what is missing, unknown or given twice."""
    names = cls.__match_args__
    if len(given) > len(names):
        raise TypeError(f"{cls.__name__} takes {len(names)} values, not {len(given)}")
    values = dict(zip(names, given, strict=False))
    for name, value in named.items():
        if name in values or name not in names:
            raise TypeError(
                f"{cls.__name__} got {name!r} twice" if name in values else f"{cls.__name__} has no {name!r}"
            )
        values[name] = value
    for name, default, made in _defaults(cls):
        if name in values:
            continue
        if default is not MISSING:
            values[name] = default
        elif made is not MISSING:
            values[name] = made()
        else:
            raise TypeError(f"{cls.__name__} lacks {name!r}")
    return values


@cache
def _defaults(cls: Any) -> tuple[tuple[str, Any, Any], ...]:
    """Fields of a class with their default and what makes one."""
    return tuple((field.name, field.default, field.default_factory) for field in fields(cls))


if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(*, frozen: bool) -> Callable[[Class], Class]:
        """Declare a frozen dataclass: ``@dataclass(frozen=True)``."""
        if not frozen:
            raise TypeError("a dataclass that changes is one of the standard library's")

        def declare(cls: Class) -> Class:
            if hasattr(cls, "__post_init__"):
                raise TypeError("what is done after filling is left to dataclasses of the standard library")
            for name in SHARED:
                if vars(cls).get(name) is None:
                    setattr(cls, name, vars(_Record)[name])
            return declared(init=False, repr=False, eq=False)(cls)

        return declare
