"""Section 6.19: what else could be done?"""

from collections.abc import Iterator, Sequence

from dossier.alternatives import Alternative, Alternatives
from dossier.data.catalogue import catalogue
from dossier.data.check_numbers import number_of
from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Paragraph, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, heading, missing
from dossier.rendering.text import Text, strong

NUMBER = Align.NUMBER
GRADES = ("dangers", "faults", "attentions")
FIGURES = {
    "load": "power",
    "reserve": "ratio",
    "starts_per_hour": "per_hour",
    "fuel_per_day": "volume",
}
"""Numbers of the table by the field of an alternative, and how each is printed."""


def section(draft: Draft) -> Iterator[Block]:
    """The recommendation, all of them side by side, then what each is and what it changes."""
    found = draft.alternatives
    if isinstance(found, NotAssessed):
        yield from missing(draft, "alternatives", "6.19", found)
        return
    words = draft.words
    yield heading(draft, "alternatives", "6.19")
    yield feeds(draft, [])
    yield _answer(draft, found)
    yield Paragraph(words("alternatives.reason", reason=f"{_numbered(found)}."))
    yield Paragraph(words("alternatives.method"))
    yield _side_by_side(draft, found)
    yield _changes(draft, found)
    for row in found.others:
        if row.fault:
            yield Note(words("alternatives.not_calculated", name=row.name, why=row.fault))


def _numbered(found: Alternatives) -> str:
    """The reason, with the checks by the numbers they bear on the pages."""
    turned = {check for row in found.others for check in (*row.cleared, *row.broken)}
    reason = found.reason
    for check in sorted(turned, key=len, reverse=True):
        reason = reason.replace(check, f"check {number_of(check)}")
    return reason


def _answer(draft: Draft, found: Alternatives) -> Answer:
    words, many = draft.words, len(found.others) > 1
    count = draft.numbers.text(float(len(found.others)), "count")
    if not found.recommended:
        return Answer(words("alternatives.none_better" if many else "alternatives.not_better", count=count))
    name = "alternatives.fewest" if many else "alternatives.fewer"
    return Answer(words(name, count=count, name=found.recommended))


def _side_by_side(draft: Draft, found: Alternatives) -> Table:
    words, unit = draft.words, draft.numbers.unit
    return Table(
        columns=[
            Column(words("alternatives.name")),
            *(Column(words(f"alternatives.{field}"), unit(kind), NUMBER) for field, kind in FIGURES.items()),
            Column(words("alternatives.mass"), unit("mass"), NUMBER),
            *(Column(words(f"alternatives.{grade}"), align=NUMBER) for grade in GRADES),
            Column(words("alternatives.parts")),
        ],
        rows=[_row(draft, found, row) for row in found.rows],
        caption=words("alternatives.caption"),
        key="table_alternatives",
        notes=words("alternatives.notes"),
    )


def _row(draft: Draft, found: Alternatives, row: Alternative) -> Sequence[Cell]:
    """One of them; figures that differ as printed from those of the project as it stands in bold."""
    words, base = draft.words, found.base
    own, usual = _figures(draft, row), _figures(draft, base)
    cells: list[Cell] = [strong(_named(draft, found, row))]
    cells += [strong(one) if one not in {other, "—"} else one for one, other in zip(own, usual, strict=True)]
    changed = [*row.added, *row.changed, *(str(words("alternatives.without", part=p)) for p in row.left_out)]
    cells.append("; ".join(changed) or "—")
    return cells


def _figures(draft: Draft, row: Alternative) -> list[str]:
    """Numbers of a row as printed."""
    told = [draft.cell(getattr(row, field), kind) for field, kind in FIGURES.items()]
    told.append(_mass(draft, row))
    for grade in GRADES:
        count = None if row.counts is None else float(getattr(row.counts, grade))
        told.append(draft.numbers.text(count, "count"))
    return told


def _named(draft: Draft, found: Alternatives, row: Alternative) -> Text:
    """Name of an alternative, that which is recommended with its mark."""
    name: Text = row.name or draft.words("alternatives.as_it_stands")
    if row.name and row.name == found.recommended:
        return draft.words("alternatives.recommended", name=name)
    return name


def _mass(draft: Draft, row: Alternative) -> str:
    """The whole system where all of it is weighed, else what is added."""
    if row.mass is not None:
        return draft.cell(row.mass, "mass")
    if not row.name or row.mass_added is None:
        return "—"
    return draft.numbers.text(float(row.mass_added), "mass", signed=True)


def _changes(draft: Draft, found: Alternatives) -> Table:
    """What each is, in the author's words, and which checks it turns."""
    words = draft.words

    def listed(checks: Sequence[str]) -> str:
        return "; ".join(f"{number_of(check)} {catalogue()[check].title}" for check in checks) or "—"

    return Table(
        columns=[
            Column(words("alternatives.name")),
            Column(words("alternatives.what")),
            Column(words("alternatives.cleared")),
            Column(words("alternatives.broken")),
        ],
        rows=[
            [strong(row.name), row.note or "—", listed(row.cleared), listed(row.broken)]
            for row in found.others
            if row.assessment is not None
        ],
        caption=words("alternatives.changes_caption"),
        key="table_alternative_checks",
    )
