"""Section 4: the parts under their tags, and the modes of use."""

from collections.abc import Iterator
from typing import Any

from dossier.checking.guesses import rated_basis
from dossier.notation import NotAssessed, slug
from dossier.project.model import Component, Mode
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import Align, Answer, Block, Column, Heading, Note, Side, SideNote, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.photographs import photographs
from dossier.rendering.text import Text, strong, text
from dossier.sizing.spaces import space_of

NUMBER = Align.NUMBER
SOURCES = ("burner", "recovery_exchanger")


def section(draft: Draft) -> Iterator[Block]:
    """One sentence, the table of components, the table of modes."""
    words, said = draft.words, FindingWords(draft)
    components, modes = draft.project.components or {}, draft.project.modes or {}
    vessel = draft.project.vessel
    yield Heading(1, words("overview.title"), key="overview", number="4", new_sheet=draft.opens("overview"))
    if components:
        yield Side([SideNote(words("overview.tag"), words("overview.tags"))])
    yield Answer(
        words(
            "overview.answer",
            boat=draft.boat,
            kind=(vessel.kind if vessel else None) or "",
            parts=len(components),
            parts_words=said.numeral(len(components)),
            modes=len(modes),
            modes_words=said.numeral(len(modes)),
        )
    )
    if components:
        yield _components(draft, components)
    else:
        yield Note(words("overview.components_none"))
    ring = draft.study.ring
    if isinstance(ring, NotAssessed):
        yield Note(words("overview.no_circuit", keys=draft.keys(ring.needs)))
    if modes:
        yield _modes(draft, modes)
    elif not isinstance(ring, NotAssessed):
        yield Note(words("overview.modes_none"))
    yield from photographs(draft, None)


def _components(draft: Draft, components: "dict[str, Component] | Any") -> Table:
    words = draft.words
    rows = []
    for tag, part in components.items():
        basis, line = rated_basis(part), draft.project.where(f"components.{tag}")
        name = f"overview.kind_{part.kind}"
        rows.append(
            [
                tag,
                words(name) if words.has(name) else words.told(draft.named(part.kind)),
                _where(draft, part),
                rating(draft, part) or NOT_APPLICABLE,
                words(f"pages.basis_{basis.value}") if basis is not None else NOT_APPLICABLE,
                str(line.line or NOT_APPLICABLE),
            ]
        )
    return Table(
        [
            Column(words("overview.tag"), strong=True),
            *(Column(words(f"overview.{head}")) for head in ("what", "where", "rating", "basis")),
            Column(words("overview.line"), align=NUMBER),
        ],
        rows,
        words("overview.components"),
        key="table_components",
        notes=words("overview.components_notes"),
        span=Span.FULL,
    )


def _where(draft: Draft, part: Component) -> str:
    """Where a part is: as stated, else the zone it serves, else the space it is drawn in."""
    place = part.where or getattr(part, "zone", None) or space_of(draft.project, part.tag)
    return draft.named(place or "") or NOT_APPLICABLE


FIGURES = (
    ("output", "power_large", "output"),
    ("volume", "volume", "volume"),
    ("kv", "flow_factor", "kv"),
    ("jacket_heat", "power_large", "heat"),
    ("area", "area", "area"),
)
"""Figures that parts are known by: field, kind of number, name of the text."""


def rating(draft: Draft, part: Any) -> Text:
    """The figure a part is known by; empty where it states none."""
    special = {
        "burner": _output,
        "pump": _pump,
        "fuel_shut_off": _shut_off,
        "safety_valve": _safety_valve,
        "manifold": _manifold,
    }
    if part.kind in special:
        return special[part.kind](draft, part)
    for field, kind, name in FIGURES:
        value = getattr(part, field, None)
        if isinstance(value, float):
            return draft.words(f"overview.rating_{name}", **{name: draft.said(value, kind)})
    return ""


def _pump(draft: Draft, part: Any) -> Text:
    if not part.curve:
        return ""
    head = draft.said(max(float(point.pressure) for point in part.curve), "pressure")
    flow = draft.said(max(float(point.flow) for point in part.curve), "flow")
    return draft.words("overview.rating_pump", head=head, flow=flow)


def _shut_off(draft: Draft, part: Any) -> Text:
    place = part.operated_from
    return draft.words("overview.rating_shut_off", place=draft.named(place)) if place else ""


def _safety_valve(draft: Draft, part: Any) -> Text:
    if part.setting is None:
        return ""
    return draft.words("overview.rating_opens", pressure=draft.said(part.setting, "pressure_gauge"))


def _manifold(draft: Draft, part: Any) -> Text:
    if part.outlets is None:
        return ""
    return draft.words("overview.rating_outlets", outlets=draft.said(part.outlets, "count"))


def _output(draft: Draft, part: Any) -> Text:
    words, output = draft.words, part.output
    if output is None or output.max is None:
        return ""
    most = draft.said(output.max, "power_large")
    if output.min is None or float(output.min) == float(output.max):
        return words("overview.rating_output", output=most)
    return words("overview.rating_range", least=draft.said(output.min, "power_large"), output=most)


def _modes(draft: Draft, modes: "dict[str, Mode] | Any") -> Table:
    words, unit = draft.words, draft.numbers.unit
    return Table(
        [
            Column(words("overview.mode"), strong=True),
            *(Column(words(f"overview.{head}")) for head in ("sources", "open", "shut", "set", "zones")),
            Column(words("overview.supply"), unit("temperature"), NUMBER),
            Column(words("overview.return"), unit("temperature"), NUMBER),
            Column(words("overview.flow"), unit("flow"), NUMBER),
        ],
        [_mode(draft, name, mode) for name, mode in modes.items()],
        words("overview.modes"),
        key="table_overview_modes",
        notes=words("overview.modes_notes"),
        span=Span.FULL,
    )


def _mode(draft: Draft, name: str, mode: Mode) -> list[Text]:
    words, results = draft.words, draft.assessment.results
    stopped = mode.stopped or ()
    burners = [tag for tag, part in (draft.project.components or {}).items() if part.kind == "burner"]
    sources = [tag for tag in burners if tag not in stopped] + list(mode.recovering or ())
    shown: list[Text] = [", ".join(sources) or NOT_APPLICABLE]
    if stopped:
        shown[0] = text(shown[0], "; ", words("overview.stopped", tags=", ".join(stopped)))
    calls = mode.calls
    if calls is None:
        zones: Text = words("overview.zones_all")
    elif isinstance(calls, No):
        zones = words("overview.zones_none")
    else:
        zones = ", ".join(draft.named(zone) for zone in calls)
    settings = [
        str(words("overview.set_to", tag=tag, kv=draft.said(kv, "flow_factor")))
        for tag, kv in (mode.set or {}).items()
    ]

    def figure(pattern: str, kind: str) -> str:
        tags = sources if "pump" not in pattern else list(draft.project.components or ())
        for tag in tags:
            found = results.get(pattern.format(mode=slug(name), tag=tag))
            if found is not None:
                return draft.cell(found.value, kind)
        return NOT_APPLICABLE

    return [
        strong(draft.capital(name)),
        *shown,
        ", ".join(mode.open or ()) or NOT_APPLICABLE,
        ", ".join(mode.shut or ()) or NOT_APPLICABLE,
        ", ".join(settings) or NOT_APPLICABLE,
        zones,
        figure("supply.{mode}.{tag}", "temperature"),
        figure("return.{mode}.{tag}", "temperature"),
        figure("pump.{mode}.{tag}.flow", "flow"),
    ]
