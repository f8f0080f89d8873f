"""Section 5: alarms, extinguishers, fire ports and the stop, as they are listed."""

from collections.abc import Iterator

from dossier.project.model.entry import Answer as No
from dossier.project.model.safety import FirePort, FixedSystem, Safety, Stop
from dossier.project.model.values import Date
from dossier.rendering.blocks import Block, Column, Note, Span, Table, Tick
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.text import Text

KEYS = ("co_alarms", "smoke_alarms", "extinguishers", "fire_port", "fixed_system", "stop")


def alarms(draft: Draft) -> Iterator[Block]:
    """One row for each; one line where the file says nothing."""
    words, safety = draft.words, draft.project.safety
    rows = list(_rows(draft, safety)) if safety is not None else []
    if not rows:
        keys = draft.keys(tuple(f"safety.{key}" for key in KEYS))
        yield Note(words("survey_exhaust.alarms_none", keys=keys))
        return
    heads = ("what", "place", "type", "replace_by", "tested", "seen")
    yield Table(
        [Column(words(f"survey_exhaust.{head}")) for head in heads],
        rows,
        words("survey_exhaust.alarms"),
        key="table_alarms",
        notes=words("survey_exhaust.alarms_notes"),
        span=Span.FULL,
    )


def _rows(draft: Draft, safety: Safety) -> Iterator[list[Cell]]:
    """What is listed, then what is known not to be aboard."""
    yield from _listed(draft, safety)
    yield from _single(draft, safety)
    for what in ("co_alarm", "smoke_alarm", "extinguisher"):
        if getattr(safety, f"{what}s") == ():
            yield _none(draft, what)


def _row(  # noqa: PLR0913, PLR0917 - as many columns
    draft: Draft,
    what: str,
    place: str | None,
    kind: Text,
    date: Text = NOT_APPLICABLE,
    test: Text = NOT_APPLICABLE,
) -> list[Cell]:
    named = draft.named(place) if place else draft.words("survey_exhaust.unknown")
    return [draft.words(f"survey_exhaust.{what}"), named, kind, date, test, Tick()]


def _none(draft: Draft, what: str) -> list[Cell]:
    aboard = draft.words("survey_exhaust.alarms_none_aboard")
    said = draft.words(f"survey_exhaust.{what}")
    return [said, aboard, NOT_APPLICABLE, NOT_APPLICABLE, NOT_APPLICABLE, Tick()]


def _listed(draft: Draft, safety: Safety) -> Iterator[list[Cell]]:
    """Alarms and extinguishers, each with its dates."""
    unknown = draft.words("survey_exhaust.unknown")

    def dated(date: Date | None) -> Text:
        return str(date) if date is not None else unknown

    for alarm in safety.co_alarms or ():
        dates = (dated(alarm.replace_by), dated(alarm.tested))
        yield _row(draft, "co_alarm", alarm.at, alarm.standard or unknown, *dates)
    for smoke in safety.smoke_alarms or ():
        yield _row(draft, "smoke_alarm", smoke.at, unknown, dated(smoke.replace_by), unknown)
    for one in safety.extinguishers or ():
        size: Text = draft.said(one.size, "mass_fine") if one.size is not None else unknown
        yield _row(draft, "extinguisher", one.at, size, dated(one.replace_by))


def _single(draft: Draft, safety: Safety) -> Iterator[list[Cell]]:
    """Fire port, fixed system and stop: there is one of each, or none."""
    words, unknown = draft.words, draft.words("survey_exhaust.unknown")
    port, fixed, stop = safety.fire_port, safety.fixed_system, safety.stop
    for what, stated in (("fire_port", port), ("fixed_system", fixed), ("stop", stop)):
        if isinstance(stated, No):
            yield _none(draft, what)
    if isinstance(port, FirePort):
        bore = draft.said(port.bore, "length_check") if port.bore is not None else unknown
        yield _row(draft, "fire_port", port.at, bore)
    if isinstance(fixed, FixedSystem):
        stops = fixed.stops_burner
        does = unknown if stops is None else words(f"survey_exhaust.stops{'' if stops else '_no'}_burner")
        yield _row(draft, "fixed_system", None, does)
    if isinstance(stop, Stop):
        yield _row(draft, "stop", stop.at, stop.reach or unknown)
