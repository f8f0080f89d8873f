"""Drawing 4: the header over every wet point, upright and heeled."""

from collections.abc import Iterator
from dataclasses import fields
from math import degrees

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.heights import Heights, Stance, Wet
from dossier.rendering.drawings.heights_sheet import Words, heights_sheet
from dossier.rendering.drawings.space import PORT, STARBOARD, Cuboid
from dossier.rendering.sections.sheets_drawn import Subject, place_of, sheets_of
from dossier.rendering.text import Markup
from dossier.sizing.header_margins import HeaderMargin, HeaderMargins
from dossier.sizing.placement import boxes_of

CHECK = "length_check"


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed | Markup:
    """The sheet of the heights; what it waits for, or words that the circuit has no header."""
    words, found = draft.words, draft.study.header_margins
    circuit = draft.project.circuit
    if circuit is not None and circuit.system == "sealed":
        return words("drawings.heights_sealed")
    if isinstance(found, NotAssessed):
        return found
    heights = drawn_heights(draft, found)
    said = Words(**{each.name: str(words(f"drawings.heights_{each.name}")) for each in fields(Words)})
    notes = (str(words("drawings.heights_note", unit=draft.numbers.unit(CHECK))),)
    tags = (found.header, *(part.name for part in heights.parts))
    return sheets_of(
        draft,
        Subject(
            4,
            "heights",
            lambda form: (heights_sheet(heights, form, said),),
            notes=notes,
            tags=tags,
            words={"legend": said.legend},
        ),
    )


def drawn_heights(draft: Draft, found: HeaderMargins) -> Heights:
    """Header, points and conditions as they are drawn."""
    words = draft.words
    box = boxes_of(draft.project)[found.header]
    points = {
        point.name: Wet(point.name, draft.cell(point.z, CHECK), place_of((point.x, point.y, point.z)))
        for point in found.points
    }
    upright = Stance(
        str(words("survey_exhaust.view_upright")),
        str(words("survey_exhaust.view_waterline")),
        over=found.upright.over,
        found=_margin(draft, found.upright),
        limit=_limit(draft, "expansion.highest"),
    )
    stances = [upright]
    if found.heeled:
        furthest = max(found.heeled, key=lambda each: float(each.angle or 0.0))
        stances.append(_heeled(draft, found, furthest))
    return Heights(
        Cuboid(found.header, place_of(box.low), place_of(box.high)),
        str(words("drawings.heights_foot", height=draft.cell(found.bottom.z, CHECK))),
        tuple(points.values()),
        tuple(stances),
        tuple(_parts(draft, found.header)),
        tuple(_levels(draft, found.header)),
        tuple(_rows(draft, found)),
    )


def _margin(draft: Draft, margin: HeaderMargin) -> str:
    return draft.numbers.text(float(margin.margin), CHECK)


def _limit(draft: Draft, check: str) -> str:
    finding = next((each for each in draft.assessment.findings if each.check == check), None)
    if finding is None or finding.limit.value is None:
        return ""
    return f"≥ {draft.cell(finding.limit.value, CHECK)}"


def _heeled(draft: Draft, found: HeaderMargins, margin: HeaderMargin) -> Stance:
    """Heeled to the side on which the header comes down towards the point that counts."""
    point = next(each for each in found.points if each.name == margin.over)
    side = PORT if float(found.bottom.y) > float(point.y) else STARBOARD
    return Stance(
        str(draft.words("survey_exhaust.view_heeled", angle=draft.said(margin.angle, "angle"))),
        str(draft.words(f"survey_exhaust.view_to_{side}")),
        degrees(float(margin.angle or 0.0)),
        side,
        margin.over,
        _margin(draft, margin),
        _limit(draft, "expansion.highest_heeled"),
    )


def _parts(draft: Draft, header: str) -> Iterator[Cuboid]:
    """Parts of the ring that have a place."""
    circuit = draft.study.circuit
    ring = () if isinstance(circuit, NotAssessed) else circuit.places
    for tag, box in boxes_of(draft.project).items():
        if tag in ring and tag != header:
            yield Cuboid(tag, place_of(box.low), place_of(box.high))


def _levels(draft: Draft, header: str) -> Iterator[tuple[float, str]]:
    """The cold level, and the hot one where the expansion is known and the tank does not overflow."""
    tank = (draft.project.components or {}).get(header)
    share, volume = getattr(tank, "cold_level", None), getattr(tank, "volume", None)
    if share is None:
        return
    yield float(share), str(draft.words("drawings.level_cold"))
    grown = draft.study.expansion
    if volume is not None and not isinstance(grown, NotAssessed):
        hot = float(share) + float(grown.volume) / float(volume)
        if hot <= 1.0:
            yield hot, str(draft.words("drawings.level_hot"))


def _rows(draft: Draft, found: HeaderMargins) -> Iterator[tuple[str, ...]]:
    """Every condition with the point that counts, the margin and the limit."""
    words = draft.words
    heights = _limit(draft, "expansion.highest"), _limit(draft, "expansion.highest_heeled")
    for each in (found.upright, *found.heeled, *found.trimmed):
        kind = each.condition.partition("_")[0]
        angle = draft.said(each.angle, "angle") if each.angle is not None else ""
        name = str(words(f"drawings.heights_{kind}", angle=angle))
        yield name, each.over, _margin(draft, each), heights[kind != "upright"]
