"""A comparison of two revisions as text for a terminal. Knows no paper."""

from collections import Counter
from collections.abc import Container, Iterator, Sequence

from dossier.assessment import Assessment
from dossier.comparison import Comparison, Input, Moved, Reasons
from dossier.data.check_numbers import number_of
from dossier.notation import DossierError, Line
from dossier.project.nearest import near_names
from dossier.rendering.answers import triple
from dossier.rendering.explanation import said
from dossier.rendering.numbers import Numbers
from dossier.rendering.plain_table import aligned, steerless

MOST_INPUTS, MOST_RESULTS = 60, 30
HEADLINES = (
    "heat_loss.total", "exhaust.length", "store.running_time", "fuel.autonomy", "electrics.autonomy",
    "coolant.volume", "mass.filled",
)  # fmt: skip
"""Results that are explained unless others are asked for; of these, those that moved."""
MOST_HEADLINES = 4
NOTHING = "—"


def comparison_text(
    found: Comparison, names: Sequence[str], *, why: Sequence[str] = (), everything: bool = False
) -> str:
    """What changed between two revisions: inputs, findings, results, and why results moved.

    ``names`` are what the two are called; ``why`` are results to explain, else those of most weight;
    ``everything`` lists all inputs and results. Raises DossierError for a result that nobody knows or that
    did not move.
    """
    heads = [_called(name, each) for name, each in zip(names, (found.before, found.after), strict=True)]
    asked = [_asked(found, name) for name in why] or _headlines(found)
    parts = [
        list(aligned([("A", *heads[0]), ("B", *heads[1])])),
        list(_inputs(found.inputs, everything=everything)),
        list(_findings(found)),
        list(_results(found, everything=everything)),
        *(list(_reasons(found.why(name))) for name in asked),
    ]
    if not (found.inputs or found.results or found.findings):
        parts = [parts[0], ["Nothing differs: inputs, results and findings are the same."]]
    return "\n\n".join("\n".join(steerless(line) for line in part) for part in parts if part) + "\n"


def _called(name: str, assessment: Assessment) -> tuple[str, str, str]:
    document = assessment.project.document
    number = (document.number if document else None) or "no document number"
    revision = f"revision {document.revision}" if document and document.revision else "no revision"
    date = str(document.date) if document and document.date else ""
    return f"{number}, {revision}", date, name


def _inputs(inputs: Sequence[Input], *, everything: bool) -> Iterator[str]:
    """Keys that differ; an entry that is new or gone once, a new basis once for all figures of an entry."""
    if not inputs:
        return
    rows = [_row(each) for each in inputs] if everything else list(_drawn_together(inputs))
    shown = rows if everything else rows[:MOST_INPUTS]
    yield f"{_count(len(inputs), 'input differs', 'inputs differ')}:"
    yield from (f"  {line}" for line in aligned(shown))
    if len(shown) < len(rows):
        yield f"  and {len(rows) - len(shown)} more (--all lists them)"


Row = tuple[str, str, str, str]


def _row(each: Input) -> Row:
    return each.key, _written(each.before, each.after), "→", _written(each.after, each.before)


def _drawn_together(inputs: Sequence[Input]) -> Iterator[Row]:
    only_one = {each.key for each in inputs if each.before is None or each.after is None}
    within = Counter(_outermost(key, only_one) for key in only_one)
    bases = Counter(map(_new_basis, inputs))
    told: set[tuple[str, str, str]] = set()
    for each in inputs:
        basis = _new_basis(each)
        if each.key in only_one:
            if within[each.key]:
                inner = within[each.key] - 1
                more = f" ({_count(inner, 'key', 'keys')} in it)" if inner else ""
                key, before, arrow, after = _row(each)
                yield key, before + (more if each.before else ""), arrow, after + (more if each.after else "")
        elif basis is None or bases[basis] == 1:
            yield _row(each)
        elif basis not in told:
            told.add(basis)
            entry, before, after = basis
            yield f"{entry}: {bases[basis]} values", f"({before})", "→", f"({after})"


def _outermost(key: str, known: Container[str]) -> str:
    """The outermost key round a key that is new or gone as well."""
    parts = key.split(".")
    return next(outer for n in range(1, len(parts) + 1) if (outer := ".".join(parts[:n])) in known)


