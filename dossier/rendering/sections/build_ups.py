"""Section 6.2: what is the shell worth?"""

from collections.abc import Iterator, Mapping, Sequence

from dossier.notation import NotAssessed, Real
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Figure, Note, Side, Span, Table
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections.build_up_figure import picture_of
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong, text
from dossier.sizing.envelope import BuildUpWorth
from dossier.sizing.wall_temperatures import WallTemperatures

NUMBER = Align.NUMBER
METAL, TIGHT = 10.0, 1e5
"""Conductivity (W/mK) and vapour factor from which digits say nothing more."""


def section(draft: Draft) -> Iterator[Block]:
    """The answer, all build-ups side by side, the framed ones to scale, the layers of the others."""
    words, walls = draft.words, draft.study.wall_temperatures
    if isinstance(walls, NotAssessed):
        yield from missing(draft, "build_ups", "6.2", walls)
        return
    yield heading(draft, "build_ups", "6.2")
    if not walls:
        yield Note(words("build_ups.none"))
        return
    yield feeds(draft, ["moisture"])
    yield _answer(draft, walls)
    yield _all(draft, walls)
    numbers = [
        number for wall in walls.values() for number in (wall.worth.upper, wall.worth.wall.transmittance)
    ]
    drawn = _with_most_frames(walls)
    yield grounds(draft, "build_ups", numbers=numbers, chapters=["shell"])
    others = {name: wall for name, wall in walls.items() if name not in drawn}
    if others:
        yield _layers_of_all(draft, others)
    for name in drawn:
        yield from _drawn(draft, walls[name])
    if drawn and len(walls) > 1:
        here = draft.extent("drawings") is Extent.WHOLE
        yield Note(words("build_ups.others_drawn" if here else "build_ups.others_in_full"))


def _with_most_frames(walls: Mapping[str, WallTemperatures]) -> list[str]:
    """The build-up to which frames add most; it is drawn here, the others on sheets of their own."""
    framed = [name for name, wall in walls.items() if wall.along and wall.worth.addition is not None]
    return [max(framed, key=lambda name: float(walls[name].worth.addition or 0.0))] if framed else []


def _answer(draft: Draft, walls: Mapping[str, WallTemperatures]) -> Answer:
    """The best and the worst build-up, and what frames do."""
    words = draft.words
    by_worth = sorted(walls.values(), key=lambda wall: float(wall.worth.wall.transmittance))
    best, worst = by_worth[0], by_worth[-1]
    said = words(
        "build_ups.answer",
        best=draft.named(best.build_up),
        low=draft.said(best.worth.wall.transmittance, "transmittance"),
        worst=draft.named(worst.build_up),
        high=draft.said(worst.worth.wall.transmittance, "transmittance"),
    )
    framed = [wall for wall in walls.values() if wall.worth.addition is not None]
    rest: Text = ""
    if framed:
        most = max(framed, key=lambda wall: float(wall.worth.addition or 0.0))
        rest = words(
            "build_ups.answer_frames",
            name=draft.named(most.build_up),
            addition=draft.said(most.worth.addition, "transmittance"),
            between=draft.said(most.worth.wall.between, "transmittance"),
        )
    return Answer(said, rest)


def _all(draft: Draft, walls: Mapping[str, WallTemperatures]) -> Table:
    words, numbers = draft.words, draft.numbers
    worth, resists = numbers.unit("transmittance"), numbers.unit("resistance")
    degrees = numbers.unit("temperature_fine")
    rows: list[Sequence[Cell]] = []
    for wall in walls.values():
        found = wall.worth.wall
        rows.append(
            [
                strong(draft.capital(wall.build_up)),
                draft.worked(found.between, draft.cell(found.between, "transmittance")),
                draft.worked(wall.worth.addition, draft.cell(wall.worth.addition, "transmittance")),
                draft.worked(found.transmittance, strong(draft.cell(found.transmittance, "transmittance"))),
                draft.worked(found.upper, draft.cell(found.upper, "resistance")),
                draft.worked(found.lower, draft.cell(found.lower, "resistance")),
                draft.worked(found.ratio, draft.cell(found.ratio, "ratio")),
                draft.cell(wall.surface, "temperature_fine"),
                draft.cell(wall.surface_over_frame, "temperature_fine"),
            ]
        )
    return Table(
        columns=[
            Column(words("build_ups.build_up")),
            Column(words("build_ups.between"), worth, NUMBER),
            Column(words("build_ups.frames_add"), worth, NUMBER),
            Column(words("build_ups.u_value"), worth, NUMBER),
            Column(words("build_ups.upper"), resists, NUMBER),
            Column(words("build_ups.lower"), resists, NUMBER),
            Column(words("build_ups.ratio"), "", NUMBER),
            Column(words("build_ups.surface"), degrees, NUMBER),
            Column(words("build_ups.over_frame"), degrees, NUMBER),
        ],
        rows=rows,
        caption=words("build_ups.caption"),
        key="table_build_ups",
        notes=words("build_ups.notes"),
        span=Span.FULL,
    )


