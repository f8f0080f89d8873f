"""The proof: two or three pages on which the owner sees whether the file says what was meant."""

from collections.abc import Iterator, Sequence

from dossier.checking.guesses import ranked
from dossier.notation import Basis, NotAssessed
from dossier.rendering.answers import missing_keys
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Bullets,
    Column,
    Heading,
    Note,
    Paragraph,
    Span,
    Table,
)
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.sections.exhaust_figures import elevation, plan
from dossier.rendering.sections.measure_next import WHOLE, what_moves
from dossier.rendering.sections.proof_circuit import circuit
from dossier.rendering.sections.proof_rooms import rooms
from dossier.rendering.text import Text, strong, text
from dossier.sizing.common_sense import FREEBOARD, HEADROOM, Total, totals

NUMBER = Align.NUMBER
MOST = 14
"""Guesses named one by one."""


def section(draft: Draft) -> Iterator[Block]:
    """Totals, rooms, circuit, exhaust, guesses."""
    words = draft.words
    yield Heading(1, words("proof.title"), key="proof", numbered=False)
    yield _answer(draft)
    yield Paragraph(words("proof.owner_only"))
    yield _totals(draft)
    yield from _doubts(draft)
    yield from rooms(draft)
    yield from circuit(draft)
    yield from _guesses(draft)
    yield from _exhaust(draft)


def _answer(draft: Draft) -> Answer:
    words = draft.words
    guessed = sum(line.basis is Basis.ASSUMED for line in draft.project.inputs())
    every = sum(1 for _ in draft.project.inputs())
    odd = sum(total.is_usual is False for total in totals(draft.study))
    return Answer(
        words(
            "proof.answer", every=every, guessed=guessed, missing=len(missing_keys(draft.assessment.findings))
        ),
        words("proof.answer_odd", odd=odd),
    )


def _totals(draft: Draft) -> Table:
    words = draft.words
    return Table(
        [
            Column(words("proof.column_total"), width=52.0),
            Column(words("proof.column_amount"), align=NUMBER, width=22.0),
            Column(words("proof.column_against"), width=48.0),
            Column(words("proof.column_amount"), align=NUMBER, width=22.0),
            Column(words("proof.column_usual"), width=24.0),
        ],
        [_total(draft, total) for total in totals(draft.study)],
        words("proof.totals_caption"),
        key="table_proof_totals",
        notes=words("proof.totals_notes"),
        span=Span.FULL,
    )


def _total(draft: Draft, total: Total) -> Sequence[Cell]:
    words, row = draft.words, total.row
    verdict: Text = words("proof.not_known")
    if total.is_usual is not None:
        verdict = words("proof.usual") if total.is_usual else strong(words("proof.look_again"))
    ratio = words("proof.times", number=draft.cell(total.ratio, "tenths")) if row.ratio else ""
    return [
        row.what,
        draft.said(total.amount, row.shown),
        row.against.format(
            freeboard=draft.said(FREEBOARD, "length"), headroom=draft.said(HEADROOM, "length")
        ),
        draft.said(total.against, row.shown_against),
        text(ratio, ": ", verdict) if ratio and total.ratio is not None else verdict,
    ]


def _doubts(draft: Draft) -> Iterator[Block]:
    """What the reader of the file wondered about."""
    doubts = draft.project.warnings
    if doubts:
        yield Paragraph(draft.words("proof.doubts"))
        yield Bullets([str(doubt) for doubt in doubts])


def _guesses(draft: Draft) -> Iterator[Block]:
    """Every guess, the strongest first with what it moves; the others by their keys."""
    words = draft.words
    moving = {guess.key: guess for guess in ranked(draft.study)}
    lines = {line.key: line for line in draft.project.inputs() if line.basis is Basis.ASSUMED}
    keys = list(dict.fromkeys([*moving, *lines]))
    if not keys:
        yield Note(words("proof.no_guess"))
        return
    rows: list[Sequence[Cell]] = []
    for key in keys[:MOST]:
        line, guess = lines.get(key), moving.get(key)
        now: Text = line.text if line is not None else words("proof.silent")
        moved: Text = NOT_APPLICABLE
        if guess is not None:
            many = float(guess.effect) >= WHOLE
            share = words("limits.many_times") if many else draft.said(guess.effect, "share")
            moved = words("proof.moves", what=what_moves(draft, guess.result), share=share)
        number = str(line.line) if line is not None and line.line else NOT_APPLICABLE
        rows.append([key, now, moved, number])
    yield Table(
        [
            Column(words("proof.column_key"), width=68.0),
            Column(words("proof.column_now"), width=26.0),
            Column(words("proof.column_moves"), width=60.0),
            Column(words("proof.column_line"), align=NUMBER, width=12.0),
        ],
        rows,
        words("proof.guesses_caption", count=len(keys)),
        key="table_proof_guesses",
        notes=words("proof.guesses_more", keys=", ".join(keys[MOST:])) if keys[MOST:] else "",
        span=Span.FULL,
    )


def _exhaust(draft: Draft) -> Iterator[Block]:
    """The exhaust from the side and from above."""
    words, study = draft.words, draft.study.exhaust
    yield Heading(3, words("proof.exhaust"))
    if isinstance(study, NotAssessed):
        yield Note(draft.needs(study))
        return
    drawn = [figure for figure in (elevation(draft, study), plan(draft, study)) if figure is not None]
    if not drawn:
        known = draft.said(study.length, "length")
        yield Note(
            words("proof.no_route", length=known) if study.length is not None else words("proof.no_exhaust")
        )
    yield from drawn
