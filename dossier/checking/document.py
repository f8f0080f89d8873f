"""Is the document whole: dangers answered, inputs measured, tests signed, revisions in order?"""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from dossier.checking.dates import DATE, SECONDS, interval_of, lies_ahead, months_after, today
from dossier.checking.deviations import shortcomings
from dossier.checking.finding import Finding, Limit, Status, judge, not_assessed
from dossier.checking.guesses import basis_of, guesses, not_from_plates
from dossier.checking.judging import at_most, for_a_burner, met, not_met, together
from dossier.checking.revisions import order_of_marks
from dossier.checking.signatures import unsigned
from dossier.checking.stated import silent, stated
from dossier.data.catalogue import Severity
from dossier.notation import Basis, NotAssessed, named_results

if TYPE_CHECKING:
    from dossier.sizing.study import Study

SERVICE = "Service the burner"
YEAR = 365.25 * SECONDS
FROM = {Basis.DRAWING: "from the drawing", Basis.PLATE: "from the plate", Basis.ASSUMED: "assumed"}
PASSAGES = {"exhaust.passes": "passages"}
SHOWN = 3
"""Guesses named in a finding."""


def danger_open(study: "Study", limit: Limit, findings: tuple[Finding, ...]) -> Finding:
    """A danger nobody looked at may be the one that counts."""
    wished = "document.status_wished"
    if stated(study.project, wished) is None:
        return not_assessed(limit, [wished], "no status is wished for")
    unknown = [f for f in findings if f.severity is Severity.DANGER and f.status is Status.NOT_ASSESSED]
    return judge(limit, float(len(unknown)), key=wished, place=", ".join(f.check for f in unknown))


def assumed(study: "Study", limit: Limit) -> Finding:
    """A result that rests on guesses is a guess."""
    most = limit.value or 0.0
    strongest = guesses(study)
    parts = not_from_plates(study)
    found = [
        (f"{guess.key} moves {guess.result}", judge(limit, guess.effect, key=guess.key, place=guess.key))
        for guess in strongest
        if float(guess.effect) > most
    ][:SHOWN]
    found += [
        (tag, not_met(limit, "not from its plate", "the plate of the part", key=f"components.{tag}"))
        for tag in parts
    ]
    if found:
        return together(limit, found, relative=True)
    if strongest:
        best = strongest[0]
        return judge(limit, best.effect, key=best.key, place=best.key)
    if isinstance(study.heat_loss, NotAssessed):
        return not_assessed(limit, study.heat_loss)
    return judge(limit, 0.0)


@for_a_burner
def exhaust_measured(study: "Study", limit: Limit) -> Finding:
    """An outlet drawn above the water may lie under it when the boat is loaded."""
    keys = ["exhaust.route", "exhaust.bore", "exhaust.passes"]
    entries = {key: stated(study.project, key) for key in keys}
    needs = [key for key, entry in entries.items() if entry is None]
    if needs:
        return not_assessed(limit, needs)
    bases = {key: basis_of(entry) for key, entry in entries.items()}
    guessed = [key for key, basis in bases.items() if basis is not None and basis is not Basis.MEASURED]
    if guessed:
        return not_met(limit, _by_basis(guessed, bases), "a measurement aboard", key=guessed[0])
    return met(limit, "route, bore and passages measured", key=keys[0])


def _by_basis(keys: Sequence[str], bases: Mapping[str, Basis | None]) -> str:
    """What rests on which basis: ``route, bore and passages from the drawing``."""
    found: dict[Basis, list[str]] = {}
    for key in keys:
        basis = bases[key]
        if basis is not None:
            found.setdefault(basis, []).append(PASSAGES.get(key, key.rpartition(".")[2]))
    return "; ".join(f"{_listed(names)} {FROM[basis]}" for basis, names in found.items())


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def commissioned(study: "Study", limit: Limit) -> Finding:
    """What was never tested is believed, not known."""
    if stated(study.project, "commissioning") is None:
        return not_assessed(limit, ["commissioning.signed"])
    lacking = unsigned(study.project)
    if lacking:
        said = ", ".join(f"Hold {number}" for number in lacking)
        return not_met(limit, f"{len(lacking)} not signed", said, key="commissioning.signed")
    return met(limit, "all hold points signed", key="commissioning.signed")


