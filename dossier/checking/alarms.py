"""Would an alarm wake the crew: carbon monoxide and smoke, where people are and where they sleep?"""

import datetime as dt
from typing import TYPE_CHECKING, Any

from dossier.checking.dates import DATE, age, lies_ahead, today
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import at_most, for_a_burner, joined, met, not_met, together
from dossier.checking.spaces import burner_spaces, plain
from dossier.checking.stated import stated
from dossier.data.catalogue import further_limit

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model import CoAlarm, Zone
    from dossier.sizing.study import Study

FOR_BOATS = ("en 50291 2", "ul 2034")
"""Standards of alarms for boats, in plain words."""
NO_ALARM = "no alarm is aboard, which is told under another check"
ALARMS = "safety.co_alarms"
SMOKE = "safety.smoke_alarms"


def _alarms(project: "Project") -> "tuple[CoAlarm, ...] | None":
    found = stated(project, ALARMS)
    return None if found is None else tuple(found)


def _is_in(at: str | None, place: str) -> bool:
    return at is not None and plain(at) == plain(place)


def _fault_of(alarm: "CoAlarm", now: dt.date | None) -> str:
    """Why an alarm does not count, empty where it does."""
    if alarm.standard and not any(name in plain(alarm.standard) for name in FOR_BOATS):
        return f"marked {alarm.standard} only"
    if now is not None and alarm.replace_by is not None and not lies_ahead(alarm.replace_by, now):
        return f"past its date {alarm.replace_by}"
    return ""


def _is_next_to(zone: "Zone", others: "tuple[Zone, ...]", spaces: tuple[str, ...]) -> bool:
    """Whether a zone is one of some spaces, or shares a wall with one."""

    def faced(of: "Zone") -> set[str]:
        found: list[Any] = [section.faces for section in of.sections or ()]
        return {plain(faces.zone) for faces in found if not isinstance(faces, str) and faces.zone}

    named = {plain(space) for space in spaces}
    across = any(plain(other.id) in named and plain(zone.id) in faced(other) for other in others)
    return plain(zone.id) in named or bool(faced(zone) & named) or across


def living_spaces(study: "Study") -> tuple[str, ...]:
    """Heated zones in which an alarm guards those awake: the saloon, and what lies next to the burner.

    Where the file has neither, the largest heated zone.
    """
    zones = tuple(study.project.zones or ())
    heated = [zone for zone in zones if zone.target is not None]
    spaces = burner_spaces(study)
    found = [z.id for z in heated if "saloon" in plain(z.id) or _is_next_to(z, zones, spaces)]
    if not found and heated:
        found = [max(heated, key=lambda zone: zone.volume or 0.0).id]
    return tuple(found)


def _counting(study: "Study", limit: Limit, places: tuple[str, ...], lacking: str) -> Finding:
    """An alarm that counts in one of some places."""
    alarms, now = _alarms(study.project) or (), today(study.project)
    there = [alarm for alarm in alarms if any(_is_in(alarm.at, place) for place in places)]
    good = [alarm for alarm in there if not _fault_of(alarm, now)]
    if good:
        unmarked = "" if good[0].standard else "its standard is not stated: look for EN 50291-2 on it"
        return met(limit, f"alarm in {good[0].at}", key=f"{ALARMS}.{good[0].at}", remark=unmarked)
    if there:
        said = f"alarm in {there[0].at} {_fault_of(there[0], now)}"
        return not_met(limit, said, lacking, key=f"{ALARMS}.{there[0].at}")
    if any(alarm.at is None for alarm in alarms):
        return not_assessed(limit, [f"{ALARMS}.at"])
    elsewhere = ", ".join(alarm.at for alarm in alarms if alarm.at is not None)
    return not_met(limit, f"only in {elsewhere}" if elsewhere else "none", lacking, key=ALARMS)


@for_a_burner
def co_alarm(study: "Study", limit: Limit) -> Finding:
    """Nobody smells carbon monoxide; without an alarm the first sign is somebody who does not wake up."""
    alarms = _alarms(study.project)
    if alarms is None:
        return not_assessed(limit, [ALARMS])
    places = living_spaces(study)
    if not places and alarms:
        return not_assessed(limit, ["zones.target"], "which spaces are lived in")
    return _counting(study, limit, places, f"an alarm in {' or '.join(places) or 'the saloon'}")


