"""Section 5.1: heights of the outlet over the sea, and distances to everything gas may come back through."""

from collections.abc import Iterator

from dossier.checking.finding import Finding, Item
from dossier.notation import NotAssessed, Real
from dossier.rendering.answers import triple
from dossier.rendering.blocks import Align, Block, Column, Figure, Note, Pair, Table
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import MM
from dossier.rendering.numbers import NOT_APPLICABLE, SPACE, Limits
from dossier.rendering.text import Text
from dossier.sizing.exhaust import ExhaustStudy, OutletDistance
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


def without_unit(draft: Draft, value: Real) -> str:
    """A height rounded down, its unit standing elsewhere."""
    return rounded_down(draft, value, CHECK).removesuffix(f"{SPACE}{draft.numbers.unit(CHECK)}")


def height_of(draft: Draft, study: ExhaustStudy, degrees: str | None) -> tuple[str, str]:
    """Height of the outlet and its limit as the table prints them: upright, or at an angle of heel."""
    check = OUTLET_HEIGHT if degrees is None else OUTLET_HEELED
    finding, place = _of_check(draft, check), 0
    if degrees is not None and not isinstance(study.outlet, NotAssessed):
        place = [attitude.degrees for attitude in study.outlet.heeled].index(degrees)
    parts = parts_of(finding)
    if finding is None or place >= len(parts):
        return NOT_APPLICABLE, ""
    found, limit, _ = _bare(draft, finding, parts[place])
    return found, limit


def beside(draft: Draft, study: ExhaustStudy, figure: Figure | None) -> Iterator[Block]:
    """Heights and distances in two small tables, beside the figure where there is one."""
    heights, openings = heights_table(draft, study), openings_table(draft, study)
    tables = [table for table in (heights, openings) if table is not None]
    if figure is not None and tables:
        yield Pair([figure], tables, left_width=figure.drawing.width / MM)
    elif len(tables) > 1:
        yield Pair(tables[:1], tables[1:], left_width=HEIGHTS_WIDTH)
    else:
        yield from tables
    if not study.distances:
        yield Note(draft.words("survey_exhaust.openings_none"))


def heights_table(draft: Draft, study: ExhaustStudy) -> Table | None:
    """Outlet and loop over the sea, upright, heeled and trimmed; None where they are not known."""
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
            without_unit(draft, trim.height),
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
    loop = NOT_APPLICABLE if top is None else without_unit(draft, top)
    return [label, found, limit, margin, loop]


def _bare(draft: Draft, finding: Finding, item: Item) -> tuple[str, str, str]:
    """Found, limit and margin without units."""
    shown, unit = triple(draft.numbers, finding.limit.row, item), f"{SPACE}{draft.numbers.unit(CHECK)}"
    return tuple(each.removesuffix(unit) for each in (shown.found, shown.limit, shown.margin))  # type: ignore[return-value]  # three


Near = tuple[OutletDistance, str, str, str]
"""What lies near the outlet, with found, limit and margin without their unit."""


def distances(draft: Draft, study: ExhaustStudy) -> list[Near]:
    """Everything that is listed with a distance, the nearest first."""
    known = {each.name: each for each in study.distances if each.distance is not None}
    found: dict[str, Near] = {}
    for check in TO_OPENINGS:
        finding = _of_check(draft, check)
        for item in parts_of(finding):
            if finding is not None and item.what in known and item.what not in found:
                found[item.what] = (known[item.what], *_bare(draft, finding, item))
    return sorted(found.values(), key=lambda near: float(near[0].distance or 0.0))


def openings_table(draft: Draft, study: ExhaustStudy) -> Table | None:
    """Distances to everything that is listed; None where nothing is."""
    words, unit = draft.words, draft.numbers.unit(CHECK)
    listed = distances(draft, study)
    if not listed:
        return None
    return Table(
        [
            Column(words("survey_exhaust.opening")),
            Column(words("survey_exhaust.distance"), unit, NUMBER),
            Column(words("survey_exhaust.limit"), unit, NUMBER),
            Column(words("survey_exhaust.margin"), unit, NUMBER, strong=True),
        ],
        [[_named(near), found, limit, margin] for near, found, limit, margin in listed],
        words("survey_exhaust.openings"),
        key="table_openings",
        notes=words("survey_exhaust.openings_notes"),
    )


def _named(near: OutletDistance) -> str:
    """Name of an opening, with its kind where the name does not say it."""
    kind = near.kind or ""
    return near.name if not kind or kind.casefold() in near.name.casefold() else f"{near.name} ({kind})"
