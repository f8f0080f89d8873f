"""Section 6.13: where does the hot coolant go, and how far is it from boiling?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed, Real
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.expansion import Boiling, Expansion

NUMBER = Align.NUMBER
WORST = 6


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the volumes, the margin to boiling, the header over every wet point."""
    found = draft.study.expansion
    if isinstance(found, NotAssessed):
        yield from missing(draft, "expansion", "6.13", found)
        return
    yield heading(draft, "expansion", "6.13")
    yield feeds(draft, ["expansion"])
    yield _answer(draft, found)
    yield _volumes(draft, found)
    yield grounds(draft, "expansion", numbers=[found.volume, found.least], chapters=["expansion"])
    if found.boilings or found.at_stat:
        yield _boiling(draft, found)
    yield from _ways(draft)
    yield from _heights(draft)


def _answer(draft: Draft, found: Expansion) -> Answer:
    words = draft.words
    grows = words(
        "expansion.answer",
        volume=draft.said(found.volume, "volume"),
        fill=draft.said(found.fill, "temperature"),
        hottest=draft.said(found.hottest, "temperature"),
    )
    rest: Text = ""
    if found.header_capacity is not None:
        enough = float(found.header_capacity) >= float(found.volume)
        rest = words(
            "expansion.header_holds" if enough else "expansion.header_too_small",
            room=draft.said(found.header_capacity, "volume"),
        )
    elif found.needed is not None:
        rest = words("expansion.vessel", needed=draft.said(found.needed, "volume"))
    return Answer(draft.worked(found.volume, grows), rest)


def _volumes(draft: Draft, found: Expansion) -> Table:
    """Volumes and pressures; what does not belong to the system is left out."""
    words = draft.words
    told: tuple[tuple[str, Real | None, str], ...] = (
        ("fill", found.fill, "temperature"),
        ("hottest", found.hottest, "temperature"),
        ("grows", found.volume, "volume"),
        ("coldest", found.coldest, "temperature"),
        ("shrinks", found.contraction, "volume"),
        ("header_cold", found.header_content, "volume"),
        ("header_room", found.header_capacity, "volume"),
        ("static", found.static, "pressure_gauge"),
        ("reserve", found.reserve, "volume"),
        ("needed", found.needed, "volume"),
        ("final", found.final, "pressure_gauge"),
        ("after_stop", found.after_stop, "temperature"),
    )
    rows: list[Sequence[Cell]] = [
        [words(f"expansion.{name}"), draft.worked(number, draft.said(number, kind))]
        for name, number, kind in told
        if number is not None
    ]
    return Table(
        columns=[Column(words("expansion.item")), Column(words("expansion.value"), align=NUMBER)],
        rows=rows,
        caption=words("expansion.caption"),
        key="table_expansion",
        notes=words("expansion.hottest_by", by=found.hottest_by),
    )


def _boiling(draft: Draft, found: Expansion) -> Table:
    """The parts nearest to boiling, over all modes, and the burner with its pump stopped."""
    words, numbers = draft.words, draft.numbers
    nearest = sorted(found.boilings, key=lambda each: float(each.margin))
    seen: dict[str, None] = {}
    shown: list[Boiling] = []
    for each in nearest:
        if each.tag not in seen and len(shown) < WORST:
            seen[each.tag] = None
            shown.append(each)
    shown += found.at_stat
    rows: list[Sequence[Cell]] = [
        [
            strong(draft.named(each.tag)),
            each.mode,
            draft.cell(each.pressure, "pressure"),
            draft.cell(each.temperature, "temperature"),
            draft.cell(each.point, "temperature"),
            draft.worked(
                each.margin, strong(numbers.text(float(each.margin), "temperature_difference", signed=True))
            ),
        ]
        for each in shown
    ]
    degrees = numbers.unit("temperature")
    return Table(
        columns=[
            Column(words("expansion.part")),
            Column(words("expansion.mode")),
            Column(words("expansion.absolute"), numbers.unit("pressure"), NUMBER),
            Column(words("expansion.water"), degrees, NUMBER),
            Column(words("expansion.boils"), degrees, NUMBER),
            Column(words("expansion.margin"), numbers.unit("temperature_difference"), NUMBER),
        ],
        rows=rows,
        caption=words("expansion.boiling_caption"),
        key="table_boiling",
        notes=words("expansion.boiling_notes"),
    )


def _ways(draft: Draft) -> Iterator[Block]:
    """What could cut a burner off from its expansion."""
    words, found = draft.words, draft.study.expansion_ways
    if isinstance(found, NotAssessed):
        yield Note(draft.needs(found))
        return
    for way in found.ways:
        yield Note(
            words(
                "expansion.way_shut" if way.closing else "expansion.way_free",
                burner=way.burner,
                to=way.to,
                parts=", ".join(way.closing) or "—",
            )
        )


def _heights(draft: Draft) -> Iterator[Block]:
    """Header over the highest wet point, upright, heeled and trimmed."""
    words, found = draft.words, draft.study.header_margins
    if isinstance(found, NotAssessed):
        return
    margins = (found.upright, *found.heeled, *found.trimmed)
    rows: list[Sequence[Cell]] = [
        [
            draft.named(each.condition),
            each.over,
            draft.worked(
                each.margin,
                strong(draft.numbers.text(float(each.margin), "length_check", signed=True)),
            ),
        ]
        for each in margins
    ]
    yield Table(
        columns=[
            Column(words("expansion.boat")),
            Column(words("expansion.over")),
            Column(words("expansion.height"), draft.numbers.unit("length_check"), NUMBER),
        ],
        rows=rows,
        caption=words("expansion.heights_caption", header=found.header),
        key="table_header",
    )
