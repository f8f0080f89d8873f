"""Lists of a work package: what it takes, and what is cut to which length."""

from collections.abc import Iterator, Sequence

from dossier.data.commissioning import WorkPackage
from dossier.notation import Real
from dossier.rendering.blocks import Align, Block, Column, Note, Span, Table, Tick
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.text import Markup, Text, line_break, strong, text
from dossier.sizing.cut_list import CutPiece
from dossier.sizing.part_rows import METRES, Part

NUMBER, CENTRE = Align.NUMBER, Align.CENTRE
CHECK = "length_check"
COMPONENTS = "components"
PIPES = 5


def materials(draft: Draft, package: WorkPackage) -> Iterator[Block]:
    """Lines of the parts list that belong to the package; what it usually takes where there are none."""
    words = draft.words
    parts = [part for part in draft.study.parts.rows if _belongs(draft, part, package)]
    if not parts:
        yield Note(words("yard.materials_none", materials=package.materials))
        return
    tagged, wasted = any(part.tag for part in parts), any(part.waste is not None for part in parts)
    rows: list[Sequence[Cell]] = []
    for part in parts:
        buy = _amount(draft, part, part.to_buy)
        row: list[Cell] = [part.tag, _item(draft, part), _amount(draft, part, part.quantity), buy, Tick()]
        rows.append(
            [cell for cell, kept in zip(row, (tagged, True, True, wasted, True), strict=True) if kept]
        )
    columns = [
        Column(words("overview.tag"), width=9.0, strong=True),
        Column(words("yard.column_item"), width=61.0 - (11.0 if tagged else 0.0) - (15.0 if wasted else 0.0)),
        Column(words("yard.column_needed"), align=NUMBER, width=13.0),
        Column(words("yard.column_to_buy"), align=NUMBER, width=13.0),
        Column(words("yard.column_got"), align=CENTRE, width=9.0),
    ]
    kept = [True if n in {1, 2, 4} else tagged if n == 0 else wasted for n in range(len(columns))]
    yield Table(
        [column for column, is_kept in zip(columns, kept, strict=True) if is_kept],
        rows,
        words("yard.materials_caption", package=package.number),
        key=f"table_package_{package.number}_materials",
        notes=words("yard.materials_notes", wasted=wasted),
        span=Span.TEXT,
    )


def _item(draft: Draft, part: Part) -> Text:
    """Item and size, below it what is to be known of it."""
    named: Text = text(part.item, ", ", part.size) if part.size else part.item
    below = _remark(draft, part)
    return text(named, line_break(), below) if below else named


def _belongs(draft: Draft, part: Part, package: WorkPackage) -> bool:
    if part.group != COMPONENTS:
        return part.group in package.part_groups or any(
            part.group.startswith(f"{group},") for group in package.part_groups
        )
    component = (draft.project.components or {}).get(part.tag)
    return component is not None and component.kind in package.part_kinds


def _amount(draft: Draft, part: Part, amount: Real) -> str:
    kind = {METRES: "length", "1": "count"}.get(part.unit, "volume")
    return draft.said(amount, kind)


def _remark(draft: Draft, part: Part) -> Markup:
    parts: list[Text] = [draft.named(part.remark)] if part.remark else []
    if part.longest is not None and part.waste is not None:
        parts.append(draft.words("yard.longest", length=draft.said(part.longest, "length")))
    return text(*(piece for n, one in enumerate(parts) for piece in (("; ", one) if n else (one,))))


def cuts(draft: Draft) -> Iterator[Block]:
    """Every run as it is cut, with a box to tick."""
    pieces = draft.study.parts.cuts
    if not pieces:
        return
    words = draft.words
    yield Table(
        [
            Column(words("overview.tag"), width=24.0, strong=True),
            Column(words("yard.column_size"), width=21.0),
            Column(words("yard.column_length"), draft.numbers.unit(CHECK), NUMBER, width=14.0),
            Column(words("yard.column_bends"), "", NUMBER, width=11.0),
            Column(words("yard.column_joins"), width=26.0),
            Column(words("yard.column_clamps"), align=CENTRE, width=13.0),
            Column(words("yard.column_cut"), align=CENTRE, width=8.0),
        ],
        [_piece(draft, piece) for piece in pieces],
        words("yard.cuts_caption", package=PIPES),
        key="table_cuts",
        notes=words("yard.cuts_notes"),
        span=Span.FULL,
    )


def _piece(draft: Draft, piece: CutPiece) -> Sequence[Cell]:
    words = draft.words
    ends = [", ".join(end.meets) or NOT_APPLICABLE for end in (piece.start, piece.end)]
    clamps: Text = NOT_APPLICABLE
    if sum(piece.clamps):
        clamps = words("yard.clamps", first=piece.clamps[0], last=piece.clamps[1])
    return [
        piece.tag,
        piece.size,
        strong(draft.cell(piece.length, CHECK)),
        draft.cell(piece.bends, "count"),
        words("yard.joins", start=ends[0], end=ends[1]),
        clamps,
        Tick(),
    ]
