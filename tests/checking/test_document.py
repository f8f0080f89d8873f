"""The papers: dangers answered, guesses, measurements, signatures, deviations, revisions, status.

All limits are rules of this dossier, but for the fields of a revision (ISO 7200:2004, table seen) and the
interval of service (maker's instructions; twelve months and 1,000 h by the maintenance schedule).
"""

import sys
from dataclasses import dataclass, replace
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import SimpleNamespace
from typing import Annotated

import pytest

from dossier.checking.deviations import apply_deviations
from dossier.checking.document_status import document_status
from dossier.checking.finding import Finding, Status, judge, not_applicable, not_assessed, present
from dossier.checking.guesses import guesses, is_input
from dossier.checking.limits import of_catalogue
from dossier.checking.revisions import rank
from dossier.checking.run import limit_of, written_checks
from dossier.data.assumptions import assumed
from dossier.data.catalogue import Severity, catalogue
from dossier.notation import NotAssessed, Real, named_results, origin_of, q


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("whole_boat")
finding = boat.finding
FIRST, SECOND = "document.revisions.0", "document.revisions.1"
DEVIATION = "deviations.0"
SERVICE = "records.service"
DANGERS = [name for name, row in catalogue().items() if row.severity is Severity.DANGER]


@dataclass(frozen=True)
class Year:
    """A year in which the burner runs a while."""

    running: Annotated[Real, q("t", "s", "of the burner in the year", name="season.running_hours")]


def limit(check):
    return of_catalogue(catalogue()[check])


def met(check):
    return present(limit(check), fulfilled=True)


def danger(check, status):
    """Finding of a check with a status, all other findings of danger met."""
    found = {name: met(name) for name in DANGERS}
    found |= {name: met(name) for name in ("document.exhaust_measured", "document.commissioned")}
    found[check] = replace(found.get(check, met(check)), status=status)
    return found


@pytest.mark.parametrize(
    ("check", "changes", "status"),
    [
        ("assumed", {"components.P1.basis": "drawing"}, "not met"),
        ("assumed", {"components.B1.basis": "measured"}, "met"),
        # half the shell's U-value unknown moves the load by more than a tenth
        (
            "assumed",
            {"zones.0.sections.0.u_value": {"is": "1.5 W/m2K", "basis": "assumed", "spread": "50 %"}},
            "not met",
        ),
        (
            "assumed",
            {"zones.0.sections.0.u_value": {"is": "1.5 W/m2K", "basis": "assumed", "spread": "5 %"}},
            "met",
        ),
        ("exhaust_measured", {"exhaust.bore": {"is": "30 mm", "basis": "drawing"}}, "not met"),
        ("exhaust_measured", {"exhaust.basis": "drawing"}, "not met"),
        ("exhaust_measured", {"exhaust.basis": "measured"}, "met"),
        ("commissioned", {}, "met"),
        ("commissioned", {"commissioning.signed.H3": "no"}, "not met"),
        ("commissioned", {"commissioning.signed": None}, "not met"),
        ("deviations", {f"{DEVIATION}.reason": None}, "not met"),
        ("deviations", {f"{DEVIATION}.until": "2026-11-19"}, "not met"),
        ("deviations", {f"{DEVIATION}.until": "2026-11-20"}, "met"),
        ("deviations", {f"{DEVIATION}.date": "2026-11-21"}, "not met"),
        ("deviations", {f"{DEVIATION}.with": None}, "met"),  # a second name is asked for a danger only
        ("deviations", {f"{DEVIATION}.check": "clearance.fuel"}, "met"),
        ("deviations", {f"{DEVIATION}.check": "clearance.fuel", f"{DEVIATION}.with": None}, "not met"),
        ("deviations", {f"{DEVIATION}.check": "clearance.fuel", f"{DEVIATION}.with": "the owner"}, "not met"),
        ("deviations", {"deviations": []}, "not applicable"),
        ("tags", {}, "met"),
        ("revision", {}, "met"),
        ("tags", {"commissioning.tags_seen": ["B1", "P1"]}, "not met"),
        ("revision", {f"{FIRST}.mark": "C"}, "not met"),
        ("revision", {f"{FIRST}.date": "2026-12-01"}, "not met"),
        ("revision", {"document.revision": "C"}, "not met"),
        ("revision", {"document.date": "2026-11-21"}, "not met"),
        ("local_rules", {"document.local_rules": "none"}, "met"),
        ("local_rules", {"document.local_rules": []}, "not met"),
        ("local_rules", {"document.local_rules": None}, "not met"),
        ("service_due", {SERVICE: [{"date": "2025-11-19", "by": "The yard"}]}, "not met"),
    ],
)
def test_the_papers_are_in_order(check, changes, status):
    assert finding(f"document.{check}", changes).status.value == status


