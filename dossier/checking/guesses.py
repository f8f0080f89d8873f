"""How far do results rest on guesses: what assumed inputs move, and what was read off a plate?"""

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from math import inf, isfinite
from typing import TYPE_CHECKING, Annotated, Any, get_args

from dossier.checking.aboard import of_kind
from dossier.checking.finding import Finding, Status
from dossier.checking.run import limit_of, written_checks
from dossier.data.catalogue import Severity, catalogue
from dossier.data.default_spreads import spread_of
from dossier.notation import (
    ARITHMETIC,
    Basis,
    Influence,
    Line,
    NotAssessed,
    Quantity,
    Real,
    lines_behind,
    named_results,
    q,
    solved,
    weakest,
)
from dossier.notation.records import dataclass
from dossier.project.model import Component, ProjectFile
from dossier.project.model.entry import is_entry

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.study import Study

WATCHED = ("heat_loss.total", "store.running_time")
"""Results beside the danger-grade margins whose guesses count: the load, and the burner's runs."""
FROM_PLATES = ("burner", "pump", "fan_coil", "tap_exchanger", "water_heater", "recovery_exchanger")
"""Kinds whose rated figures are to be read off their plates."""
RATED = ("output", "at", "curve")


EFFECT = q(
    "–",
    "1",
    "largest relative move of load, runs or a danger-grade margin by one assumed input",
    name="document.assumed_effect",
)


@dataclass(frozen=True)
class Guess:
    """An assumed input and the largest relative move it gives any watched result or margin."""

    key: str
    result: str
    effect: Annotated[Real, q("–", "1", "relative move", name="")]


@dataclass(frozen=True)
class LargestEffect:
    """What the guess that moves most moves."""

    effect: Annotated[Real, EFFECT]


@cache
def _keys_under(section: str) -> frozenset[str]:
    """All keys the model knows in one section of the file, at any depth."""
    found: set[str] = set()
    pending, seen = [ProjectFile.model_fields[section].annotation], set[int]()
    while pending:
        kind = pending.pop()
        pending.extend(get_args(kind))
        if id(kind) in seen or not is_entry(kind):
            continue
        seen.add(id(kind))
        found.update(kind.model_fields)
        pending.extend(field.annotation for field in kind.model_fields.values())
        if kind is Component:
            pending.extend(Component.kinds.values())
    return frozenset(found)


def is_input(project: "Project", line: Line) -> bool:
    """Whether a number is one the file states, or could: not a convention that no key of it can replace."""
    if line.line is not None:
        return True
    section, _, rest = line.key.partition(".")
    known = section in ProjectFile.model_fields and rest.rpartition(".")[2] in _keys_under(section)
    return known and project.where(line.key).key != line.key


def guesses(study: "Study") -> tuple[Guess, ...]:
    """All assumed inputs that move a watched result or a danger-grade margin, the strongest first."""
    return _strongest((*_sampled(study), *_linearised(study)))


def largest_effect(study: "Study") -> LargestEffect | None:
    """The strongest of all guesses; none where nothing was calculated or a margin is nothing at all."""
    strongest = guesses(study)
    if not strongest:
        return None if isinstance(study.heat_loss, NotAssessed) else LargestEffect(0.0)
    first = strongest[0]
    if not isfinite(float(first.effect)):
        return None
    text = f"largest of all: {first.key} on {first.result}"
    return LargestEffect(solved(float(first.effect), EFFECT, text, ARITHMETIC))


def ranked(study: "Study") -> tuple[Guess, ...]:
    """Assumed inputs in the order in which they are worth measuring, the strongest first.

    A result counts by the index of influence: half the width between its tenth and ninetieth percentile that
    this input alone would leave. A danger's margin counts by the move at the end of the input's spread.
    """
    found = study.uncertainty
    sampled = () if isinstance(found, NotAssessed) else found.measure_next
    margins = (guess for guess in _linearised(study) if guess.result in catalogue())
    return _strongest((*(Guess(each.unknown.key, each.result, each.effect) for each in sampled), *margins))