def _rows_of(draft: Draft, worth: BuildUpWorth) -> Iterator[list[Cell]]:
    """Films and layers from outside to inside: name, thickness, conductivity, resistance, vapour factor."""
    words, resistances = draft.words, worth.wall.resistances
    yield [words("build_ups.outer_film"), "—", "—", draft.cell(resistances[0], "resistance"), "—"]
    for layer, resistance in zip(worth.layers, resistances[1:-1], strict=True):
        yield [
            layer_name(draft, layer.name),
            draft.cell(layer.thickness, "thickness_layer"),
            _conductivity(draft, layer.conductivity),
            draft.worked(resistance, draft.cell(resistance, "resistance")),
            _vapour(draft, layer.vapour_factor),
        ]
    yield [words("build_ups.inner_film"), "—", "—", draft.cell(resistances[-1], "resistance"), "—"]


def _conductivity(draft: Draft, conducts: Real | None) -> str:
    """Three decimals tell insulation apart and say nothing of metal."""
    if conducts is not None and float(conducts) >= METAL:
        return draft.numbers.text(float(conducts), "count")
    return draft.cell(conducts, "conductivity")


def _vapour(draft: Draft, factor: Real | None) -> Text:
    if factor is not None and float(factor) >= TIGHT:
        return draft.words("build_ups.tight")
    return draft.cell(factor, "count")


def layer_name(draft: Draft, name: str) -> str:
    """A layer as people call it."""
    return str(draft.words("build_ups.air")) if name == "air" else draft.named(name)


def _layers_of_all(draft: Draft, walls: Mapping[str, WallTemperatures]) -> Table:
    """Layers of every build-up that is not drawn, one below the other."""
    words = draft.words
    rows: list[Sequence[Cell]] = []
    for wall in walls.values():
        first: Cell = strong(draft.capital(wall.build_up))
        for row in _rows_of(draft, wall.worth):
            rows.append([first, *row])
            first = ""
    return Table(
        columns=[Column(words("build_ups.build_up")), *_layer_columns(draft, with_vapour=True)],
        rows=rows,
        caption=words("build_ups.layers_caption"),
        key="table_layers",
        notes=_moist(draft, [wall.worth for wall in walls.values()]),
    )


def _layer_columns(draft: Draft, *, with_vapour: bool) -> list[Column]:
    words, numbers = draft.words, draft.numbers
    columns = [
        Column(words("build_ups.layer")),
        Column(words("build_ups.thickness"), numbers.unit("thickness_layer"), NUMBER),
        Column(words("build_ups.conductivity"), numbers.unit("conductivity"), Align.DECIMAL),
        Column(words("build_ups.resistance"), numbers.unit("resistance"), NUMBER),
    ]
    return [*columns, Column(words("build_ups.vapour"), "", NUMBER)] if with_vapour else columns


def _moist(draft: Draft, worths: Sequence[BuildUpWorth]) -> Text:
    moist = [draft.named(worth.name) for worth in worths if worth.moist]
    return draft.words("build_ups.moist", names=", ".join(moist)) if moist else ""


def _drawn(draft: Draft, wall: WallTemperatures) -> Iterator[Block]:
    """A build-up to scale with the temperature through it; its layers beside it."""
    words, worth = draft.words, wall.worth
    name = draft.named(wall.build_up)
    table = Table(
        columns=_layer_columns(draft, with_vapour=False),
        rows=[row[:4] for row in _rows_of(draft, worth)],
        totals=[
            [words("build_ups.u_between"), "", "", draft.cell(worth.wall.between, "transmittance")],
            [words("build_ups.frames_add"), "", "", draft.cell(worth.addition, "transmittance")],
            [
                strong(words("build_ups.u_wall")),
                "",
                "",
                strong(draft.cell(worth.wall.transmittance, "transmittance")),
            ],
        ],
        caption=words("build_ups.layers_of", name=name),
        key=f"table_layers_{wall.build_up}",
        notes=text(
            words("build_ups.u_unit", unit=draft.numbers.unit("transmittance")),
            " ",
            _moist(draft, [worth]),
        ),
    )
    picture = picture_of(draft, wall)
    yield Side([table])
    yield Figure(
        picture,
        words("build_ups.figure", name=draft.capital(wall.build_up), scale=picture.title),
        str(words("build_ups.figure_alt", name=name)),
        key=f"figure_{wall.build_up}",
        notes=words("build_ups.figure_notes", zone=draft.named(wall.room), section=wall.section),
    )