@pytest.mark.parametrize(
    ("check", "changes", "missing"),
    [
        (
            "assumed",
            {
                "zones": None,
                **dict.fromkeys(
                    ("circuit", "components", "fuel", "layout", "electrics", "safety", "commissioning")
                ),
            },
            ["zones", "zones.target"],
        ),
        ("exhaust_measured", {"exhaust.passes": None}, ["exhaust.passes"]),
        (
            "exhaust_measured",
            {"exhaust": {"length": "2 m"}},
            ["exhaust.route", "exhaust.bore", "exhaust.passes"],
        ),
        ("commissioned", {"commissioning": None}, ["commissioning.signed"]),
        ("deviations", {"deviations": None}, ["deviations"]),
        ("deviations", {"document.date": None}, ["document.date"]),
        ("tags", {"commissioning.tags_seen": None}, ["commissioning.tags_seen"]),
        ("revision", {"document.approved_by": ""}, ["document.approved_by"]),
        ("revision", {"document.prepared_by": None}, ["document.prepared_by"]),
        ("revision", {f"{SECOND}.what": None}, ["document.revisions.B.what"]),
        ("service_due", {"records": None}, ["records.service"]),
        ("service_due", {SERVICE: [{"date": "2026-12-01"}]}, ["records.service"]),  # dated after the document
        ("service_due", {}, ["conditions.months"]),
    ],
)
def test_silence_is_not_assessed_and_names_the_key(check, changes, missing):
    found = finding(f"document.{check}", changes)
    assert found.status.value == "not assessed"
    assert [key for key in found.missing if key in missing] == missing[: len(found.missing)]


def test_dangers_nobody_looked_at_are_counted():
    study = boat.study_of()
    check, own = written_checks()["document.danger_open"], limit_of(study, "document.danger_open")
    unknown = not_assessed(limit("fuel.shut_off"), ["fuel.shut_off"])
    assert check(study, own, (met("fuel.shut_off"), met("safety.signs"))).status is Status.MET
    found = check(study, own, (unknown, met("safety.remote_stop")))
    assert (found.status, found.found, found.place) == (Status.NOT_MET, 1.0, "fuel.shut_off")
    lesser = not_assessed(limit("safety.signs"), ["safety.signs"])
    assert check(study, own, (lesser,)).status is Status.MET
    nothing_wished = boat.study_of({"document.status_wished": None})
    assert check(nothing_wished, own, (unknown,)).missing == ("document.status_wished",)


def test_a_guess_is_known_by_what_it_moves():
    spread = {"is": "1.5 W/m2K", "basis": "assumed", "spread": "20 %"}
    study = boat.study_of({"zones.0.sections.0.u_value": spread})
    strongest = guesses(study)[0]
    assert (strongest.key, strongest.result) == ("zones.saloon.sections.Shell.u_value", "heat_loss.total")
    # the shell's 45 W/K of all that leaves the saloon at 28 K; air 0.34 · 20 W/K, bulkhead to 3 °C or so
    load = float(study.heat_loss.total)
    assert strongest.effect == pytest.approx(0.2 * 45 * 28 / load, rel=1e-6)


def test_a_convention_that_no_key_can_replace_is_no_guess():
    study = boat.study_of()
    film = origin_of(assumed("conditions.sea_film", "conditions.sea"))  # the film of a sea that is stated
    changes = origin_of(assumed("zones.air_changes", "zones.attic.air_changes"))
    assert not is_input(study.project, film)
    assert is_input(study.project, changes)


@pytest.mark.parametrize(("hours", "status"), [(4500.0, "met"), (4700.0, "not met")])
def test_service_falls_due_by_running_hours_too(hours, status):
    """1,000 h by the maintenance schedule; 80 days of a year's running since the first of September."""
    assert hours * 80 / 365.25 == pytest.approx(1000, rel=0.05)
    found = finding("document.service_due", season=Year(hours * 3600.0))
    assert found.status.value == status


@pytest.mark.parametrize(("left", "status"), [(0.0009, "met"), (0.0011, "not met")])
def test_balances_close_to_a_thousandth(left, status):
    ring = SimpleNamespace(flow_residual=1e-9, heat_residual=left)
    assert finding("document.residual", ring=ring).status.value == status
    flow = SimpleNamespace(flow_residual=left, heat_residual=None)
    assert finding("document.residual", ring=flow).status.value == status


def test_balances_that_were_not_struck_are_not_assessed():
    found = finding("document.residual", heat_loss=NotAssessed("", ("zones",)))
    assert (found.status.value, found.missing) == ("not assessed", ("zones",))


def test_marks_are_counted_as_people_count_them():
    assert sorted(["AB", "Z", "A", "10", "9"], key=rank) == ["9", "10", "A", "Z", "AB"]


def accepted(changes, *findings):
    return apply_deviations(boat.project_of(changes), findings)


def test_a_whole_deviation_is_accepted_and_never_met():
    missed = judge(limit("clearance.service"), 0.06)
    (found,) = accepted({}, missed)
    assert found.status is Status.ACCEPTED
    assert (found.found, found.margin) == (0.06, missed.margin)
    assert "The owner with The surveyor until 2031-11-05; instead: slides out on a tray" in found.remark


