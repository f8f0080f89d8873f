"""Section 6.5: what does the mix do, and what must be bought and poured?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed, Real
from dossier.rendering.adding_up import parts_of
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.coolant import Coolant, TopUp
from dossier.sizing.strengths import Strength

NUMBER = Align.NUMBER
SAME = 1e-9


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the plan of mixing, the table of shares."""
    mix = draft.study.coolant
    if isinstance(mix, NotAssessed):
        yield from missing(draft, "coolant", "6.5", mix)
        return
    words = draft.words
    yield heading(draft, "coolant", "6.5")
    yield feeds(draft, ["coolant"])
    frost = draft.worked(
        mix.freezing_point,
        words(
            "coolant.answer",
            mix=_mix(draft, mix),
            freezing=draft.said(mix.freezing_point, "temperature_fine"),
        ),
    )
    yield Answer(
        frost, words("coolant.answer_buy", **_bought(draft, mix)) if mix.concentrate is not None else ""
    )
    yield grounds(draft, "coolant", numbers=[mix.freezing_point, mix.viscosity], chapters=["coolant"])
    yield _properties(draft, mix)
    if mix.is_mix:
        yield from _plan(draft, mix)
    strengths = draft.study.strengths
    if mix.is_mix and not isinstance(strengths, NotAssessed):
        yield _shares(draft, mix, strengths)


def _mix(draft: Draft, mix: Coolant) -> str:
    """The mix in a few words: ``40 % propylene glycol``, or ``water``."""
    base = mix.fluid.data_set.base
    return f"{draft.said(mix.share, 'share')} {base}" if mix.is_mix else base


def _bought(draft: Draft, mix: Coolant) -> dict[str, str]:
    return {
        "concentrate": draft.said(mix.concentrate, "volume"),
        "water": draft.said(mix.water, "volume"),
        "volume": draft.said(mix.volume, "volume"),
    }


def _properties(draft: Draft, mix: Coolant) -> Table:
    """Properties at the working temperature and, where it is known, at the cold start."""
    words, numbers = draft.words, draft.numbers
    cold = draft.study.cold_start
    kinds = (
        ("density", "density"),
        ("specific_heat", "specific_heat"),
        ("conductivity", "conductivity"),
        ("viscosity", "viscosity"),
    )
    thick: Real | None = None if isinstance(cold, NotAssessed) else cold.viscosity
    columns = [
        Column(words("coolant.at")),
        *[Column(words(f"coolant.{name}"), numbers.unit(kind), NUMBER) for name, kind in kinds],
    ]
    warm: Sequence[Cell] = [
        words("coolant.working", temperature=draft.said(mix.working, "temperature")),
        *[draft.worked(getattr(mix, n), draft.cell(getattr(mix, n), k)) for n, k in kinds],
    ]
    rows = [warm]
    if thick is not None and not isinstance(cold, NotAssessed):
        at_start = words("coolant.cold_start", temperature=draft.said(cold.temperature, "temperature"))
        rows.append([at_start, "", "", "", draft.worked(thick, draft.cell(thick, "viscosity"))])
    return Table(
        columns=columns,
        rows=rows,
        caption=words("coolant.properties_caption"),
        key="table_coolant",
        notes=words("coolant.data_set", name=str(mix.fluid)),
    )


def _plan(draft: Draft, mix: Coolant) -> Iterator[Block]:
    """What to pour: first filling, raising a thin mix, topping up."""
    words, litres = draft.words, draft.numbers.unit("volume")
    rows: list[Sequence[Cell]] = []
    if mix.concentrate is not None:
        rows.append(
            [
                words("coolant.first_filling"),
                draft.cell(mix.volume, "volume"),
                draft.worked(mix.concentrate, strong(draft.cell(mix.concentrate, "volume"))),
                draft.cell(mix.water, "volume"),
            ]
        )
    for top_up in mix.top_ups:
        together, concentrate, water = poured(draft, top_up)
        said = draft.worked(top_up.concentrate, strong(concentrate))
        rows.append([words("coolant.top_up"), together, said, water])
    yield Table(
        columns=[
            Column(words("coolant.pouring")),
            Column(words("coolant.together"), litres, NUMBER),
            Column(words("coolant.concentrate"), litres, NUMBER),
            Column(words("coolant.water"), litres, NUMBER),
        ],
        rows=rows,
        caption=words("coolant.plan_caption"),
        key="table_mixing",
    )
    yield Note(_correction(draft, mix))


def poured(draft: Draft, top_up: TopUp) -> tuple[str, str, str]:
    """A top-up, its concentrate and its water, as they add up in print."""
    parts = [top_up.concentrate, top_up.water]
    (concentrate, water), together = parts_of(draft.numbers, parts, "volume", top_up.volume)
    return together, concentrate, water


def _correction(draft: Draft, mix: Coolant) -> Text:
    words = draft.words
    if mix.measured_share is None:
        return words("coolant.not_measured")
    measured = draft.said(mix.measured_share, "share")
    if mix.drain_and_refill is None:
        return words("coolant.measured_enough", measured=measured)
    return words(
        "coolant.drain_and_refill",
        measured=measured,
        wanted=draft.said(mix.share, "share"),
        volume=draft.said(mix.drain_and_refill, "volume"),
    )


def _shares(draft: Draft, mix: Coolant, strengths: Sequence[Strength]) -> Table:
    """From plain water to 60 %: frost, flow and head; the ring's own share set strong."""
    words, numbers = draft.words, draft.numbers
    cold = draft.project.conditions.unheated_start if draft.project.conditions else None
    has_cold = any(each.cold_viscosity is not None for each in strengths)
    columns = [
        Column(words("coolant.share"), numbers.unit("share"), NUMBER),
        Column(words("coolant.freezing"), numbers.unit("temperature_fine"), NUMBER),
        Column(words("coolant.density"), numbers.unit("density"), NUMBER),
        Column(words("coolant.specific_heat"), numbers.unit("specific_heat"), NUMBER),
        Column(words("coolant.viscosity_warm"), numbers.unit("viscosity"), NUMBER),
        Column(words("coolant.viscosity_cold"), numbers.unit("viscosity"), NUMBER),
        Column(words("coolant.flow"), "", NUMBER),
        Column(words("coolant.head"), "", NUMBER),
        Column(words("coolant.cold_head"), "", NUMBER),
    ]
    rows: list[Sequence[Cell]] = []
    for each in strengths:
        own = abs(float(each.share) - float(mix.share)) < SAME
        cells = [
            draft.cell(each.share, "share"),
            draft.cell(each.freezing_point, "temperature_fine"),
            draft.cell(each.density, "density"),
            draft.cell(each.specific_heat, "specific_heat"),
            draft.cell(each.viscosity, "viscosity"),
            draft.cell(each.cold_viscosity, "viscosity"),
            draft.cell(each.flow, "ratio"),
            draft.cell(each.head, "ratio"),
            draft.cell(each.cold_head, "ratio"),
        ]
        rows.append([strong(cell) for cell in cells] if own else cells)
    start = draft.said(cold, "temperature") if cold is not None and has_cold else None
    return Table(
        columns=columns,
        rows=rows,
        caption=words("coolant.shares_caption", base=mix.fluid.data_set.base),
        key="table_shares",
        notes=words(
            "coolant.shares_notes",
            working=draft.said(mix.working, "temperature"),
            start=start or str(words("coolant.no_start")),
        ),
        span=Span.FULL,
    )