def _new_basis(each: Input) -> tuple[str, str, str] | None:
    """Entry, old and new basis of a value that has no more than a new basis."""
    if each.is_value or each.before is None or each.after is None:
        return None
    return ".".join(each.key.split(".")[:2]), str(each.before.basis), str(each.after.basis)


def _written(line: Line | None, other: Line | None) -> str:
    """What a key says, with its basis where that is another."""
    if line is None:
        return NOTHING
    changed = other is not None and other.basis is not line.basis
    if not line.text:
        return "(blank)" if other is not None else "(written)"
    return f"{line.text} ({line.basis})" if changed else line.text


def _findings(found: Comparison) -> Iterator[str]:
    if not found.findings:
        return
    yield f"{_count(len(found.findings), 'check came', 'checks came')} to another status:"
    numbers, rows = Numbers(), []
    for turned in found.findings:
        row = turned.after.limit.row
        shown = triple(numbers, row, turned.after)
        judged = f"{shown.found}, limit {shown.limit}" if shown.found != NOTHING else ""
        number = str(number_of(turned.after.check))
        rows.append((number, row.title, str(turned.before.status), "→", str(turned.after.status), judged))
    yield from (f"  {line}" for line in aligned(rows, frozenset({0})))


def _results(found: Comparison, *, everything: bool) -> Iterator[str]:
    if not found.results:
        return
    yield f"{_count(len(found.results), 'result moved', 'results moved')}, those that moved most first:"
    shown = found.results if everything else found.results[:MOST_RESULTS]
    rows = [(each.name, _said(each, each.before), "→", _said(each, each.after), _by(each)) for each in shown]
    yield from (f"  {line}" for line in aligned(rows))
    if len(shown) < len(found.results):
        yield f"  and {len(found.results) - len(shown)} more (--all lists them)"


def _said(moved: Moved, value: float | None) -> str:
    return NOTHING if value is None else said(value, moved.quantity, Numbers())


def _by(moved: Moved) -> str:
    """By what share of the first it moved, temperatures by how much."""
    if not moved.before or moved.after is None:
        return ""
    if moved.quantity.unit == "K":
        return f"{moved.after - moved.before:+.3g} K".replace("-", "−")
    return f"{(moved.after - moved.before) / abs(moved.before) * 100:+.3g} %".replace("-", "−")


def _reasons(reasons: Reasons) -> Iterator[str]:
    """Share of each change alone, then what all do together."""
    moved, total = reasons.moved, reasons.total
    yield f"Why {moved.name} moved from {_said(moved, moved.before)} to {_said(moved, moved.after)}:"
    rows = [
        (share.change, NOTHING if share.move is None else _move(moved, share.move), share.why_not)
        for share in reasons.heavy
    ]
    rows.append(("all together, beyond each alone (residual)", _move(moved, reasons.residual), ""))
    rows.append(("whole move", _move(moved, total), ""))
    yield from (f"  {line}" for line in aligned(rows, frozenset({1})))
    still = len(reasons.shares) - len(reasons.heavy)
    if still:
        yield f"  {_count(still, 'other change moves', 'other changes move')} it not at all"


def _move(moved: Moved, by: float) -> str:
    unit = "" if moved.quantity.unit == "1" else f" {moved.quantity.unit}"
    return f"{by:+,.4g}{unit}".replace("-", "−")


def _headlines(found: Comparison) -> list[str]:
    """Results to explain: those of most weight that moved, else those that moved most."""
    both = [each.name for each in found.results if each.before is not None and each.after is not None]
    moved = [name for name in HEADLINES if name in both]
    return (moved or both)[:MOST_HEADLINES]


def _asked(found: Comparison, name: str) -> str:
    moved = {each.name: each for each in found.results}
    if name in moved and moved[name].before is not None and moved[name].after is not None:
        return name
    if name in found.before.results and name in found.after.results:
        raise DossierError(f"{name} did not move")
    near = near_names(name, moved)
    raise DossierError(
        f"no result called {name!r} stands in both" + (f"; perhaps {', '.join(near)}" if near else "")
    )


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"
