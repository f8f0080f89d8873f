"""Is there gas inside, what stops the burner, and can a fire be fought?

Checks of alarms stand in ``alarms`` and are given out here.
"""

import datetime as dt
from typing import TYPE_CHECKING, Annotated

from dossier.checking.aboard import burners, is_sealed
from dossier.checking.alarms import (
    co_alarm,
    co_alarm_age,
    co_alarm_berths,
    co_alarm_place,
    smoke_alarm,
)
from dossier.checking.dates import DATE, interval_of, lies_ahead, months_after, today
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import at_most, for_a_burner, joined, met, not_met, together, waits_for
from dossier.checking.signatures import is_signed, key_of
from dossier.checking.spaces import burner_place_keys, burner_spaces, lies_in, plain
from dossier.checking.stated import silent, stated
from dossier.data.assumptions import stated_or_assumed
from dossier.data.catalogue import further_limit
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.physics.boiling import atmospheric_pressure, boiling_point
from dossier.sizing.header_margins import header_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model import Extinguisher
    from dossier.sizing.study import Study

__all__ = [
    "co_alarm",
    "co_alarm_age",
    "co_alarm_berths",
    "co_alarm_place",
    "co_reading",
    "exhaust_leak",
    "extinguisher",
    "fire_port",
    "fire_stop",
    "flame_failure",
    "overheat_stat",
    "overheat_test",
    "remote_stop",
    "signs",
    "smoke_alarm",
]

SIGNS = ("stop", "fuel shut-off", "isolator", "header", "exhaust", "co alarm")
STAT_TEST = "Test the overheat stat"
GAS = q("x", "1", "carbon monoxide in air, by volume", low=0, high=1)


@formula("Δx = x_i − x_e", ARITHMETIC)
def rise_inside(
    inside: Annotated[Real, GAS], outside: Annotated[Real, GAS]
) -> Annotated[Real, q("Δx", "1", "rise over the reading outside")]:
    """Reading inside over the reading outside."""
    return inside - outside


@for_a_burner
def co_reading(study: "Study", limit: Limit) -> Finding:
    """Any gas inside in a test comes again on the night that nobody watches a meter."""
    keys = ["commissioning.co.highest_inside", "commissioning.co.outside"]
    highest, outside = (stated(study.project, key) for key in keys)
    rise = None if highest is None or outside is None else rise_inside(highest, outside)
    none = further_limit(limit.check, "rise over the outside reading").limit
    needs = silent(study.project, keys)
    found = [
        ("highest reading inside", judge(limit, highest, key=keys[0], missing=keys[:1])),
        ("rise over the outside", at_most(limit, rise, none, "1", key=keys[0], missing=needs)),
    ]
    return together(limit, found)


@for_a_burner
def exhaust_leak(study: "Study", limit: Limit) -> Finding:
    """A joint that leaks under its lagging fills the boat with gas that nobody sees."""
    found = []
    for state, hold in (("cold", 2), ("hot", 7)):
        key = f"commissioning.exhaust_leak.{state}"
        leak, signed = stated(study.project, key), is_signed(study.project, hold)
        if leak is None:
            finding = not_assessed(limit, [key])
        elif leak:
            finding = not_met(limit, str(leak), "a tight joint", key=key)
        elif signed is None:
            finding = not_assessed(limit, [key_of(hold)], "the test is not signed")
        elif signed:
            finding = met(limit, "no leak, signed", key=key)
        else:
            finding = not_met(limit, "no leak, not signed", f"the signature under Hold {hold}", key=key)
        found.append((state, finding))
    return together(limit, found)


@for_a_burner
def overheat_stat(study: "Study", limit: Limit) -> Finding:
    """When the controller fails, only a stat of its own stops the burner before the water boils."""
    boiling, remark = _boiling(study)
    found = []
    for burner in burners(study.project):
        key = f"components.{burner.tag}.overheat_stat"
        if burner.overheat_stat is None:
            finding = not_assessed(limit, [key])
        elif boiling is None:
            finding = waits_for(limit, study.expansion, "layout.highest_wetted", "layout.places")
        else:
            stat = burner.overheat_stat
            finding = at_most(limit, stat, float(boiling), "K", key=key, remark=remark)
        found.append((burner.tag, finding))
    return together(limit, found) if found else not_assessed(limit, limit.row.inputs)


def _boiling(study: "Study") -> tuple[Real | None, str]:
    """Boiling point at the highest point: as calculated, else under the pressure of the air alone.

    The latter holds for an open ring whose header is its highest point: everywhere else the pressure of the
    still coolant is higher.
    """
    if not isinstance(study.expansion, NotAssessed) and study.expansion.boiling_point is not None:
        return study.expansion.boiling_point, ""
    margins, mix = study.header_margins, study.coolant
    if isinstance(margins, NotAssessed) or isinstance(mix, NotAssessed) or is_sealed(study.project):
        return None, ""
    if float(margins.upright.margin) < 0:
        return None, ""
    altitude = stated_or_assumed(stated(study.project, "conditions.altitude"), "conditions.altitude")
    return boiling_point(
        mix.fluid, atmospheric_pressure(altitude)
    ), "boiling under the pressure of the air alone"


