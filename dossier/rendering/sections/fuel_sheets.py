"""Drawing 6: the fuel line, from the tank by its shut-offs and filter to the burner."""

from collections.abc import Iterator
from dataclasses import fields
from typing import Any

from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.fuel_line import Fitting, FuelWay, Words, fuel_sheet
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of
from dossier.sizing.spaces import burner_of

CHECK = "length_check"


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheet of the fuel line; what it waits for where nothing but a tank is known."""
    words, written = draft.words, draft.project.fuel
    if written is None or (written.line is None and written.lift is None):
        return NotAssessed(str(words("drawings.fuel_title")), ("fuel.line", "fuel.lift", "fuel.shut_off"))
    way = _Way(draft, written).drawn()
    said = Words(**{each.name: str(words(f"drawings.fuel_{each.name}")) for each in fields(Words)})
    tags = [fitting.tag for fitting in way.fittings] + [way.burner]
    return sheets_of(
        draft,
        Subject(
            6,
            "fuel",
            lambda form: (fuel_sheet(way, form, said),),
            notes=tuple(_notes(draft, written)),
            tags=tuple(tag for tag in tags if tag),
            words={"legend": said.legend},
        ),
    )


def _notes(draft: Draft, written: Any) -> Iterator[str]:
    """What the drawing is, and what nobody has stated."""
    words = draft.words
    yield str(words("drawings.fuel_note"))
    silent = [
        str(words(f"drawings.fuel_silent_{key}"))
        for key in ("shut_off", "shut_off_space", "anti_siphon", "lift", "vent")
        if getattr(written, key) is None
    ]
    if silent:
        yield str(words("drawings.fuel_silent", what=", ".join(silent)))
    none = [
        str(words(f"drawings.fuel_silent_{key}"))
        for key in ("shut_off", "shut_off_space", "anti_siphon", "vent")
        if isinstance(getattr(written, key), No) or getattr(written, key) is False
    ]
    if none:
        yield str(words("drawings.fuel_none", what=", ".join(none)))


class _Way:
    """The fuel's way as it is written."""

    def __init__(self, draft: Draft, written: Any) -> None:
        self.draft, self.words, self.written = draft, draft.words, written
        self.parts: dict[str, Any] = dict(draft.project.components or {})

    def drawn(self) -> FuelWay:
        """Everything the sheet shows."""
        written, draft = self.written, self.draft
        burner, pick_up, lift = burner_of(draft.project), written.pick_up, written.lift
        return FuelWay(
            tank=tuple(self._tank()),
            burner=burner.tag if burner else str(self.words("survey_exhaust.burner")),
            fittings=tuple(self._fittings()),
            vent=self._vent(),
            top=self._with("top", written.tank_top, "length"),
            heating=self._with("heating", pick_up.heating if pick_up else None, CHECK),
            engine=self._with("engine", pick_up.engine if pick_up else None, CHECK),
            lift=draft.said(abs(float(lift)), "length") if lift is not None else "",
            is_over=None if lift is None else float(lift) >= 0,
            before=self._before(),
            after=self._after(),
        )

    def _with(self, name: str, number: Any, kind: str) -> str:
        if number is None:
            return ""
        return str(self.words(f"drawings.fuel_{name}_at", height=self.draft.said(number, kind)))

    def _tank(self) -> Iterator[str]:
        written, draft = self.written, self.draft
        yield str(self.words("drawings.fuel_tank"))
        if written.tank is not None:
            yield draft.said(written.tank, "volume_whole")
        if written.usable is not None:
            yield str(self.words("drawings.one_line_usable", share=draft.said(written.usable, "share")))
        if written.reserve_for_engine is not None:
            reserve = draft.said(written.reserve_for_engine, "volume_whole")
            yield str(self.words("drawings.fuel_reserve", volume=reserve))

    def _vent(self) -> str:
        vent = self.written.vent
        if vent is None or isinstance(vent, No):
            return ""
        if vent.led_to is None:
            return str(self.words("drawings.fuel_vent_plain"))
        return str(self.words("drawings.fuel_vent_to", place=vent.led_to))

    def _fittings(self) -> Iterator[Fitting]:
        """From the tank on: shut-off, guard against siphoning, filters, the second shut-off."""
        written, words = self.written, self.words
        yield from self._valve(written.shut_off)
        if written.anti_siphon is True:
            yield Fitting("check_valve", "", str(words("drawings.fuel_guard")))
        for tag, part in self.parts.items():
            if part.kind == "fuel_filter":
                yield Fitting("fuel_filter", tag, self.draft.named(part.where or ""))
        yield from self._valve(written.shut_off_space)

    def _valve(self, tag: Any) -> Iterator[Fitting]:
        if tag is None or isinstance(tag, No):
            return
        part = self.parts.get(str(tag))
        place = getattr(part, "operated_from", None) or (part.where if part else None)
        said = str(self.words("drawings.fuel_worked", place=self.draft.named(place))) if place else ""
        yield Fitting("fuel_shut_off", str(tag), said)

    def _before(self) -> str:
        line = self.written.line
        if line is None or line.suction is None:
            return ""
        return str(self.words("drawings.fuel_suction", length=self.draft.said(line.suction, "length")))

    def _after(self) -> str:
        """Length, bore and material of the line."""
        line, draft = self.written.line, self.draft
        if line is None:
            return ""
        said = []
        if line.length is not None:
            name = "whole" if line.suction is None else "delivery"
            said.append(str(self.words(f"drawings.fuel_{name}", length=draft.said(line.length, "length"))))
        if line.bore is not None:
            said.append(str(self.words("drawings.fuel_bore", bore=draft.said(line.bore, CHECK))))
        if line.material:
            said.append(draft.named(line.material))
        return ", ".join(said)
