"""What else could be done? Every alternative of the file assessed in full, and set beside the project.

found = alternatives(assess(load("boat.yaml")))
found.recommended, found.reason
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Annotated, Any

from dossier.assessment import Assessment, assess
from dossier.assessment import as_plain as assessed_plain
from dossier.checking.finding import Status
from dossier.data.catalogue import Severity
from dossier.notation import (
    DossierError,
    NotAssessed,
    Real,
    Result,
    named_results,
    q,
    quantities,
    slug,
)
from dossier.notation.records import dataclass
from dossier.sizing.mass_added import mass_added
from dossier.sizing.modes import DESIGN

QUESTION = "What else could be done?"
BASE = ""
"""Name under which the project as it stands is compared."""
SAME = 1e-3
"""Share by which two numbers may differ and count as the same: solvers leave less, pages print no more."""
RESERVE = "heat.source_reserve"


@dataclass(frozen=True)
class Counts:
    """Checks not met by grade, and dangers that nobody looked at; accepted deviations do not count."""

    dangers: int
    dangers_not_assessed: int
    faults: int
    attentions: int

    @property
    def order(self) -> tuple[int, ...]:
        """The fewer the better, dangers first."""
        return self.dangers, self.dangers_not_assessed, self.faults, self.attentions

    def __str__(self) -> str:
        dangers, faults = _number(self.dangers, "danger"), _number(self.faults, "fault")
        return f"{dangers}, {faults} and {_number(self.attentions, 'attention')} not met"


@dataclass(frozen=True)
class Alternative:
    """One alternative, or the project as it stands, with what the table shows of it.

    ``fault`` says why it could not be calculated; all else is then empty. ``added``, ``changed`` and
    ``left_out`` are components against those of the project. ``cleared`` are checks met here and not met
    there, ``broken`` checks not met here alone. ``differs`` names the fields that differ from the project's.
    """

    name: str
    note: str
    assessment: Assessment | None
    fault: str = ""
    load: Annotated[Real | None, q("Φ_HL", "W", "design load")] = None
    reserve: Annotated[Real | None, q("r", "1", "source output over what it must cover")] = None
    zone_margin: Annotated[Real | None, q("ΔΦ", "W", "least emitter output less the zone's load")] = None
    starts_per_hour: Annotated[Real | None, q("n", "1/h", "starts at the worst load")] = None
    running_time: Annotated[Real | None, q("t_on", "s", "shortest burner run")] = None
    fuel_per_day: Annotated[Real | None, q("V", "m3", "fuel on the design day")] = None
    fuel_per_year: Annotated[Real | None, q("V", "m3", "fuel of the year")] = None
    charge_per_day: Annotated[Real | None, q("Q", "C", "charge on the design day")] = None
    mass: Annotated[Real | None, q("m", "kg", "whole system, filled")] = None
    mass_added: Annotated[Real | None, q("Δm", "kg", "mass more than as it stands, filled")] = None
    counts: Counts | None = None
    added: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    cleared: tuple[str, ...] = ()
    broken: tuple[str, ...] = ()
    differs: frozenset[str] = frozenset()

    def result_name(self, name: str) -> str:
        """Name under which a result of it stands among those of the project."""
        return f"alternative.{slug(self.name)}.{name}" if self.name else name

    @property
    def order(self) -> tuple[float, ...]:
        """The fewer the better: checks not met by grade, then parts to add, then mass."""
        if self.counts is None:
            return (float("inf"),)
        known = [float(mass) for mass in (self.mass, self.mass_added) if mass is not None]
        return (*self.counts.order, len(self.added) + len(self.changed), [*known, float("inf")][0])


@dataclass(frozen=True)
class Alternatives:
    """The project and its alternatives, with a recommendation that can be argued with.

    ``recommended`` is empty where nothing is better than the project as it stands.
    """

    base: Alternative
    others: tuple[Alternative, ...]
    recommended: str
    reason: str

    @property
    def rows(self) -> tuple[Alternative, ...]:
        """All of them, the project as it stands first."""
        return (self.base, *self.others)

    @cached_property
    def results(self) -> Mapping[str, Result]:
        """Results of all alternatives as ``alternative.NAME.RESULT``."""
        return {
            (named := other.result_name(name)): replace(result, name=named)
            for other in self.others
            for name, result in (other.assessment.results if other.assessment else {}).items()
        }


def alternatives(assessment: Assessment) -> Alternatives | NotAssessed:
    """Assess every alternative of a project in full and set them beside it."""
    project = assessment.project
    written = project.alternatives or {}
    if not written:
        return NotAssessed(QUESTION, ("alternatives",))
    base = replace(_figures(BASE, "as it stands", assessment), mass_added=0.0)
    others = []
    for name, said in written.items():
        note = said.note or ""
        try:
            found = assess(project.alternative(name))
        except DossierError as fault:
            others.append(Alternative(name, note, None, fault=str(fault)))
            continue
        heavier = mass_added(assessment.study, found.study)
        others.append(_beside(base, replace(_figures(name, note, found), mass_added=heavier)))
    return Alternatives(base, tuple(others), *_recommended(base, others))


def whole_plain(assessment: Assessment) -> dict[str, Any]:
    """The assessment as plain data, with its alternatives: their results among its own, and their table."""
    plain, found = assessed_plain(assessment), alternatives(assessment)
    plain["alternatives"] = None
    if not isinstance(found, NotAssessed):
        plain["alternatives"] = as_plain(found)
        plain["results"].update(plain["alternatives"].pop("results"))
    return plain


def as_plain(found: Alternatives) -> dict[str, Any]:
    """The table and all results of the alternatives as plain data: SI numbers, nothing rounded.

    ``results`` has the form and the names that the assessment's own results have.
    """
    results = {}
    for other in found.others:
        for name, result in (other.assessment.results if other.assessment else {}).items():
            results[other.result_name(name)] = {
                "value": float(result.value),
                "unit": result.quantity.unit,
                "label": result.quantity.label,
                "basis": str(other.assessment.basis(name)) if other.assessment else "",
            }
    return {
        "results": results,
        "table": [_plain_row(row) for row in found.rows],
        "recommended": found.recommended or None,
        "reason": found.reason,
    }


def _plain_row(row: Alternative) -> dict[str, Any]:
    counts = row.counts
    return {
        "name": row.name or None,
        "note": row.note,
        "fault": row.fault or None,
        **{name: None if (v := getattr(row, name)) is None else float(v) for name in quantities(Alternative)},
        "not_met": counts
        and {"danger": counts.dangers, "fault": counts.faults, "attention": counts.attentions},
        "dangers_not_assessed": counts and counts.dangers_not_assessed,
        **{name: list(getattr(row, name)) for name in ("added", "changed", "left_out", "cleared", "broken")},
        "differs": sorted(row.differs),
    }


def _figures(name: str, note: str, assessment: Assessment) -> Alternative:
    """What the table shows of one assessment."""
    results = {result.name: result.value for result in named_results(assessment.study)}
    value = results.get
    margins = [found for key, found in results.items() if key.startswith(f"zone_margin.{DESIGN}.")]
    reserve = next((f.found for f in assessment.findings if f.check == RESERVE), None)
    return Alternative(
        name,
        note,
        assessment,
        load=value("heat_loss.total"),
        reserve=None if isinstance(reserve, str) else reserve,
        zone_margin=min(margins, key=float, default=None),
        starts_per_hour=value("store.starts_per_hour"),
        running_time=value("store.running_time"),
        fuel_per_day=value("fuel.per_day"),
        fuel_per_year=value("season.fuel"),
        charge_per_day=value("electrics.per_day"),
        mass=value("mass.filled"),
        counts=_counted(assessment),
    )


def _counted(assessment: Assessment) -> Counts:
    """Findings by grade and result."""

    def how_many(severity: Severity, status: Status) -> int:
        return sum(f.severity is severity and f.status is status for f in assessment.findings)

    return Counts(
        how_many(Severity.DANGER, Status.NOT_MET),
        how_many(Severity.DANGER, Status.NOT_ASSESSED),
        how_many(Severity.FAULT, Status.NOT_MET),
        how_many(Severity.ATTENTION, Status.NOT_MET),
    )


def _beside(base: Alternative, other: Alternative) -> Alternative:
    """An alternative with what differs from the project as it stands."""
    before, after = _components(base), _components(other)
    was, now = _statuses(base), _statuses(other)
    return replace(
        other,
        added=tuple(_words(tag, *part) for tag, part in after.items() if tag not in before),
        changed=tuple(
            _changed(tag, before[tag], part)
            for tag, part in after.items()
            if tag in before and part != before[tag]
        ),
        left_out=tuple(_words(tag, *part) for tag, part in before.items() if tag not in after),
        cleared=tuple(k for k, s in now.items() if s is Status.MET and was.get(k) is Status.NOT_MET),
        broken=tuple(k for k, s in now.items() if s is Status.NOT_MET and was.get(k) is not Status.NOT_MET),
        differs=frozenset(
            name
            for name in (*quantities(Alternative), "counts")
            if not _same(getattr(base, name) or 0.0, getattr(other, name) or 0.0)
        ),
    )


def _components(row: Alternative) -> dict[str, tuple[str, str]]:
    """Components by their tag: kind and rating."""
    listed = row.assessment.study.parts.in_group("components") if row.assessment else ()
    return {part.tag: (part.item, part.size) for part in listed}


def _words(*words: str) -> str:
    return " ".join(word for word in words if word)


def _changed(tag: str, before: tuple[str, str], after: tuple[str, str]) -> str:
    """A component that is another, or of another rating."""
    was = before[1] if before[0] == after[0] and before[1] else _words(*before)
    return f"{_words(tag, *after)}, was {was}"


def _statuses(row: Alternative) -> dict[str, Status]:
    return {finding.check: finding.status for finding in row.assessment.findings} if row.assessment else {}


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= SAME * max(abs(one), abs(other))
    return bool(one == other)


def _recommended(base: Alternative, others: Sequence[Alternative]) -> tuple[str, str]:
    """The best of all, and why: fewest dangers, then faults, then attentions, parts to buy, mass."""
    best = min((base, *others), key=lambda row: row.order)
    if best is base:
        nearest = min(others, key=lambda row: row.order)
        against = f"; {nearest.name} has {nearest.counts}" if nearest.counts else ""
        return BASE, f"nothing is better than the project as it stands, with {base.counts}{against}"
    reason = f"{best.name} has {best.counts}, against {base.counts} as it stands"
    if best.cleared:
        reason += f"; it clears {', '.join(best.cleared)}"
    if best.broken:
        reason += f"; it misses, where the project as it stands does not, {', '.join(best.broken)}"
    tied = [row.name for row in others if row is not best and row.counts == best.counts]
    if tied:
        reason += f"; {', '.join(tied)} has as few, with more parts or more mass"
    return best.name, reason


def _number(count: int, what: str) -> str:
    return f"{count or 'no'} {what}{'' if count == 1 else 's'}"
