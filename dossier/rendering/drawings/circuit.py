"""The neutral tree the schematic is drawn from: units, runs and groups in flow order, side circuits, links.

All texts come ready for the page; nothing here computes. A ring is a tuple of items, once round, starting
anywhere; a run stands between two units where there is something to say about it or its side changes.
"""

from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias


class Side(str, Enum):
    """Whether a run carries what comes from the burner, what goes back to it, or water that stands."""

    SUPPLY = "supply"
    RETURN = "return"
    STILL = "still"


@dataclass(frozen=True, slots=True)
class Unit:
    """A component on the drawing.

    ``kind`` names its sign; ``name`` stands beside an emitter; ``flow`` (semibold) and ``facts`` are the data
    lines; ``state`` is what stands under a valve: open, shut or its preset; ``worst`` marks it with a W.
    """

    tag: str
    kind: str
    name: str = ""
    flow: str = ""
    facts: tuple[str, ...] = ()
    state: str = ""
    worst: bool = False


@dataclass(frozen=True, slots=True)
class Run:
    """The pipe from one item to the next: flow above the line, temperature below it."""

    side: Side | None = None
    flow: str = ""
    temperature: str = ""


@dataclass(frozen=True, slots=True)
class Branch:
    """One branch of a group, in flow order; the name is printed where no emitter names it."""

    items: "tuple[Item, ...]"
    name: str = ""


@dataclass(frozen=True, slots=True)
class Parallel:
    """Branches from one point to another: manifolds or three-way valves (``Unit``), plain tees (None)."""

    branches: tuple[Branch, ...]
    start: Unit | None = None
    end: Unit | None = None


Item: TypeAlias = Unit | Run | Parallel


@dataclass(frozen=True, slots=True)
class Fuel:
    """The fuel line of the unit tagged ``at``: its parts from the burner down to the tank."""

    at: str
    units: tuple[Unit, ...]


@dataclass(frozen=True, slots=True)
class Power:
    """The supply of the unit tagged ``at``: its parts from the unit to the battery."""

    at: str
    units: tuple[Unit, ...]


@dataclass(frozen=True, slots=True)
class Exhaust:
    """The exhaust of the unit tagged ``at``, in words, led through the shell to the outside."""

    at: str
    text: str
    outside: str = "outside"
    silencer: Unit | None = None


@dataclass(frozen=True, slots=True)
class Tap:
    """The tap side of an exchanger: cold in, hot out, mixed where there is a mixing valve."""

    at: str
    mixing: Unit | None = None
    cold: tuple[Unit, ...] = ()
    from_text: str = "cold"
    to_text: str = "to taps"


@dataclass(frozen=True, slots=True)
class EngineSide:
    """The engine side of an exchanger: valves on the way from the engine and on the way back."""

    at: str
    engine: Unit
    towards: tuple[Unit, ...] = ()
    back: tuple[Unit, ...] = ()


@dataclass(frozen=True, slots=True)
class Join:
    """A vessel, header or safety valve that joins the run before (or after) the unit or manifold named.

    ``notes`` stand by its line; ``vent`` names the open vent and ``levels`` the marks of a header.
    """

    unit: Unit
    before: str = ""
    after: str = ""
    notes: tuple[str, ...] = ()
    vent: str = ""
    levels: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Link:
    """A pipe outside the tree, from the outlet of one unit to the inlet of another."""

    start: str
    end: str
    side: Side = Side.SUPPLY
    text: str = ""


SideCircuit: TypeAlias = Fuel | Power | Exhaust | Tap | EngineSide


@dataclass(frozen=True, slots=True)
class Circuit:
    """Everything the schematic shows."""

    ring: tuple[Item, ...]
    sides: tuple[SideCircuit, ...] = ()
    joins: tuple[Join, ...] = ()
    links: tuple[Link, ...] = ()


def strands(items: tuple[Item, ...], side: Side) -> list[tuple[Run, "Unit | Parallel | None"]]:
    """Runs and the item each leads to, every side filled in; the last run leads to nothing.

    A run whose side is not said goes on as the run before it; ``side`` is that of what comes in.
    Two runs in a row are one: what the later says is kept.
    """
    result: list[tuple[Run, Unit | Parallel | None]] = []
    waiting: Run | None = None
    for item in items:
        if isinstance(item, Run):
            waiting = _joined(waiting, item)
            continue
        run = waiting or Run()
        side = run.side or side
        result.append((Run(side, run.flow, run.temperature), item))
        waiting = None
        if isinstance(item, Parallel):
            side = side_after(item, side)
    run = waiting or Run()
    result.append((Run(run.side or side, run.flow, run.temperature), None))
    return result


def _joined(first: Run | None, second: Run) -> Run:
    if first is None:
        return second
    return Run(second.side or first.side, second.flow or first.flow, second.temperature or first.temperature)


def side_after(group: Parallel, side: Side) -> Side:
    """The side of what leaves a group: return as soon as one branch gives back return, else what flows."""
    ends = {strands(branch.items, side)[-1][0].side for branch in group.branches}
    return next((each for each in (Side.RETURN, Side.SUPPLY) if each in ends), Side.STILL)


def units_of(items: tuple[Item, ...]) -> list[Unit]:
    """Every unit in flow order, manifolds included."""
    found: list[Unit] = []
    for item in items:
        if isinstance(item, Unit):
            found.append(item)
        elif isinstance(item, Parallel):
            found += [item.start] if item.start else []
            for branch in item.branches:
                found += units_of(branch.items)
            found += [item.end] if item.end else []
    return found


def units_beside(side: SideCircuit) -> tuple[Unit, ...]:
    """The units of a side circuit."""
    if isinstance(side, Fuel | Power):
        return side.units
    if isinstance(side, Exhaust):
        return (side.silencer,) if side.silencer else ()
    if isinstance(side, Tap):
        return (*side.cold, *((side.mixing,) if side.mixing else ()))
    return (side.engine, *side.towards, *side.back)


def tags_of(circuit: Circuit) -> tuple[str, ...]:
    """Every tag on the drawing, on the ring first."""
    units = units_of(circuit.ring)
    units += [unit for side in circuit.sides for unit in units_beside(side)]
    units += [join.unit for join in circuit.joins]
    return tuple(dict.fromkeys(unit.tag for unit in units if unit.tag))