@for_a_burner
def overheat_test(study: "Study", limit: Limit) -> Finding:
    """A stat that was never seen to trip may be stuck."""
    key = "commissioning.overheat"
    trips, by_hand = (stated(study.project, f"{key}.{name}") for name in ("trips_at", "hand_reset"))
    if by_hand is False:
        return not_met(limit, "resets by itself", "a reset by hand", key=f"{key}.hand_reset")
    tested, now = stated(study.project, "commissioning.date"), today(study.project)
    needs = silent(study.project, [f"{key}.trips_at", f"{key}.hand_reset", "commissioning.date", DATE])
    if trips is None or by_hand is None or tested is None or now is None:
        return not_assessed(limit, needs)
    last = max([tested.first, *_later_tests(study.project, now)])
    due = months_after(last, interval_of(STAT_TEST)[0])
    set_at = max(
        (b.overheat_stat for b in burners(study.project) if b.overheat_stat is not None), default=None
    )
    late = "" if set_at is None or trips <= set_at else "it tripped above its setting"
    if due < now:
        return not_met(limit, f"tested {last}", "the yearly test", key="commissioning.date", remark=late)
    return met(limit, f"tripped, reset by hand, {last}", key=key, remark=late)


def _later_tests(project: "Project", now: dt.date) -> list[dt.date]:
    """Dates of services that name the stat."""
    return [
        entry.date.first
        for entry in stated(project, "records.service") or ()
        if entry.date is not None
        and not lies_ahead(entry.date, now)
        and "stat" in plain(entry.what or "").split()
    ]


@for_a_burner
def flame_failure(study: "Study", limit: Limit) -> Finding:
    """Fuel that goes on flowing after the flame is out lights all at once, or runs into the boat."""
    found = []
    for burner in burners(study.project):
        key = f"components.{burner.tag}.flame_sensor"
        if burner.flame_sensor is None:
            finding = not_assessed(limit, [key])
        elif burner.flame_sensor:
            finding = met(limit, "automatic cut-off", key=key)
        else:
            finding = not_met(limit, "no cut-off", "the cut-off", key=key)
        found.append((burner.tag, finding))
    return together(limit, found) if found else not_assessed(limit, limit.row.inputs)


@for_a_burner
def remote_stop(study: "Study", limit: Limit) -> Finding:
    """Nobody can reach a switch that lies behind the fire."""
    stop = stated(study.project, "safety.stop")
    if stop is None:
        return not_assessed(limit, ["safety.stop"])
    if not stop:
        return not_met(limit, "none", "the stop switch", key="safety.stop")
    if stop.reach is None:
        return not_assessed(limit, ["safety.stop.reach"])
    said = joined(f"{stop.at or 'stop switch'}, {stop.reach}")
    if stop.reach == "inside":
        return not_met(limit, said, "a stop outside the burner space", key="safety.stop.reach")
    return met(limit, said, key="safety.stop")


@for_a_burner
def extinguisher(study: "Study", limit: Limit) -> Finding:
    """An extinguisher behind the fire, or out of reach, is none."""
    key = "safety.extinguishers"
    listed = stated(study.project, key)
    if listed is None:
        return not_assessed(limit, [key])
    now, spaces = today(study.project), burner_spaces(study)
    in_date = [e for e in listed if e.replace_by is None or now is None or lies_ahead(e.replace_by, now)]
    outside = [e for e in in_date if not _is_behind_the_fire(e, spaces)]
    if not outside:
        said = "none in date" if listed and not in_date else "none outside the burner space"
        return not_met(limit, said if listed else "none", "an extinguisher", key=key)
    if not spaces:
        return not_assessed(limit, burner_place_keys(study.project), "in which space the burner stands")
    near = [e for e in outside if e.from_entry is not None]
    nearest = min(near, key=lambda e: e.from_entry or 0.0, default=None)
    unknown = [f"{key}.{e.at or 'at'}.from_entry" for e in outside if e.from_entry is None]
    found = judge(limit, nearest.from_entry, key=key, place=nearest.at or "") if nearest is not None else None
    if found is None or (unknown and float(found.margin or 0.0) < 0):
        return not_assessed(limit, unknown)
    return found


def _is_behind_the_fire(one: "Extinguisher", spaces: tuple[str, ...]) -> bool:
    """Whether an extinguisher hangs in a burner's space, as far as its words tell."""
    return one.at is not None and any(lies_in(one.at, space) is True for space in spaces)


@for_a_burner
def fire_port(study: "Study", limit: Limit) -> Finding:
    """Lifting the lid to fight a fire gives it the air it waits for."""
    keys = ["safety.fire_port", "safety.fixed_system"]
    port, fixed = (stated(study.project, key) for key in keys)
    if port:
        return met(limit, joined(f"port {port.at}" if port.at else "port"), key=keys[0])
    if fixed:
        return met(limit, "fixed system", key=keys[1])
    if port is None or fixed is None:
        return not_assessed(limit, silent(study.project, keys))
    return not_met(limit, "none", "the port", key=keys[0])


@for_a_burner
def signs(study: "Study", limit: Limit) -> Finding:
    """In an emergency a stranger must find what the owner finds blindfold."""
    key = "safety.signs"
    fitted = stated(study.project, key)
    if fitted is None:
        return not_assessed(limit, [key])
    wanted = [sign for sign in SIGNS if sign != "header" or header_of(study.project) is not None]
    told = [plain(sign) for sign in fitted]
    lacking = [sign for sign in wanted if plain(sign) not in told]
    if lacking:
        return not_met(limit, ", ".join(fitted) or "none", ", ".join(lacking), key=key)
    return met(limit, ", ".join(wanted), key=key)


@for_a_burner
def fire_stop(study: "Study", limit: Limit) -> Finding:
    """A burner that goes on running blows the extinguishing gas overboard."""
    key = "safety.fixed_system"
    fixed = stated(study.project, key)
    if fixed is None:
        return not_assessed(limit, [key])
    if not fixed:
        return not_applicable(limit, "no fixed extinguishing system is aboard")
    if fixed.stops_burner is None:
        return not_assessed(limit, [f"{key}.stops_burner"])
    if fixed.stops_burner:
        return met(limit, "the release stops the burner", key=key)
    return not_met(limit, "the burner runs on", "a stop by the release", key=key)
