"""Section 5.1: heights of the outlet over the sea, and distances to everything gas may come back through."""

from collections.abc import Iterator

from dossier.checking.finding import Finding, Item
from dossier.notation import NotAssessed, Real
from dossier.rendering.answers import triple
from dossier.rendering.blocks import Align, Block, Column, Note, Pair, Table
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE, SPACE, Limits
from dossier.rendering.text import Text
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.exhaust_route import LoopHeights

NUMBER = Align.NUMBER
CHECK = "length_check"
OUTLET_HEIGHT, OUTLET_HEELED = "exhaust.outlet_height", "exhaust.outlet_heeled"
TO_OPENINGS = ("exhaust.openings", "exhaust.fuel_points", "exhaust.people", "exhaust.air_intake")
SHOWN = frozenset({OUTLET_HEIGHT, OUTLET_HEELED, *TO_OPENINGS})
"""Checks whose items stand in the tables of this page."""
HEIGHTS_WIDTH = 84.0


def rounded_down(draft: Draft, value: Real, kind: str) -> str:
    """A number of which more is better, rounded down, with its unit."""
    return draft.numbers.judged(float(value), float(value) - 1.0, kind, Limits.MINIMUM).found


def parts_of(finding: Finding | None) -> tuple[Item, ...]:
    """What a check looked at; the finding itself where that was one thing."""
    if finding is None:
        return ()
    if finding.items or finding.found is None:
        return finding.items
    found = (finding.found, finding.bound, finding.margin, finding.status, finding.unit)
    return (Item(finding.place, *found),)


def _of_check(draft: Draft, name: str) -> Finding | None:
    return next((f for f in draft.assessment.findings if f.check == name), None)


def heights_and_openings(draft: Draft, study: ExhaustStudy) -> Iterator[Block]:
    """Two small tables side by side, or one where the other has nothing to show."""
    heights, openings = _heights(draft, study), _openings(draft, study)
    silent = [] if study.distances else [Note(draft.words("survey_exhaust.openings_none"))]
    if heights is not None and openings is not None:
        yield Pair([heights], [openings], left_width=HEIGHTS_WIDTH)
    else:
        yield from (table for table in (heights, openings) if table is not None)
    yield from silent


def _heights(draft: Draft, study: ExhaustStudy) -> Table | None:
    if isinstance(study.outlet, NotAssessed):
        return None
    words, loop = draft.words, study.loop
    tops = {} if isinstance(loop, NotAssessed) or not loop.is_loop else _tops(loop)
    rows: list[list[Text]] = []
    upright, heeled = _of_check(draft, OUTLET_HEIGHT), _of_check(draft, OUTLET_HEELED)
    for item in parts_of(upright):
        name = "measured" if item.what == "measured" else "upright"
        rows.append(_height(draft, words(f"survey_exhaust.{name}"), upright, item, tops.get("")))
    for attitude, item in zip(study.outlet.heeled, parts_of(heeled), strict=False):
        label = words("survey_exhaust.heeled", angle=draft.said(attitude.angle, "angle"))
        rows.append(_height(draft, label, heeled, item, tops.get(attitude.degrees)))
    rows += [
        [
            words("survey_exhaust.trimmed", angle=draft.said(trim.angle, "angle")),
            rounded_down(draft, trim.height, CHECK).rpartition(SPACE)[0],
            NOT_APPLICABLE,
            NOT_APPLICABLE,
            NOT_APPLICABLE,
        ]
        for trim in study.outlet.trimmed
    ]
    unit = draft.numbers.unit(CHECK)
    return Table(
        [
            Column(words("survey_exhaust.boat")),
            *(
                Column(words(f"survey_exhaust.{name}"), unit, NUMBER, strong=name == "margin")
                for name in ("outlet", "limit", "margin", "loop")
            ),
        ],
        rows,
        words("survey_exhaust.heights"),
        key="table_outlet_heights",
        notes=words("survey_exhaust.heights_notes"),
    )


def _tops(loop: LoopHeights) -> dict[str, Real]:
    """Heights of the top of the loop by angle of heel in degrees; upright under the empty string."""
    return {"": loop.upright} | {attitude.degrees: attitude.height for attitude in loop.heeled}


def _height(draft: Draft, label: Text, finding: Finding | None, item: Item, top: Real | None) -> list[Text]:
    """A row of heights, units standing in the head."""
    if finding is None:
        return []
    found, limit, margin = _bare(draft, finding, item)
    return [label, found, limit, margin, draft.cell(top, CHECK)]


def _bare(draft: Draft, finding: Finding, item: Item) -> tuple[str, str, str]:
    """Found, limit and margin without units."""
    shown, unit = triple(draft.numbers, finding.limit.row, item), f"{SPACE}{draft.numbers.unit(CHECK)}"
    return tuple(each.removesuffix(unit) for each in (shown.found, shown.limit, shown.margin))  # type: ignore[return-value]  # three


def _openings(draft: Draft, study: ExhaustStudy) -> Table | None:
    """Distances to everything that is listed, the nearest first."""
    words, kinds = draft.words, {each.name: each.kind for each in study.distances}
    found: list[tuple[float, list[Text]]] = []
    for check in TO_OPENINGS:
        finding = _of_check(draft, check)
        for item in parts_of(finding):
            if finding is None or item.found is None or isinstance(item.found, str):
                continue
            kind = kinds.get(item.what) or ""
            row: list[Text] = [item.what, kind, *_bare(draft, finding, item)]
            if all(row[:2] != other[:2] for _, other in found):
                found.append((float(item.found), row))
    if not found:
        return None
    unit = draft.numbers.unit(CHECK)
    return Table(
        [
            Column(words("survey_exhaust.opening")),
            Column(words("survey_exhaust.kind")),
            Column(words("survey_exhaust.distance"), unit, NUMBER),
            Column(words("survey_exhaust.limit"), unit, NUMBER),
            Column(words("survey_exhaust.margin"), unit, NUMBER, strong=True),
        ],
        [row for _, row in sorted(found, key=lambda pair: pair[0])],
        words("survey_exhaust.openings"),
        key="table_openings",
        notes=words("survey_exhaust.openings_notes"),
    )
