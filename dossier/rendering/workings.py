"""All workings of a document, numbered: which stand in the appendix, in which order, and what each is for.

They are walked from the results, inputs before what rests on them. Workings by one formula stand together, so
that the formula is told once. Results of other modes than the design mode are worked in the same way; they
are counted and not printed, as are numbers that say nothing (no flow, no drop). Of many steps on the way by
one formula a few are printed, none where it is plain arithmetic or an earlier chapter has shown it; every
result is printed.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any

from dossier.notation import ARITHMETIC, Line, Result, Statement, Traced, Working, origin_of
from dossier.sizing.modes import DESIGN

if TYPE_CHECKING:
    from dossier.assessment import Assessment

CHAPTERS: Mapping[str, tuple[str, ...]] = {
    "shell": ("resistance", "frame_loss", "u_value"),
    "loss": ("heat_loss", "temperature", "ventilation"),
    "warm_up": ("warm_up",),
    "coolant": ("coolant",),
    "flow": ("flow_wanted", "balancing", "pump", "flow", "pressure_drop", "velocity", "reynolds", "network"),
    "heat": (
        "supply",
        "return",
        "output",
        "output_quiet",
        "pipe_loss",
        "surface_temperature",
        "zone_margin",
        "temperature_held",
        "effectiveness",
    ),
    "pressure": ("pressure", "open_paths"),
    "store": ("store", "day"),
    "tap_water": ("tap_water",),
    "recovery": ("recovery",),
    "expansion": ("expansion",),
    "exhaust": ("exhaust", "air"),
    "fuel": ("fuel", "season", "night"),
    "electrics": ("electrics",),
    "moisture": ("dew_point", "moisture"),
    "mass": ("mass",),
    "placement": ("clearance", "placement"),
    "other": (),
}
"""Chapters of the appendix, with the first words of the results they show, in their order."""

SAYS_NOTHING = frozenset(
    {"nothing flows", "no drop is stated: it passes freely", "what stands before a shut valve"}
)
PLACE = re.compile(r"\{(\w+)\}")
FEW = 2
"""Workings by one formula that are printed although no result of their own."""

DIGITS = re.compile(r"\d[\d.e+−-]*")


@dataclass(frozen=True, slots=True)
class Worked:
    """One numbered working: what it is for, and the name of the result where it is one itself."""

    number: int
    working: Working
    place: str
    result: str

    @property
    def key(self) -> str:
        """Its place in the document."""
        return f"working {self.number}"


@dataclass(frozen=True, slots=True)
class ByFormula:
    """Workings by one formula in a chapter; ``left_out`` more are worked in the same way."""

    statement: Statement
    worked: tuple[Worked, ...]
    left_out: int = 0


@dataclass(frozen=True, slots=True)
class Chapter:
    """The workings of one part of the calculation."""

    name: str
    formulas: tuple[ByFormula, ...]


class Workings:
    """Chapters of the appendix, and the way from a number to its working."""

    def __init__(self, assessment: "Assessment") -> None:
        walk = _Walk()
        results = list(assessment.results.values())
        chapters = [(name, list(_of_chapter(results, name))) for name in CHAPTERS]
        for name, own in chapters:
            walk.chapter(name, [result for result in own if not _of_other_mode(result)])
        for _, own in chapters:
            walk.count([result for result in own if _of_other_mode(result)])
        self.chapters, self.printed, self.alike = walk.numbered()

    def of(self, number: object) -> Worked | None:
        """The printed working of a number; None where it has none or is left out."""
        origin = origin_of(number)
        return self.printed.get(id(origin)) if isinstance(origin, Working) else None

    def like(self, number: object) -> Worked | None:
        """A printed working by the same formula, for a number whose own is left out."""
        origin = origin_of(number)
        return self.alike.get(_kind(origin)) if isinstance(origin, Working) else None

    @property
    def count(self) -> int:
        """How many workings are printed."""
        return sum(len(one.worked) for chapter in self.chapters for one in chapter.formulas)

    @property
    def left_out(self) -> int:
        """How many are not printed, since they are worked in the same way."""
        return sum(one.left_out for chapter in self.chapters for one in chapter.formulas)


def _of_chapter(results: list[Result], name: str) -> Iterator[Result]:
    firsts = CHAPTERS[name]
    if firsts:
        for first in firsts:
            yield from (result for result in results if result.name.partition(".")[0] == first)
    else:
        known = {first for each in CHAPTERS.values() for first in each}
        yield from (result for result in results if result.name.partition(".")[0] not in known)


def _of_other_mode(result: Result) -> bool:
    """Whether a result is one of another mode than the design mode, or of an alternative."""
    filled = _places(result)
    return filled is None or filled.get("mode", DESIGN) != DESIGN


def _places(result: Result) -> Mapping[str, str] | None:
    """What stands for the places in the pattern of a result's name; None where it does not follow it."""
    found = _pattern(result.quantity.name).fullmatch(result.name)
    return None if found is None else found.groupdict()