def test_what_somebody_wrote_down_outweighs_a_drawing_that_meets_the_check():
    (found,) = accepted({}, judge(limit("clearance.service"), 0.2))
    assert (found.status, found.found) == (Status.ACCEPTED, "60 mm")


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({f"{DEVIATION}.instead": None}, "no what is done instead"),
        ({f"{DEVIATION}.until": "2026-10"}, "expired 2026-10"),
        ({"document.date": None}, "no document.date"),
    ],
)
def test_an_incomplete_deviation_changes_nothing_but_says_so(changes, why):
    (found,) = accepted(changes, judge(limit("clearance.service"), 0.06))
    assert found.status is Status.NOT_MET
    assert why in found.remark


def test_of_several_deviations_a_whole_one_counts():
    whole = boat.changed(boat.CUTTER, {})["deviations"][0]
    lapsed = {**whole, "until": "2026-01-01"}
    for both in ([whole, lapsed], [lapsed, whole]):
        (found,) = accepted({"deviations": both}, judge(limit("clearance.service"), 0.06))
        assert found.status is Status.ACCEPTED


def test_an_unknown_cannot_be_accepted():
    unknown = not_assessed(limit("clearance.service"), ["layout.places"])
    aside = not_applicable(limit("clearance.service"), "nothing to serve")
    assert [f.status for f in accepted({}, unknown, aside)] == [Status.NOT_ASSESSED, Status.NOT_APPLICABLE]


def test_a_danger_is_accepted_by_two_names_only():
    missed = judge(limit("clearance.fuel"), 0.1)
    changes = {f"{DEVIATION}.check": "clearance.fuel"}
    assert accepted(changes, missed)[0].status is Status.ACCEPTED
    assert accepted({**changes, f"{DEVIATION}.with": "The owner"}, missed)[0].status is Status.NOT_MET
    assert accepted({**changes, f"{DEVIATION}.with": None}, missed)[0].status is Status.NOT_MET


@pytest.mark.parametrize(
    ("check", "status", "missing", "allowed"),
    [
        ("fuel.shut_off", Status.MET, (), "as built"),
        ("fuel.shut_off", Status.NOT_MET, (), "draft"),
        ("fuel.shut_off", Status.ACCEPTED, (), "as built"),
        ("fuel.shut_off", Status.NOT_ASSESSED, ("fuel.shut_off",), "draft"),
        ("safety.co_reading", Status.NOT_ASSESSED, ("commissioning.co.outside",), "for construction"),
        ("safety.co_reading", Status.NOT_ASSESSED, ("commissioning.co.outside", "document.date"), "draft"),
        ("document.exhaust_measured", Status.NOT_MET, (), "for construction"),
        ("document.exhaust_measured", Status.NOT_APPLICABLE, (), "as built"),
        ("safety.signs", Status.NOT_MET, (), "as built"),
        ("safety.signs", Status.NOT_ASSESSED, ("safety.signs",), "as built"),
    ],
)
def test_the_status_is_what_the_data_allow(check, status, missing, allowed):
    found = danger(check, status)
    found[check] = replace(found[check], missing=missing)
    assert document_status(boat.project_of(), found.values()).allowed == allowed


def test_as_built_asks_for_every_signature():
    unsigned = {"commissioning.signed.H8": None}
    status = document_status(boat.project_of(unsigned), danger("fuel.lift", Status.MET).values())
    assert (status.status, status.wished, status.tests_open) == ("for construction", "as built", 1)
    assert [(reason.check, reason.why) for reason in status.refused] == [
        ("document.commissioned", "not signed: Hold 8")
    ]


@pytest.mark.parametrize(
    ("wished", "printed"),
    [
        ("draft", "draft"),
        ("for construction", "for construction"),
        ("as built", "as built"),
        ("superseded", "superseded"),
        (None, "as built"),
    ],
)
def test_what_is_wished_is_printed_but_never_more_than_allowed(wished, printed):
    project = boat.project_of({"document.status_wished": wished})
    status = document_status(project, danger("fuel.lift", Status.MET).values())
    assert (status.status, status.refused) == (printed, ())


def test_a_refusal_names_every_check_that_stands_against_it():
    found = danger("fuel.shut_off", Status.NOT_MET)
    found["safety.co_reading"] = Finding(
        limit("safety.co_reading"), Status.NOT_ASSESSED, missing=("commissioning.co",)
    )
    status = document_status(boat.project_of(), found.values())
    assert [(reason.against, reason.check) for reason in status.refused] == [
        ("for construction", "fuel.shut_off"),
        ("as built", "safety.co_reading"),
    ]
    results = {result.name: result.value for result in named_results(status)}
    assert results == {"document.dangers_not_assessed": 1, "document.tests_open": 0}
    only_construction = boat.project_of({"document.status_wished": "for construction"})
    refused = document_status(only_construction, found.values()).refused
    assert [reason.check for reason in refused] == ["fuel.shut_off"]


def test_a_status_without_the_check_of_the_exhaust_is_never_as_built():
    found = danger("fuel.lift", Status.MET)
    del found["document.exhaust_measured"]
    assert document_status(boat.project_of(), found.values()).allowed == "for construction"