@for_a_burner
def co_alarm_berths(study: "Study", limit: Limit) -> Finding:
    """A door shut for the night keeps the sound of a far alarm out, and lets the gas in."""
    zones = study.project.zones or ()
    sleeping = [zone for zone in zones if zone.berths]
    if not sleeping:
        silent = [f"zones.{zone.id}.berths" for zone in zones if zone.berths is None]
        if silent or not zones:
            return not_assessed(limit, silent or ["zones.berths"])
        return not_applicable(limit, "no zone has berths")
    if _alarms(study.project) is None:
        return not_assessed(limit, [ALARMS])
    return together(
        limit,
        [(zone.id, _counting(study, limit, (zone.id,), f"an alarm in {zone.id}")) for zone in sleeping],
    )


@for_a_burner
def co_alarm_place(study: "Study", limit: Limit) -> Finding:
    """An alarm too near cries at every start and is taken down; one too far cries too late."""
    alarms = _alarms(study.project)
    if alarms is None:
        return not_assessed(limit, [ALARMS])
    found = []
    for alarm in alarms:
        key = f"{ALARMS}.{alarm.at or 'at'}.from_source"
        found.append((alarm.at or "alarm", judge(limit, alarm.from_source, key=key, missing=[key])))
    return together(limit, found, none=NO_ALARM)


@for_a_burner
def co_alarm_age(study: "Study", limit: Limit) -> Finding:
    """The sensor of an old alarm is blind while its button still sounds."""
    alarms, now = _alarms(study.project), today(study.project)
    if alarms is None or now is None:
        return not_assessed(limit, [ALARMS] if alarms is None else [DATE])
    within = further_limit(limit.check, "test within").limit
    found = []
    for alarm in alarms:
        name, key = alarm.at or "alarm", f"{ALARMS}.{alarm.at or 'at'}"
        if alarm.replace_by is None:
            found.append((f"{name}: date", not_assessed(limit, [f"{key}.replace_by"])))
        elif lies_ahead(alarm.replace_by, now):
            found.append((f"{name}: date", met(limit, f"to {alarm.replace_by}", key=f"{key}.replace_by")))
        else:
            said = f"to {alarm.replace_by}"
            lapsed = not_met(limit, said, "an alarm in date", key=f"{key}.replace_by")
            found.append((f"{name}: date", lapsed))
        tested = f"{key}.tested"
        if alarm.tested is None or lies_ahead(alarm.tested, now):
            why = "" if alarm.tested is None else "the test is dated after the document"
            found.append((f"{name}: test", not_assessed(limit, [tested], why)))
        else:
            since = at_most(limit, age(alarm.tested, now), within, "s", key=tested)
            found.append((f"{name}: test", since))
    return together(limit, found, none=NO_ALARM)


def smoke_alarm(study: "Study", limit: Limit) -> Finding:
    """Smoke kills sleepers before it wakes them."""
    alarms, now = stated(study.project, SMOKE), today(study.project)
    if alarms is None:
        return not_assessed(limit, [SMOKE])
    in_date = [
        alarm
        for alarm in alarms
        if alarm.replace_by is None or now is None or lies_ahead(alarm.replace_by, now)
    ]
    if not in_date:
        said = "none in date" if alarms else "none"
        return not_met(limit, said, "a smoke alarm", key=SMOKE)
    sleeping = [zone.id for zone in study.project.zones or () if zone.berths]
    unheard = [zone for zone in sleeping if not any(_is_in(alarm.at, zone) for alarm in in_date)]
    if not sleeping or unheard:
        needs = [f"{SMOKE}.at"] if sleeping else ["zones.berths"]
        why = f"whether it is heard in {', '.join(unheard)}; an alarm there settles it" if unheard else ""
        return not_assessed(limit, needs, why)
    undated = any(alarm.replace_by is None for alarm in in_date)
    return met(
        limit,
        joined(*(f"alarm in {alarm.at}" for alarm in in_date if alarm.at)),
        key=SMOKE,
        remark="its date is not stated" if undated else "",
    )
