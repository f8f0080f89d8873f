"""How was this result found? Its working as text for a terminal, down to the lines of the project file.

``explanation(assessment, "heat_loss.total")``. Steps are numbered from the result downwards, each told once;
numbers are SI, as formulas take them, with the trade's unit in brackets. Knows no paper.
"""

from collections import Counter, deque
from collections.abc import Iterator
from typing import TYPE_CHECKING

from dossier.assessment import assess
from dossier.checking.finding import Finding, Status
from dossier.data.check_numbers import number_of
from dossier.notation import (
    DossierError,
    Given,
    Line,
    PageFault,
    Quantity,
    Result,
    Row,
    Traced,
    Working,
    origin_of,
    slug,
    workings_behind,
)
from dossier.project.nearest import near_names
from dossier.rendering.answers import triple
from dossier.rendering.numbers import MINUS, Numbers, System, display, kind_of
from dossier.rendering.plain_table import aligned, steerless

if TYPE_CHECKING:
    from dossier.assessment import Assessment
    from dossier.project import Project

FIGURES, KELVIN_FIGURES = 4, 5
PLACES_OF_NAMES = (
    "zones",
    "components",
    "circuit.branches",
    "build_ups",
    "materials",
    "modes",
    "alternatives",
)
"""Where a name of the user alone is looked for."""
SAMPLED = ("uncertainty.", "document.assumed_effect")
"""First words of results that are sampled when asked for."""
MOST_INPUTS = 24
"""Inputs of a step that are listed; of a circuit solved as a whole the rest is counted."""


def explanation(
    assessment: "Assessment", name: str, *, depth: int | None = None, units: str = "metric"
) -> str:
    """The working of a result, the standing of a check, or what was read under a key; as text.

    ``depth`` counts steps down from the result (all). Raises DossierError with the nearest names where
    nothing is called so.
    """
    other = _of_alternative(assessment.project, name.strip())
    if other is not None:
        return explanation(assess(other[0]), other[1], depth=depth, units=units)
    teller = _Teller(assessment, Numbers(System(units)), depth)
    results = assessment.spreads if name.strip().startswith(SAMPLED) else assessment.results
    asked = name if name in results else ".".join(slug(part) for part in name.strip().split("."))
    check = next((finding for finding in assessment.findings if finding.check == name.strip()), None)
    lines: list[str] = []
    if asked in results:
        lines += _result(assessment, asked, results[asked], teller)
    if check is not None:
        lines += [
            *([""] if lines else []),
            *_check(check, teller, known=asked in results),
        ]
    if not lines:
        lines = _under(assessment.project, name.strip())
    if not lines:
        raise DossierError(_unknown(assessment, name))
    return "\n".join(steerless(line) for line in lines)


def known_names(assessment: "Assessment") -> tuple[str, ...]:
    """Every name that can be explained: results, checks, keys of the file."""
    checks = [finding.check for finding in assessment.findings]
    return tuple(dict.fromkeys([*assessment.results, *checks, *assessment.project.written_keys()]))


def _unknown(assessment: "Assessment", name: str) -> str:
    """That nothing is called so, and what is."""
    near = near_names(name.strip(), known_names(assessment))
    hint = f"perhaps {', '.join(near)}" if near else "dossier check FILE --json lists the results"
    waits = [f for f in assessment.findings if f.status is Status.NOT_ASSESSED]
    lacking = "; a result that waits for a figure has no working yet" if waits and not near else ""
    return f"no result, check or key is called {name!r}; {hint}{lacking}"


def _of_alternative(project: "Project", name: str) -> "tuple[Project, str] | None":
    """The alternative a result belongs to (``alternative.NAME.RESULT``), and the result's name in it."""
    for other in project.alternatives or ():
        head = f"alternative.{slug(other)}."
        if name.startswith(head):
            return project.alternative(other), name.removeprefix(head)
    return None


