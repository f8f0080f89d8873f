"""Section 6.18: how sure are the answers, and which unknown moves them most?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed, Real
from dossier.rendering.bars import Swing, SwingBars
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Figure, Note, Paragraph, Table
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import figure_width
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.uncertainty import LOAD, MARGIN
from dossier.sizing.uncertainty_results import InputIndex, ResultSpread, Uncertainty

NUMBER = Align.NUMBER
KINDS = {
    "heat_loss.total": "power",
    "fuel.per_day": "volume",
    "store.running_time": "time_minutes",
    "store.starts_per_hour": "per_hour",
    "tap_water.winter.flow": "flow",
}
"""How each result studied is printed; all margins as a power."""
BARS = 8
"""Inputs of a figure: the strongest."""
NAMED = 4
"""Keys that are named of those the ring holds."""


def section(draft: Draft) -> Iterator[Block]:
    """The answer, all results studied, what moves the load, and what moves the least sure of the others."""
    found = draft.study.uncertainty
    if isinstance(found, NotAssessed):
        yield from missing(draft, "spread", "6.18", found)
        return
    first = _load_or_first(found)
    yield heading(draft, "spread", "6.18")
    yield feeds(draft, ["heat.load_spread", "document.assumed"])
    yield _answer(draft, first)
    yield Paragraph(
        draft.words("spread.varied", inputs=_counted(draft, len(found.unknowns)), samples=_all(draft, found))
    )
    yield _table(draft, found)
    yield grounds(draft, "spread", numbers=[first.value])
    for each in _drawn(found):
        yield _figure(draft, each)
    yield from _notes(draft, found)


def result_name(draft: Draft, name: str) -> str:
    """A result that is studied, as people read it in a sentence."""
    if name.startswith(MARGIN):
        return str(draft.words("spread.margin", zone=draft.named(name.removeprefix(MARGIN))))
    return str(draft.words(f"spread.{name.replace('.', '_')}"))


def _kind(name: str) -> str:
    return "power" if name.startswith(MARGIN) else KINDS[name]


def _load_or_first(found: Uncertainty) -> ResultSpread:
    return found.spreads.get(LOAD) or next(iter(found.spreads.values()))


def _counted(draft: Draft, number: int) -> str:
    return draft.numbers.text(float(number), "count")


def _all(draft: Draft, found: Uncertainty) -> str:
    return _counted(draft, found.samples)


def _answer(draft: Draft, spread: ResultSpread) -> Answer:
    words, kind, name = draft.words, _kind(spread.result), result_name(draft, spread.result)
    value = draft.said(spread.value, kind)
    if not spread.indices:
        return Answer(words("spread.answer_sure", result=name, value=value))
    answer = words(
        "spread.answer",
        result=name,
        value=value,
        low=draft.said(spread.p10, kind),
        high=draft.said(spread.p90, kind),
    )
    return Answer(answer, _most(draft, spread))


def _most(draft: Draft, spread: ResultSpread) -> Text:
    """What moves a result most; where that is a convention, also the first that can be measured."""
    words, first = draft.words, spread.indices[0]
    measured = next((index for index in spread.indices if not index.unknown.convention), None)
    if measured is None or measured is first:
        return words("spread.most", input=_told(draft, first))
    return words("spread.most_measured", convention=_told(draft, first), key=measured.key)


def _told(draft: Draft, index: InputIndex) -> Text:
    """An input, and whether it is a convention."""
    named = _input(draft, index)
    return draft.words("spread.convention", named=named) if index.unknown.convention else named


def _input(draft: Draft, index: InputIndex) -> str:
    """An input by its key; a convention, which no key replaces, by its name and figure."""
    if not index.unknown.convention:
        return index.key
    name = draft.named(index.key.rpartition(".")[2])
    return f"{name}, {index.unknown.first.line.text}"


def _table(draft: Draft, found: Uncertainty) -> Table:
    words = draft.words

    def row(spread: ResultSpread) -> Sequence[Cell]:
        kind = _kind(spread.result)
        numbers: list[Real] = [spread.value, spread.p10, spread.p50, spread.p90]
        first = spread.indices[0] if spread.indices else None
        return [
            strong(draft.capital(result_name(draft, spread.result))),
            draft.numbers.unit(kind),
            *(draft.cell(number, kind) for number in numbers),
            _told(draft, first) if first else words("spread.nothing"),
            draft.cell(first.total, "share") if first else "—",
        ]

    return Table(
        columns=[
            Column(words("spread.result")),
            Column(words("spread.unit")),
            Column(words("spread.value"), align=NUMBER),
            Column(words("spread.p10"), align=NUMBER),
            Column(words("spread.p50"), align=NUMBER),
            Column(words("spread.p90"), align=NUMBER, strong=True),
            Column(words("spread.moved_by")),
            Column(words("spread.index"), draft.numbers.unit("share"), NUMBER),
        ],
        rows=[row(spread) for spread in found.spreads.values()],
        caption=words("spread.caption"),
        key="table_spread",
        notes=words("spread.notes"),
    )


def _drawn(found: Uncertainty) -> Iterator[ResultSpread]:
    """The load, and of the other results that bear a sign of their own the least sure; margins do not."""

    def width(spread: ResultSpread) -> float:
        size = abs(float(spread.p50))
        return (float(spread.p90) - float(spread.p10)) / size if size else 0.0

    moved = [spread for spread in found.spreads.values() if spread.indices]
    yield from (spread for spread in moved if spread.result == LOAD)
    others = [spread for spread in moved if spread.result in KINDS and spread.result != LOAD]
    if others:
        yield max(others, key=width)


def _figure(draft: Draft, spread: ResultSpread) -> Figure:
    """The result with each of the strongest inputs alone at the ends of its spread."""
    words, kind = draft.words, _kind(spread.result)
    name = result_name(draft, spread.result)

    def swing(index: InputIndex) -> Swing:
        low, high = index.at_low, index.at_high
        return Swing(
            _input(draft, index), float(low), float(high), draft.cell(low, kind), draft.cell(high, kind)
        )

    swings = [swing(index) for index in spread.indices[:BARS]]
    bars = SwingBars(
        figure_width(draft.paper),
        swings,
        float(spread.value),
        draft.said(spread.value, kind),
    )
    return Figure(
        bars,
        words("spread.figure", result=name, unit=draft.numbers.unit(kind)),
        str(words("spread.figure_alt", result=name)),
        key=f"figure_spread_{spread.result.replace('.', '_')}",
        notes=words("spread.figure_notes_joint" if _some_rest(swings) else "spread.figure_notes"),
    )


def _some_rest(swings: Sequence[Swing]) -> bool:
    """Whether an input moves nothing by itself: it acts together with others alone."""
    return any(swing.low_said == swing.high_said for swing in swings)


def _notes(draft: Draft, found: Uncertainty) -> Iterator[Block]:
    """Samples left out, and how far the solved ring was held still."""
    words, spreads = draft.words, found.spreads.values()
    outside = max(spread.outside for spread in spreads)
    if outside:
        worst = max(spreads, key=lambda spread: spread.outside)
        yield Note(
            words(
                "spread.outside",
                outside=_counted(draft, outside),
                samples=_all(draft, found),
                result=result_name(draft, worst.result),
            )
        )
    held = max(spread.held for spread in spreads)
    if any(spread.linear for spread in spreads):
        yield Note(words("spread.linear", count=_counted(draft, found.solutions)))
    elif held:
        most = max(spreads, key=lambda spread: spread.held)
        yield Note(
            words(
                "spread.held",
                count=_counted(draft, found.solutions),
                share=draft.said(held, "share"),
                result=result_name(draft, most.result),
            )
        )
    if found.still:
        yield Note(words("spread.still", keys=_some(draft, found.still)))


def _some(draft: Draft, keys: Sequence[str]) -> Text:
    """The first few keys, and how many there are besides."""
    shown, more = ", ".join(keys[:NAMED]), len(keys) - NAMED
    return draft.words("spread.and_more", keys=shown, count=_counted(draft, more)) if more > 0 else shown