def _strongest(moves: Iterable[Guess]) -> tuple[Guess, ...]:
    """The strongest move of each input, the strongest first."""
    strongest: dict[str, Guess] = {}
    for guess in moves:
        known = strongest.get(guess.key)
        if known is None or guess.effect > known.effect:
            strongest[guess.key] = guess
    return tuple(sorted(strongest.values(), key=lambda guess: (-float(guess.effect), guess.key)))


def _sampled(study: "Study") -> Iterator[Guess]:
    """Moves of load and burner runs as the study of their spread found them."""
    found = study.watched
    if isinstance(found, NotAssessed):
        return
    keys = {unknown.key for unknown in found.unknowns if not unknown.convention}
    for name in WATCHED:
        spread = found.spreads.get(name)
        for key, move in spread.moves.items() if spread else ():
            if key in keys and move:
                yield Guess(key, name, move / abs(float(spread.value)) if spread and spread.value else inf)


def _linearised(study: "Study") -> Iterator[Guess]:
    """Moves of the dangers' margins, and of the watched results where no study sampled them."""
    influence = Influence(_spread_of)
    for name, number, scale in _watched(study):
        for line, move in influence.moves(number).items():
            if line.basis is Basis.ASSUMED and move and is_input(study.project, line):
                yield Guess(line.key, name, move / scale if scale else inf)


def _spread_of(line: Line, quantity: Quantity | None, number: float) -> tuple[float, float]:
    """Ends of a guess as the study of uncertainty samples it; a figure that is chosen does not lie off."""
    return spread_of(line, quantity, number) or (number, number)


def _watched(study: "Study") -> Iterator[tuple[str, Real, float]]:
    """Name, number and the size its moves are held against: itself, or the margin of a danger."""
    found = study.watched
    sampled = () if isinstance(found, NotAssessed) else found.spreads
    for result in named_results((study.heat_loss, study.store)):
        if result.name in WATCHED and result.name not in sampled:
            yield result.name, result.value, abs(float(result.value))
    for name, check in written_checks().items():
        if catalogue()[name].severity is Severity.DANGER:
            yield from _margins(check(study, limit_of(study, name)))


def _margins(finding: Finding) -> Iterator[tuple[str, Real, float]]:
    """What was found of a danger, with its margin."""
    numbers = isinstance(finding.found, float) and isinstance(finding.margin, int | float)
    if numbers and finding.status in {Status.MET, Status.NOT_MET}:
        yield finding.check, finding.found, abs(float(finding.margin))  # type: ignore[misc, arg-type]  # numbers


def rated_basis(part: Any) -> Basis | None:
    """Weakest basis of the rated figures of a part; None where it states none."""
    lines = [
        line for field in RATED for number in _numbers(getattr(part, field, None)) for line in _lines(number)
    ]
    return weakest(line.basis for line in lines) if lines else None


def _lines(number: float) -> list[Line]:
    return [line for line in lines_behind(number) if line.line is not None]


def _numbers(entry: Any) -> Iterator[float]:
    """Numbers of an entry of the file, through lists and entries within it."""
    if isinstance(entry, float):
        yield entry
    elif isinstance(entry, tuple | list):
        for part in entry:
            yield from _numbers(part)
    elif isinstance(entry, Mapping):
        for part in entry.values():
            yield from _numbers(part)
    elif hasattr(type(entry), "model_fields"):
        for name in type(entry).model_fields:
            yield from _numbers(getattr(entry, name))


def basis_of(*entries: Any) -> Basis | None:
    """Weakest basis of all numbers in some entries of the file; None where there is no number."""
    lines = [line for entry in entries for number in _numbers(entry) for line in lines_behind(number)]
    return weakest(line.basis for line in lines) if lines else None


def not_from_plates(study: "Study") -> tuple[str, ...]:
    """Tags of the parts whose rated figures were neither read off a plate nor measured."""
    good = {Basis.PLATE, Basis.MEASURED}
    bases = {part.tag: rated_basis(part) for part in of_kind(study.project, *FROM_PLATES)}
    return tuple(tag for tag, basis in bases.items() if basis is not None and basis not in good)