def deviations(study: "Study", limit: Limit) -> Finding:
    """A deviation without name and end is nobody's, and lasts for ever."""
    written = stated(study.project, "deviations")
    if written is None:
        return not_assessed(limit, ["deviations"])
    now = today(study.project)
    if now is None:
        return not_assessed(limit, [DATE])
    found = []
    for deviation in written:
        lacking, key = shortcomings(deviation, now), f"deviations.{deviation.check}"
        if lacking:
            found.append((deviation.check, not_met(limit, "incomplete", ", ".join(lacking), key=key)))
        else:
            found.append((deviation.check, met(limit, f"until {deviation.until}", key=key)))
    return together(limit, found, none="no deviation is written")


def tags(study: "Study", limit: Limit) -> Finding:
    """A tag that is missing or wrong sends somebody to the wrong valve."""
    key = "commissioning.tags_seen"
    seen = stated(study.project, key)
    if seen is None:
        return not_assessed(limit, [key])
    lacking = [tag for tag in study.project.components or {} if tag not in seen]
    if lacking:
        said = f"{len(lacking)} not seen"
        return not_met(limit, said, ", ".join(lacking), key=key)
    return met(limit, "every tag seen", key=key)


def revision(study: "Study", limit: Limit) -> Finding:
    """Two papers of one number with different contents are worse than none."""
    project = study.project
    keys = [
        f"document.{key}" for key in ("number", "revision", "date", "prepared_by", "approved_by", "revisions")
    ]
    needs = [key for key in keys if not stated(project, key)]
    listed = stated(project, "document.revisions") or ()
    for entry in listed:
        place = f"document.revisions.{entry.mark or 'mark'}"
        needs += [f"{place}.{key}" for key in ("mark", "date", "by", "what") if not getattr(entry, key)]
    wrong = order_of_marks(listed, stated(project, "document.revision"), stated(project, "document.date"))
    if wrong:
        return not_met(limit, wrong, "the order", key="document.revisions")
    if needs:
        return not_assessed(limit, needs)
    mark, date = (stated(project, f"document.{key}") for key in ("revision", "date"))
    return met(limit, f"revision {mark} of {date}", key="document.revision")


def local_rules(study: "Study", limit: Limit) -> Finding:
    """Flag, insurer and harbour decide over the boat, whatever any dossier says."""
    key = "document.local_rules"
    rules = stated(study.project, key)
    if rules is None:
        return not_met(limit, "nothing stated", "an entry, or none known to the author", key=key)
    if rules:
        return met(limit, f"{len(rules)} {'entry' if len(rules) == 1 else 'entries'}", key=key)
    if isinstance(rules, tuple):
        return not_met(limit, "an empty list", "an entry, or none known to the author", key=key)
    return met(limit, "none known to the author", key=key)


@for_a_burner
def service_due(study: "Study", limit: Limit) -> Finding:
    """A burner past its service soots, then smokes, then stops."""
    key = "records.service"
    services = [entry for entry in stated(study.project, key) or () if entry.date is not None]
    now = today(study.project)
    if not services or now is None:
        return not_assessed(limit, [*([] if services else [key]), *silent(study.project, [DATE])])
    last = max(services, key=lambda entry: entry.date.first)
    if lies_ahead(last.date, now):
        return not_assessed(limit, [key], "the last service is dated after the document")
    months, hours = interval_of(SERVICE)
    remark = f"interval of the maintenance schedule, {months} months; the maker's stands above it"
    place = f"{key}.{last.date}"
    if months_after(last.date.first, months) < now:
        return not_met(limit, f"last {last.date}", "the service", key=place, remark=remark)
    found = [("date", met(limit, f"last {last.date}", key=place, remark=remark))]
    running = next((r.value for r in named_results(study.season) if r.name == "season.running_hours"), None)
    if hours is not None and running is None:
        found.append(("running hours", not_assessed(limit, ["conditions.months"], "hours since the service")))
    elif hours is not None and running is not None:
        since = float(running) * (now - last.date.first).days * SECONDS / YEAR
        found.append(("running hours", at_most(limit, since, hours * 3600.0, "s", key=place, remark=remark)))
    return together(limit, found)


def residual(study: "Study", limit: Limit) -> Finding:
    """A balance that does not close is a calculation that lies."""
    most = limit.value or 0.0
    found = []
    if not isinstance(study.heat_loss, NotAssessed):
        found.append(("heat of the zones", at_most(limit, study.heat_loss.residual, most, "1")))
    if not isinstance(study.ring, NotAssessed):
        found.append(("flow", at_most(limit, study.ring.flow_residual, most, "1")))
        if study.ring.heat_residual is not None:
            found.append(("heat of the circuit", at_most(limit, study.ring.heat_residual, most, "1")))
    if not found:
        needs = study.heat_loss.needs if isinstance(study.heat_loss, NotAssessed) else ()
        return not_assessed(limit, needs or ["zones"])
    return together(limit, found)
