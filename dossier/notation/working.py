"""Formulas that know their symbols, ranges and source, and the working each leaves behind.

One declaration feeds the docstring, the guard against numbers outside the range, and the printed working.
Scalars are guarded and leave a working; arrays of samples are guarded by turning samples outside the range
into NaN, which the study of uncertainty counts.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from inspect import CO_VARARGS
from typing import Any, Generic, ParamSpec, TypeVar

import numpy as np

from dossier.notation.faults import OutOfRange
from dossier.notation.origin import Line, Origin, Traced, origin_of
from dossier.notation.quantity import Quantity
from dossier.notation.source import Source

P = ParamSpec("P")
R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Statement:
    """What a working says: the formula in symbols, what it gives, and its source.

    ``function`` finds the number again from the given ones; so a study can ask what each of them moves.
    """

    name: str
    text: str
    gives: Quantity
    source: Source
    doc: str = ""
    function: Callable[..., Any] | None = None


@dataclass(frozen=True, slots=True)
class Given:
    """One input of a working: a number with its quantity, or a word such as a direction."""

    quantity: Quantity | None
    value: Any


@dataclass(frozen=True, slots=True)
class Working:
    """How one number was found."""

    statement: Statement
    given: tuple[Given, ...]
    value: float


def _declared(annotation: Any) -> Quantity | None:
    """Quantity that an ``Annotated`` hint declares, None where it declares none."""
    for extra in getattr(annotation, "__metadata__", ()):
        if isinstance(extra, Quantity):
            return extra
    return None


class Formula(Generic[P, R]):
    """A function of the trade together with its declaration; calling it guards and leaves a working.

    ``function`` is the bare function for solvers that iterate on plain numbers.
    """

    def __init__(self, function: Callable[P, R], text: str, source: Source) -> None:
        # Hundreds of formulas are declared at every start: the code object is read, which is ten times as
        # quick as asking for a signature.
        code, hints = function.__code__, function.__annotations__
        rest = bool(code.co_flags & CO_VARARGS)
        count = code.co_argcount + code.co_kwonlyargcount + rest
        gives = _declared(hints.get("return"))
        if gives is None:
            raise TypeError(f"{function.__name__} declares no quantity for what it gives")
        self.function = function
        self._names = code.co_varnames[:count]
        self.inputs: tuple[Quantity | None, ...] = tuple(_declared(hints.get(name)) for name in self._names)
        self._rest = rest
        self.__doc__ = function.__doc__ or ""
        self.statement = Statement(
            function.__name__, text, gives, source, self.__doc__.split("\n")[0], function
        )

    @property
    def __name__(self) -> str:
        return self.statement.name

    @property
    def source(self) -> Source:
        """The publication the formula rests on."""
        return self.statement.source

    def __repr__(self) -> str:
        return f"<formula {self.statement.name}: {self.statement.text}>"

    def _paired(self, args: Sequence[Any]) -> Sequence[Quantity | None]:
        """Quantity of each argument: the last declaration serves all further arguments of ``*terms``."""
        if self._rest:
            return [*self.inputs[:-1], *[self.inputs[-1]] * (len(args) - len(self.inputs) + 1)]
        return self.inputs

    def _outside(self, quantities: Sequence[Quantity | None], args: Sequence[Any]) -> Any:
        """Mask of the samples out of range; raises where a single number is."""
        outside: Any = None
        for place, (quantity, value) in enumerate(zip(quantities, args, strict=False)):
            if quantity is None or value is None:
                continue
            if isinstance(value, np.ndarray):
                beyond = (value < quantity.low) | (value > quantity.high)
                if beyond.any():
                    outside = beyond if outside is None else outside | beyond
            elif not quantity.low <= value <= quantity.high:
                name = self._names[min(place, len(self._names) - 1)]
                raise OutOfRange(self.statement.name, name, quantity, value, self.source, lines_behind(value))
        return outside

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> R:
        """Value of the formula, guarded; a traced value where any input was traced."""
        ordered: Sequence[Any] = args
        if kwargs:
            ordered = [*args, *(kwargs[name] for name in self._names[len(args) :] if name in kwargs)]
        quantities = self._paired(ordered)
        outside = self._outside(quantities, ordered)
        result: Any = self.function(*args, **kwargs)
        if isinstance(result, np.ndarray):
            return np.where(outside, np.nan, result) if outside is not None else result  # type: ignore[return-value]  # R is Real here
        for value in ordered:
            if type(value) is Traced:
                given = tuple(map(Given, quantities, ordered))
                return Traced(result, Working(self.statement, given, float(result)))  # type: ignore[return-value]  # Traced is a float
        return result  # type: ignore[no-any-return]  # what the function gave


def formula(text: str, source: Source) -> Callable[[Callable[P, R]], Formula[P, R]]:
    """Declare a function as a formula: its text in symbols, and the publication it rests on."""

    def declare(function: Callable[P, R]) -> Formula[P, R]:
        return Formula(function, text, source)

    return declare


def solved(  # noqa: PLR0913 - what was solved, from what, and how to find it again
    number: float,
    gives: Quantity,
    text: str,
    source: Source,
    given: Sequence[tuple[Quantity, Any]] = (),
    *,
    function: Callable[..., Any] | None = None,
) -> Traced:
    """Wrap a number that a solver found, with the statement of what was solved and from what.

    ``function`` takes the given numbers in their order and finds the number again.
    """
    statement = Statement("solved", text, gives, source, function=function)
    return Traced(number, Working(statement, tuple(Given(*pair) for pair in given), float(number)))


def chosen(number: float, gives: Quantity, text: str, source: Source, *candidates: Any) -> Traced:
    """Wrap a number picked by a rule (largest, smallest, first known) from candidates."""
    return solved(number, gives, text, source, [(gives, candidate) for candidate in candidates])


def workings_behind(number: object) -> Iterator[Working]:
    """Walk all workings a number rests on, inputs before results, each once."""
    seen: set[int] = set()

    def walk(value: object) -> Iterator[Working]:
        origin = origin_of(value)
        if isinstance(origin, Working) and id(origin) not in seen:
            seen.add(id(origin))
            for given in origin.given:
                yield from walk(given.value)
            yield origin

    yield from walk(number)


def origins_behind(*numbers: object) -> Iterator[Origin]:
    """Ends of all workings of numbers: lines of the file and rows of tables, each once."""
    seen: set[int] = set()
    stack = list(reversed(numbers))
    while stack:
        origin = origin_of(stack.pop())
        if origin is None or id(origin) in seen:
            continue
        seen.add(id(origin))
        if isinstance(origin, Working):
            stack.extend(given.value for given in reversed(origin.given))
        else:
            yield origin


def lines_behind(number: object) -> list[Line]:
    """Lines of the project file (or assumptions in their place) a number rests on."""
    return [origin for origin in origins_behind(number) if isinstance(origin, Line)]