@cache
def _pattern(pattern: str) -> re.Pattern[str]:
    parts = PLACE.split(pattern)
    return re.compile(
        "".join(f"(?P<{part}>[^.]*)" if n % 2 else re.escape(part) for n, part in enumerate(parts))
    )


def place_of(result: Result) -> str:
    """What a result is of, as people say it: ``saloon, Deck``; the mode is left out."""
    filled = _places(result) or {}
    return ", ".join(each.replace("_", " ") for name, each in filled.items() if name != "mode")


@dataclass(slots=True)
class _Found:
    """A working with the result it was first met for, before it has its number."""

    working: Working
    place: str
    result: str
    twins: list[Working] = field(default_factory=list)


class _Walk:
    """Gathers workings by chapter and formula, each once; like workings of like numbers are one."""

    def __init__(self) -> None:
        self.seen: set[int] = set()
        self.kept: list[Working] = []
        self.twins: dict[tuple[Any, ...], _Found] = {}
        self.groups: dict[str, dict[tuple[str, str], tuple[Statement, list[_Found]]]] = {}
        self.home: dict[tuple[str, str], str] = {}
        self.more: dict[tuple[str, str], int] = {}

    def chapter(self, name: str, results: list[Result]) -> None:
        """All workings behind the results of a chapter that no chapter before has."""
        here = self.groups.setdefault(name, {})
        for result in results:
            place = place_of(result)
            own = origin_of(result.value)
            for working in self._new(result.value):
                twin = self.twins.get(_figures(working))
                if twin is not None:
                    twin.twins.append(working)
                    continue
                found = _Found(working, place, result.name if working is own else "")
                self.twins[_figures(working)] = found
                kind = _kind(working)
                here.setdefault(kind, (working.statement, []))[1].append(found)
                self.home.setdefault(kind, name)

    def count(self, results: list[Result]) -> None:
        """How many workings more there are behind results that are left out, by formula."""
        for result in results:
            for working in self._new(result.value):
                kind = _kind(working)
                if kind in self.home and _figures(working) not in self.twins:
                    self.more[kind] = self.more.get(kind, 0) + 1

    def _new(self, number: object) -> Iterator[Working]:
        """Workings not met yet, inputs before results."""
        origin = origin_of(number)
        if not isinstance(origin, Working) or id(origin) in self.seen:
            return
        stack: list[tuple[Working, Iterator[Any]]] = [(origin, iter(origin.given))]
        self.seen.add(id(origin))
        self.kept.append(origin)
        while stack:
            working, rest = stack[-1]
            for given in rest:
                behind = origin_of(given.value)
                if isinstance(behind, Working) and id(behind) not in self.seen:
                    self.seen.add(id(behind))
                    self.kept.append(behind)
                    stack.append((behind, iter(behind.given)))
                    break
            else:
                stack.pop()
                if working.statement.text not in SAYS_NOTHING:
                    yield working

    def numbered(self) -> tuple[tuple[Chapter, ...], dict[int, Worked], dict[tuple[str, str], Worked]]:
        """Chapters with every working numbered, the numbered by their working, the first of each formula."""
        chapters: list[Chapter] = []
        printed: dict[int, Worked] = {}
        alike: dict[tuple[str, str], Worked] = {}
        number = 0
        for name, groups in self.groups.items():
            formulas = []
            for kind, (statement, found) in groups.items():
                more = self.more.get(kind, 0) if self.home[kind] == name else 0
                plain = statement.source == ARITHMETIC
                shown = list(_shown(found, 0 if kind in alike or plain else FEW))
                if not shown:
                    continue
                worked = []
                for each in shown:
                    number += 1
                    one = Worked(number, each.working, each.place, each.result)
                    worked.append(one)
                    printed.update({id(twin): one for twin in (each.working, *each.twins)})
                alike.setdefault(kind, worked[0])
                formulas.append(ByFormula(statement, tuple(worked), more + len(found) - len(shown)))
            if formulas:
                chapters.append(Chapter(name, tuple(formulas)))
        return tuple(chapters), printed, alike


def _shown(found: list[_Found], few: int) -> Iterator[_Found]:
    """Every working that is a result, and the first few of those on the way."""
    for each in found:
        few -= not each.result
        if each.result or few >= 0:
            yield each


def _kind(working: Working) -> tuple[str, str]:
    """What tells formulas apart: name and text, digits aside where a solver tells its residual."""
    statement = working.statement
    text = DIGITS.sub("", statement.text) if statement.name == "solved" else statement.text
    return statement.name, f"{text} {statement.gives.label if statement.name == 'solved' else ''}"


def _figures(working: Working) -> tuple[Any, ...]:
    """What two workings have in common that say the same: formula, numbers and where they come from."""
    return (
        _kind(working),
        working.value,
        tuple(
            (float(given.value), _end(given.value))
            if isinstance(given.value, float | int)
            else str(given.value)
            for given in working.given
        ),
    )


def _end(number: object) -> str:
    """Key of the file's line a number was read from; workings are told apart by their value alone."""
    origin = number.origin if isinstance(number, Traced) else None
    return origin.key if isinstance(origin, Line) else ""
