"""Section 5.1: where the exhaust passes bulkheads, and which other ways out there are."""

from collections.abc import Iterator

from dossier.checking.candidates import Candidate, ways_out
from dossier.data.catalogue import catalogue
from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import Align, Block, Column, Note, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import Limits
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.text import Text, strong
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.exhaust_passages import PassageStudy

NUMBER = Align.NUMBER
WOOD = "exhaust.combustible_temperature"


def passages(said: FindingWords, study: ExhaustStudy) -> Iterator[Block]:
    """One row for each bulkhead, deck or hull the exhaust passes."""
    draft, words = said.draft, said.words
    if not study.passages:
        yield Note(words("survey_exhaust.passages_none"))
        return
    unit, warm = draft.numbers.unit("length_check"), draft.numbers.unit("temperature")
    heads = (
        ("passage", "", Align.TEXT),
        ("material", "", Align.TEXT),
        ("thickness", unit, NUMBER),
        ("hole", unit, NUMBER),
        ("outside", unit, NUMBER),
        ("gap", unit, NUMBER),
        ("sleeve", "", Align.TEXT),
        ("closing", "", Align.TEXT),
        ("wood", warm, NUMBER),
        ("wood_limit", warm, NUMBER),
    )
    yield Table(
        [Column(words(f"survey_exhaust.{name}"), of, align) for name, of, align in heads],
        [_passage(draft, passage) for passage in study.passages],
        words("survey_exhaust.passages"),
        key="table_passages",
        notes=words("survey_exhaust.passages_notes"),
        span=Span.FULL,
    )


def _passage(draft: Draft, passage: PassageStudy) -> list[Text]:
    words, written = draft.words, passage.written
    unknown = words("survey_exhaust.unknown")
    sleeve = (
        unknown if written.sleeve is None else words(f"survey_exhaust.{'yes' if written.sleeve else 'no'}")
    )
    closing: Text = written.closing if isinstance(written.closing, str) else unknown
    if isinstance(written.closing, No):
        closing = words("survey_exhaust.open_gap")
    limit = next((f.limit.value for f in draft.assessment.findings if f.check == WOOD), None)
    edge = wood = "—"
    if passage.temperature is not None and limit is not None:
        judged = draft.numbers.judged(
            float(passage.temperature), float(limit), "temperature", Limits.MAXIMUM, units=False
        )
        edge, wood = judged.found, judged.limit
    gap = "—"
    if passage.gap is not None:
        gap = draft.numbers.judged(
            float(passage.gap), float(passage.gap) - 1.0, "length_check", Limits.MINIMUM, units=False
        ).found
    return [
        strong(passage.name),
        draft.named(written.material or "") or unknown,
        draft.cell(written.thickness, "length_check"),
        draft.cell(written.hole, "length_check"),
        draft.cell(passage.outside, "length_check"),
        gap,
        sleeve,
        closing,
        edge,
        wood,
    ]


def ways(said: FindingWords) -> Iterator[Block]:
    """The exhaust as it is beside its candidates; nothing where there are none."""
    draft, words = said.draft, said.words
    if not draft.study.candidates:
        return
    unit = draft.numbers.unit("length_check")
    heads = (
        ("candidate", "", Align.TEXT),
        ("length", draft.numbers.unit("length"), NUMBER),
        ("bends", draft.numbers.unit("angle"), NUMBER),
        ("upright_height", unit, NUMBER),
        ("heeled_height", unit, NUMBER),
        ("nearest_opening", unit, NUMBER),
        ("passages_count", "", NUMBER),
        ("not_met", "", Align.TEXT),
        ("note", "", Align.TEXT),
    )
    yield Table(
        [Column(words(f"survey_exhaust.{name}"), of, align) for name, of, align in heads],
        [_way(said, way) for way in ways_out(draft.study)],
        words("survey_exhaust.candidates"),
        key="table_candidates",
        notes=words("survey_exhaust.candidates_notes"),
        span=Span.FULL,
    )


def _way(said: FindingWords, candidate: Candidate) -> list[Text]:
    draft, words, way = said.draft, said.words, candidate.way
    known = None if isinstance(way.outlet, NotAssessed) else way.outlet
    route = None if isinstance(way.route, NotAssessed) else way.route
    heeled = min((float(each.height) for each in known.heeled), default=None) if known else None
    missed = [said.number(finding) for finding in candidate.not_met if finding.check in catalogue()]
    return [
        strong(draft.named(candidate.name) or words("survey_exhaust.as_it_is")),
        draft.cell(way.length, "length"),
        draft.cell(route.bends if route else None, "angle"),
        draft.cell(known.upright if known else None, "length_check"),
        draft.cell(heeled, "length_check"),
        draft.cell(way.nearest.distance if way.nearest else None, "length_check"),
        str(len(way.passages)),
        ", ".join(missed) or words("survey_exhaust.none"),
        candidate.reason,
    ]
