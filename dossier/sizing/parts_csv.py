"""Parts list and cut list as text for a spreadsheet, safe to open: no cell can become a formula."""

import csv
import io
from collections.abc import Iterable, Sequence

from dossier.notation import Real
from dossier.sizing.cut_list import CutPiece
from dossier.sizing.part_rows import CUBIC_METRES, METRES, Part
from dossier.sizing.parts import Parts

PARTS_HEAD = (
    "group", "tag", "item", "size", "quantity", "waste", "to buy", "unit", "longest piece [m]",
    "counted from", "remark",
)  # fmt: skip
CUTS_HEAD = (
    "run", "branch", "size", "length [m]", "bends", "through", "from", "joint at from", "clamps at from",
    "to", "joint at to", "clamps at to", "insulation", "clips",
)  # fmt: skip
UNITS = {METRES: ("m", 1.0), CUBIC_METRES: ("l", 1000.0)}
STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def safe_cell(text: str) -> str:
    """A text that no spreadsheet takes for a formula: an apostrophe stands before what could be one.

    >>> safe_cell("=1+1"), safe_cell("hose 22")
    ("'=1+1", 'hose 22')
    """
    return f"'{text}" if text.lstrip(" ").startswith(STARTS_A_FORMULA) else text


def parts_csv(found: Parts) -> str:
    """The parts list as comma-separated text: metres, litres, pieces; one line for each part."""
    return _text(PARTS_HEAD, (part_cells(row) for row in found.rows))


def cut_list_csv(found: Parts) -> str:
    """The cut list as comma-separated text, one line for each run."""
    return _text(CUTS_HEAD, (cut_cells(cut) for cut in found.cuts))


def _text(head: Sequence[str], lines: Iterable[Sequence[str]]) -> str:
    written = io.StringIO()
    table = csv.writer(written, lineterminator="\r\n")
    table.writerow(head)
    for line in lines:
        table.writerow([safe_cell(cell) for cell in line])
    return written.getvalue()


def _number(value: Real | None, factor: float = 1.0) -> str:
    return "" if value is None else f"{round(float(value) * factor, 3):g}"


def part_cells(row: Part) -> tuple[str, ...]:
    """Cells of a line of the parts list, under ``PARTS_HEAD``."""
    unit, factor = UNITS.get(row.unit, ("pcs", 1.0))
    return (
        row.group,
        row.tag,
        row.item,
        row.size,
        _number(row.quantity, factor),
        _number(row.waste, factor),
        _number(row.to_buy, factor),
        unit,
        _number(row.longest),
        "; ".join(row.runs),
        row.remark,
    )


def cut_cells(cut: CutPiece) -> tuple[str, ...]:
    """Cells of a line of the cut list, under ``CUTS_HEAD``."""
    ends = [
        (" and ".join(end.meets), end.joint, str(clamps) if clamps else "")
        for end, clamps in zip((cut.start, cut.end), cut.clamps, strict=True)
    ]
    return (
        cut.tag,
        cut.branch,
        cut.size,
        _number(cut.length),
        _number(cut.bends),
        cut.through,
        *ends[0],
        *ends[1],
        cut.insulation,
        _number(cut.supports),
    )