def _result(assessment: "Assessment", name: str, result: Result, teller: "_Teller") -> Iterator[str]:
    yield f"{name}: {result.quantity.label}"
    head = f"{result.quantity.symbol} = {said(float(result.value), result.quantity, teller.numbers)}"
    yield f"{head}, basis {assessment.basis(name)}"
    yield from teller.steps(result.value)


def _check(finding: Finding, teller: "_Teller", *, known: bool) -> Iterator[str]:
    row, shown = finding.limit.row, triple(teller.numbers, finding.limit.row, finding)
    yield f"check {number_of(finding.check)}, {finding.check}: {row.title}"
    yield f"{finding.status} (severity {finding.severity})"
    if finding.missing:
        yield f"waits for {', '.join(finding.missing)}"
    yield from aligned(
        [
            ("found", shown.found, finding.place),
            ("limit", shown.limit, f"{finding.limit.basis}: {finding.limit.source}"),
            ("margin", shown.margin, ""),
        ]
    )
    if finding.why or finding.remark:
        yield finding.why or finding.remark
    if row.advice and finding.status is not Status.MET:
        yield f"advice: {row.advice}"
    if not known and isinstance(finding.found, Traced):
        yield from teller.steps(finding.found)


class _Teller:
    """Tells steps, and which of them are results of their own."""

    def __init__(self, assessment: "Assessment", numbers: Numbers, depth: int | None) -> None:
        self.numbers, self.depth = numbers, depth
        self.order: dict[int, int] = {}
        self.names: dict[int, str] = {}
        for name, result in assessment.results.items():
            origin = origin_of(result.value)
            if isinstance(origin, Working):
                self.names.setdefault(id(origin), name)

    def steps(self, number: object) -> Iterator[str]:
        """All steps behind a number, from the last to the first, each numbered."""
        origin = origin_of(number)
        if not isinstance(origin, Working):
            yield f"  {_end(origin)}"
            return
        self.order = {id(origin): 1}
        level = {id(origin): 1}
        waiting = deque([origin])
        while waiting:
            working = waiting.popleft()
            for given in working.given:
                behind = origin_of(given.value)
                if isinstance(behind, Working) and id(behind) not in level:
                    level[id(behind)] = level[id(working)] + 1
                    if self.depth is None or level[id(behind)] <= self.depth:
                        self.order[id(behind)] = len(self.order) + 1
                        waiting.append(behind)
            yield ""
            yield from self._step(working)

    def _step(self, working: Working) -> Iterator[str]:
        statement = working.statement
        number = f"{self.order[id(working)]}."
        name = self.names.get(id(working), "")
        yield f"{number:<4}{name or statement.gives.label}: {statement.text}   [{statement.source}]"
        given = [one for one in working.given if one.value is not None]
        rows = [self._given(one) for one in given[:MOST_INPUTS]]
        yield from (f"      {line}" for line in aligned(rows))
        if len(given) > MOST_INPUTS:
            yield f"      and {len(given) - MOST_INPUTS} more: {_counted(given[MOST_INPUTS:])}"
        yield f"    = {said(working.value, statement.gives, self.numbers)}"

    def _given(self, given: Given) -> tuple[str, str, str]:
        quantity, origin = given.quantity, origin_of(given.value)
        if quantity is None or not isinstance(given.value, float | int):
            return "", str(getattr(given.value, "value", given.value)), ""
        shown = said(float(given.value), quantity, self.numbers)
        if isinstance(origin, Working):
            label = self.names.get(id(origin), quantity.label)
            return quantity.symbol, shown, f"{label}; {self._place(given.value, origin)}"
        return quantity.symbol, shown, f"{quantity.label}; {_end(origin)}" if origin else quantity.label

    def _place(self, number: object, origin: Working) -> str:
        place = self.order.get(id(origin))
        if place:
            return f"step {place}"
        steps = sum(1 for _ in workings_behind(number))
        return f"{steps} step{'s' if steps != 1 else ''} further down"


