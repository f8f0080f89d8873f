"""Drawing 8: how every valve stands in every mode, as a matrix."""

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.valve_matrix import Cell, Matrix, Row, valve_matrix
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of
from dossier.rendering.sections.valve_plan import PlanRow, Stand, ValvePlan, valve_plan
from dossier.rendering.text import Markup


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed | Markup:
    """The sheets of the valve plan; what it waits for, or words that there is no valve to tell of."""
    plan = valve_plan(draft)
    if isinstance(plan, NotAssessed):
        return plan
    if not plan.rows:
        return draft.words("valve_plan.no_valves")
    matrix, words = drawn_matrix(draft, plan), draft.words
    said = {stand.value: str(words(f"valve_plan.mark_{stand.name.lower()}")) for stand in Stand}
    said |= {name: str(words(f"valve_plan.{name}")) for name in ("part", "name")}
    return sheets_of(
        draft,
        Subject(
            8,
            "valves",
            lambda form: valve_matrix(matrix, form, said),
            notes=(str(words("valve_plan.notes")),),
            tags=tuple(row.tag for row in plan.rows),
            words={"legend": str(words("valve_plan.legend"))},
        ),
    )


def drawn_matrix(draft: Draft, plan: ValvePlan) -> Matrix:
    """The plan as it is drawn."""
    rows = tuple(
        Row(row.tag, _name(draft, row), tuple(Cell(each.stand.value, each.said) for each in row.positions))
        for row in plan.rows
    )
    return Matrix(tuple(draft.capital(mode) for mode in plan.modes), rows)


def _name(draft: Draft, row: PlanRow) -> str:
    """What a part is, and the branch it lies in: ``balancing valve, saloon``."""
    name = f"overview.kind_{row.kind}"
    kind = str(draft.words(name)) if draft.words.has(name) else draft.words.told(draft.named(row.kind))
    where = draft.named(row.where)
    return f"{kind}, {where}" if where and where not in kind else kind
