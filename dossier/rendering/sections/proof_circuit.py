"""The circuit on the proof: units and runs in the order of flow, as they were entered."""

from collections.abc import Iterator, Sequence
from typing import Any

from dossier.checking.guesses import basis_of, rated_basis
from dossier.notation import Basis
from dossier.project.model.circuit import Group, Pipe
from dossier.project.model.circuit import Unit as Placed
from dossier.rendering.blocks import Align, Block, Column, Heading, Note, Span, Table
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.text import Text, strong
from dossier.sizing.parts import rating_of

NUMBER = Align.NUMBER
INDENT = "\u00a0" * 4


def circuit(draft: Draft) -> Iterator[Block]:
    """One line for each unit and run; branches stand in."""
    words, written = draft.words, draft.project.circuit
    yield Heading(3, words("proof.circuit"))
    if written is None or not written.ring:
        yield Note(words("proof.no_circuit", keys=draft.keys(("circuit.ring",))))
        return
    yield Table(
        [
            Column(words("proof.column_flow"), width=56.0),
            Column(words("proof.column_size"), width=42.0),
            Column(words("proof.column_length"), draft.numbers.unit("length"), NUMBER, width=16.0),
            Column(words("proof.column_bends"), "", NUMBER, width=14.0),
            Column(words("proof.column_basis"), width=26.0),
        ],
        list(_items(draft, written.ring, 0)),
        words("proof.circuit_caption"),
        key="table_proof_circuit",
        notes=_unused(draft, written.ring),
        span=Span.FULL,
    )


def _items(draft: Draft, items: Sequence[Any], depth: int) -> Iterator[Sequence[Cell]]:
    for item in items:
        if isinstance(item, Placed):
            yield _unit(draft, item.unit, depth)
        elif isinstance(item, Pipe):
            yield [
                INDENT * depth + item.id,
                item.size or draft.said(item.bore, "length_check"),
                draft.cell(item.length, "length"),
                draft.cell(item.bends, "count"),
                _basis(draft, basis_of(item)),
            ]
        elif isinstance(item, Group):
            first, last = item.between
            yield _unit(draft, first, depth)
            for name, branch in item.branches.items():
                yield [
                    draft.words("proof.branch", indent=INDENT * (depth + 1), name=draft.named(name)),
                    "",
                    "",
                    "",
                    "",
                ]
                yield from _items(draft, branch, depth + 2)
            yield _unit(draft, last, depth)


def _unit(draft: Draft, tag: str, depth: int) -> Sequence[Cell]:
    part = (draft.project.components or {}).get(tag)
    if part is None:
        return [INDENT * depth + tag, NOT_APPLICABLE, "", "", ""]
    what = draft.words("proof.unit", indent=INDENT * depth, tag=tag, kind=draft.named(part.kind))
    return [
        strong(what),
        rating_of(part) or NOT_APPLICABLE,
        "",
        "",
        _basis(draft, rated_basis(part) or basis_of(part)),
    ]


def _basis(draft: Draft, basis: Basis | None) -> Text:
    if basis is None:
        return NOT_APPLICABLE
    said = draft.words(f"pages.basis_{basis.value}")
    return strong(said) if basis is Basis.ASSUMED else said


def _unused(draft: Draft, ring: Sequence[Any]) -> Text:
    """Components that stand nowhere in the ring."""
    placed = set(_tags(ring))
    rest = [tag for tag in draft.project.components or {} if tag not in placed]
    return draft.words("proof.unused", tags=", ".join(rest)) if rest else ""


def _tags(items: Sequence[Any]) -> Iterator[str]:
    for item in items:
        if isinstance(item, Placed):
            yield item.unit
        elif isinstance(item, Group):
            yield from item.between
            for branch in item.branches.values():
                yield from _tags(branch)