def _counted(given: list[Given]) -> str:
    """What many inputs are, by their labels."""
    labels = Counter(one.quantity.label if one.quantity else "words" for one in given)
    return ", ".join(f"{count} of {label}" for label, count in labels.items())


def _end(origin: Line | Row | None) -> str:
    """The line of the file, or the row of a table, that a number rests on."""
    if isinstance(origin, Line):
        if origin.line is None:
            return f"{origin.key} assumed: {origin.text} ({origin.source or 'table of assumptions'})"
        return f"{origin.file}:{origin.line}  {origin.key}: {_written(origin)}"
    if isinstance(origin, Row):
        return f"table {origin.table}, {origin.row} ({origin.source})"
    return "a sum of nothing: the file names nothing of the kind"


def _written(line: Line) -> str:
    """What a line says, and what it rests on."""
    note = f", {line.note}" if line.note else ""
    return f"{line.text} ({line.basis}{note})"


def _under(project: "Project", name: str) -> list[str]:
    """What was read under a key: each value with its line, short forms written out."""
    keys = (name, *(f"{place}.{name}" for place in PLACES_OF_NAMES))
    key = next((key for key in keys if any(True for _ in project.under(key))), None)
    if key is None:
        return []
    rows = []
    for line in project.under(key):
        if line.text:
            indent = "  " * max(line.key.count(".") - key.count(".") - 1, 0)
            inner = line.key[len(key) + 1 :] or key.rpartition(".")[2]
            spread = f", spread {_spread(line)}" if line.spread else ""
            note = f", {line.note}" if line.note else ""
            place = f"{line.file}:{line.line}" if line.line else "assumed"
            rows.append((f"{indent}{inner}", line.text, f"{place}  {line.basis}{spread}{note}"))
    spreads = " (limits of a spread are SI)" if any("spread [" in row[2] for row in rows) else ""
    return [f"{key}, as read{spreads}", *aligned(rows)]


def _spread(line: Line) -> str:
    low, high = line.spread or (0.0, 0.0)
    return f"[{figure(low)} … {figure(high)}]"


def figure(number: float, unit: str = "") -> str:
    """A number in four figures (temperatures in five), for a terminal.

    >>> figure(5143.126), figure(0.00001234), figure(263.15, "K")
    ('5,143', '1.234e−5', '263.15')
    """
    figures = KELVIN_FIGURES if unit == "K" else FIGURES
    text = f"{number:.{figures}g}"
    if "e" in text:
        mantissa, _, power = text.partition("e")
        text = f"{mantissa}e{int(power)}" if abs(number) < 1 else f"{float(text):,.0f}"
    else:
        whole, point, rest = text.partition(".")
        text = f"{int(whole):,}{point}{rest}" if whole.lstrip("-") not in {"", "0"} else text
    return text.replace("-", MINUS)


def said(number: float, quantity: Quantity, numbers: Numbers) -> str:
    """A number in SI, and in the trade's unit where that is another."""
    unit = quantity.unit
    plain = figure(number, unit) + ("" if unit in {"1", ""} else f" {unit}")
    try:
        kind = _kind_of_time(number) if unit == "s" else kind_of(quantity)
    except PageFault:
        return plain
    shown = display(kind, numbers.system)
    written = numbers.said(number, kind)
    small = number != 0 and not any(digit in written for digit in "123456789")
    return (
        plain
        if small or unit in {"1", ""} or shown.text.translate(RAISED) == unit
        else f"{plain} ({written})"
    )


def _kind_of_time(seconds: float) -> str:
    """In which unit people count so long a time."""
    sizes = ((2 * 86400.0, "time_days"), (2 * 3600.0, "time_hours"), (120.0, "time_minutes"))
    return next((kind for least, kind in sizes if abs(seconds) >= least), "time_seconds")


RAISED = str.maketrans("²³", "23")
