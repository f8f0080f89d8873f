"""What the crew does: tasks, steps, faults, emergencies, readings, spares; and the hazard panels for all.

Texts may name things in braces and rows may have a need: ``wording`` fills the first and judges the second.
Steps are numbered as they are printed, after those without a need that is met have been left out.
"""

from collections.abc import Mapping
from functools import cache
from itertools import groupby
from types import MappingProxyType

from dossier.data.typed_rows import typed_rows
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class MaintenanceTask:
    """One task of the maintenance schedule; the interval is the earlier of calendar and running hours."""

    number: int
    task: str
    calendar: str
    calendar_months: float
    hours: float | None
    who: tuple[str, ...]
    tools: str
    good_reading: str
    hazard: str
    basis: str
    source: str
    applies_if: str


@dataclass(frozen=True)
class Step:
    """One action of a procedure; ``caution`` names the panel that stands before it."""

    procedure: str
    title: str
    when: str
    step: int
    action: str
    needs: str
    caution: str
    basis: str
    source: str


@dataclass(frozen=True)
class Procedure:
    """A page of steps, with the moment it is meant for."""

    id: str
    title: str
    when: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class FaultLine:
    """One line of a fault tree.

    ``part`` is ``first look``, ``question``, ``remedy`` or ``stop``; an empty answer to a question means: go
    on to the next line.
    """

    fault: int
    symptom: str
    line: int
    part: str
    text: str
    yes: str
    no: str
    needs: str
    basis: str
    source: str


@dataclass(frozen=True)
class FaultTree:
    """A symptom and the way from it to a remedy, or to the rule that says stop."""

    number: int
    symptom: str
    lines: tuple[FaultLine, ...]


@dataclass(frozen=True)
class CardStep:
    """One step of the emergency card; rows with one step number are variants, told apart by their needs."""

    card: str
    side: str
    title: str
    shows: str
    step: int
    lead: str
    text: str
    needs: str
    basis: str
    source: str


@dataclass(frozen=True)
class EmergencyCard:
    """One emergency: ``side`` is front or back of the leaf, ``shows`` how it shows itself."""

    id: str
    side: str
    title: str
    shows: str
    steps: tuple[CardStep, ...]


@dataclass(frozen=True)
class EmergencyPlace:
    """A numbered place on the plan of the emergency card."""

    number: int
    what: str
    place: str
    basis: str
    source: str


@dataclass(frozen=True)
class Caution:
    """A hazard panel: signal word, hazard, what happens, how to avoid it, and the parts that print it."""

    id: str
    signal_word: str
    hazard: str
    consequence: str
    avoidance: str
    printed_in: tuple[str, ...]
    needs: str
    basis: str
    source: str


@dataclass(frozen=True)
class Term:
    """A word of the trade for insurer and crew."""

    term: str
    meaning: str
    basis: str
    source: str


@dataclass(frozen=True)
class Spare:
    """A part to carry aboard."""

    item: str
    number: str
    size: str
    fits: str
    needs: str
    basis: str
    source: str


@dataclass(frozen=True)
class NormalReading:
    """What a reading shows when all is well, and when to stop."""

    what: str
    where: str
    cold: str
    warming_up: str
    steady: str
    stop_if: str
    needs: str
    basis: str
    source: str


@dataclass(frozen=True)
class CrewStop:
    """A rule at which the crew stops the burner."""

    rule: str
    needs: str
    basis: str
    source: str


def maintenance() -> tuple[MaintenanceTask, ...]:
    """The maintenance schedule, Task 1 to Task 36."""
    return typed_rows(MaintenanceTask, "maintenance")


@cache
def procedures() -> Mapping[str, Procedure]:
    """All procedures by name, in the order of the year and then of the work."""
    grouped = groupby(typed_rows(Step, "seasonal"), key=lambda step: (step.procedure, step.title, step.when))
    return MappingProxyType({key[0]: Procedure(*key, tuple(steps)) for key, steps in grouped})


@cache
def fault_trees() -> tuple[FaultTree, ...]:
    """The fault trees, Fault 1 to Fault 16."""
    grouped = groupby(typed_rows(FaultLine, "fault_trees"), key=lambda line: (line.fault, line.symptom))
    return tuple(FaultTree(*key, tuple(lines)) for key, lines in grouped)


@cache
def emergency_cards() -> tuple[EmergencyCard, ...]:
    """The emergencies, front of the leaf first."""
    grouped = groupby(
        typed_rows(CardStep, "emergency"), key=lambda step: (step.card, step.side, step.title, step.shows)
    )
    return tuple(EmergencyCard(*key, tuple(steps)) for key, steps in grouped)


def emergency_places() -> tuple[EmergencyPlace, ...]:
    """The numbered places on the plan of the emergency card."""
    return typed_rows(EmergencyPlace, "emergency_places")


@cache
def cautions() -> Mapping[str, Caution]:
    """All hazard panels by name."""
    return MappingProxyType({caution.id: caution for caution in typed_rows(Caution, "cautions")})


def cautions_in(part: str) -> tuple[Caution, ...]:
    """Hazard panels of one part of the dossier, strongest signal word first."""
    order = ("DANGER", "WARNING", "CAUTION", "NOTICE")
    return tuple(
        sorted(
            (caution for caution in cautions().values() if part in caution.printed_in),
            key=lambda caution: order.index(caution.signal_word),
        )
    )


def glossary() -> tuple[Term, ...]:
    """Words of the trade in alphabetical order."""
    return typed_rows(Term, "glossary")


def spares() -> tuple[Spare, ...]:
    """Parts to carry aboard."""
    return typed_rows(Spare, "spares")


def stop_rules() -> tuple[CrewStop, ...]:
    """When the burner is stopped at once, the gravest first."""
    return typed_rows(CrewStop, "stop_rules")


def normal_readings() -> tuple[NormalReading, ...]:
    """What the crew reads when all is well."""
    return typed_rows(NormalReading, "readings")
