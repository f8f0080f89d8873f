"""What changed between two revisions, and why did a result move?

found = compare(assess(load("a.yaml")), assess(load("b.yaml")))
found.why("heat_loss.total").shares

Every changed figure is put alone into the first project, and everything is calculated again: what a result
then moves is the share of that figure. What is left over is named and not spread: it is what the changes do
together.
"""

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from dossier.assessment import Assessment
from dossier.checking.finding import Finding
from dossier.notation import DossierError, Line, Quantity, Traced, named_results
from dossier.notation.records import dataclass
from dossier.sizing.study import study

SAME = 1e-5
"""Share by which a result may differ and count as the same: what solvers leave."""
SAME_INPUT = 1e-12
"""Share by which a figure may differ and count as the same: 2.4 m is 2400 mm."""
STILL = 1e-6
"""Share of the whole move below which a change moves nothing."""
MOST_ALONE = 12
"""Changes that are tried one by one; of more, those of one entry are tried together."""
APART = ("uncertainty.", "document.assumed_effect", "alternative.")
"""First words of what is carried besides the results of the project as it stands."""
OTHERWISE = "words, parts, order (tried as one)"
"""What is changed besides figures that both files have; tried as one."""


@dataclass(frozen=True)
class Input:
    """One key that differs: its line in either file, None where it is not there."""

    key: str
    before: Line | None
    after: Line | None
    is_figure: bool = False

    @property
    def is_value(self) -> bool:
        """Whether what is said differs, and not its basis or spread alone."""
        return self.is_figure or _says(self.before) != _says(self.after)


@dataclass(frozen=True)
class Moved:
    """One result that differs; None where one of the two has none."""

    name: str
    quantity: Quantity
    before: float | None
    after: float | None

    @property
    def share(self) -> float:
        """How much it moved, as a share of the larger of the two; 1 where only one has it."""
        if self.before is None or self.after is None:
            return 1.0
        return abs(self.after - self.before) / max(abs(self.before), abs(self.after))


@dataclass(frozen=True)
class Turned:
    """A check that came to another status."""

    before: Finding
    after: Finding


@dataclass(frozen=True)
class Share:
    """What one change alone moves in a result; None where nothing can be calculated with it alone."""

    change: str
    move: float | None
    why_not: str = ""


@dataclass(frozen=True)
class Reasons:
    """Why a result moved: the share of every change, and what all of them do together besides."""

    moved: Moved
    shares: tuple[Share, ...]

    @property
    def total(self) -> float:
        """By how much it moved."""
        return (self.moved.after or 0.0) - (self.moved.before or 0.0)

    @property
    def heavy(self) -> tuple[Share, ...]:
        """Shares that move it at all, and those that cannot be told."""
        return tuple(s for s in self.shares if s.move is None or abs(s.move) > STILL * abs(self.total))

    @property
    def residual(self) -> float:
        """What the changes move together beyond what each moves alone."""
        return self.total - sum(share.move or 0.0 for share in self.shares)


@dataclass(frozen=True)
class Comparison:
    """Two assessments, and what differs between them."""

    before: Assessment
    after: Assessment

    @cached_property
    def inputs(self) -> tuple[Input, ...]:
        """Keys that differ, in the order of the files."""
        old, new = self.before.project.numbers(), self.after.project.numbers()
        lines = [{line.key: line for line in each.project.under("")} for each in (self.before, self.after)]
        found = []
        for key in dict.fromkeys((*lines[0], *lines[1])):
            one, other = lines[0].get(key), lines[1].get(key)
            if key in old and key in new:
                if _differs(old[key], new[key]):
                    found.append(Input(key, one, other, is_figure=True))
                elif one and other and (one.basis, one.spread) != (other.basis, other.spread):
                    found.append(Input(key, one, other))
            elif _says(one) != _says(other):
                found.append(Input(key, one, other))
        return tuple(found)

    @cached_property
    def results(self) -> tuple[Moved, ...]:
        """Results that differ, those that moved most first."""
        old, new = self.before.results, self.after.results
        found = []
        for name in dict.fromkeys((*old, *new)):
            quantity = (old.get(name) or new[name]).quantity
            ends = [float(each[name].value) if name in each else None for each in (old, new)]
            moved = Moved(name, quantity, *ends)
            if None in ends or _differs(ends[0] or 0.0, ends[1] or 0.0, SAME):
                found.append(moved)
        return tuple(sorted(found, key=lambda moved: -moved.share))

    @cached_property
    def findings(self) -> tuple[Turned, ...]:
        """Checks that came to another status, in the order of the catalogue."""
        old = {finding.check: finding for finding in self.before.findings}
        return tuple(
            Turned(old[finding.check], finding)
            for finding in self.after.findings
            if finding.check in old and finding.status is not old[finding.check].status
        )

    @cached_property
    def trials(self) -> Mapping[str, Mapping[str, float] | DossierError]:
        """Results of the first project with one change each, by the change.

        What is no figure of both is tried from the other end: the second project, figures of the first.
        """
        found = {change: _results(self.before, numbers) for change, numbers in self._changes().items()}
        if any(not each.is_figure and each.is_value for each in self.inputs):
            found[OTHERWISE] = _results(self.after, self.before.project.numbers())
        return found

    def _changes(self) -> Mapping[str, Mapping[str, Traced]]:
        """Figures to try together, by what they are called."""
        new = self.after.project.numbers()
        figures = [each.key for each in self.inputs if each.is_figure]
        for name in (lambda key: key, _entry, _section):
            grouped: dict[str, dict[str, Traced]] = {}
            for key in figures:
                grouped.setdefault(name(key), {})[key] = new[key]
            if len(grouped) <= MOST_ALONE:
                break
        return grouped

    def why(self, name: str) -> Reasons:
        """Why a result moved; raises KeyError where it did not."""
        moved = {each.name: each for each in self.results}[name]
        shares = []
        for change, found in self.trials.items():
            if isinstance(found, DossierError):
                shares.append(Share(change, None, str(found).partition("\n")[0]))
            elif name in found and moved.before is not None:
                shares.append(Share(change, found[name] - moved.before))
            else:
                shares.append(Share(change, None, "the result is not there with this change alone"))
        return Reasons(moved, tuple(sorted(shares, key=lambda share: -abs(share.move or 0.0))))


def compare(before: Assessment, after: Assessment) -> Comparison:
    """Two assessments side by side; why a result moved is calculated when it is asked for."""
    return Comparison(before, after)


def _differs(one: float, other: float, share: float = SAME_INPUT) -> bool:
    return abs(one - other) > share * max(abs(one), abs(other))


def _says(line: Line | None) -> str | None:
    """What a key says, None where it is not there; an entry that holds others says nothing of its own."""
    return line.text if line else None


def _entry(key: str) -> str:
    """The entry a figure belongs to."""
    return key.rpartition(".")[0] or key


def _section(key: str) -> str:
    """The part of the file a figure belongs to."""
    return ".".join(key.split(".")[:2]) if key.count(".") > 1 else key.partition(".")[0]


def _results(assessment: Assessment, numbers: Mapping[str, Traced]) -> Mapping[str, float] | DossierError:
    """Results of a project with other numbers, or why there are none."""
    try:
        found = study(assessment.project.with_numbers(numbers))
        return {result.name: float(result.value) for result in named_results(found)}
    except DossierError as fault:
        return fault


def counted_otherwise(assessment: Assessment, carried: Mapping[str, Any]) -> tuple[str, ...]:
    """Results that this version of the program finds otherwise than those a dossier carries."""
    told, own = carried.get("results"), assessment.results
    if not isinstance(told, Mapping):
        return ()
    return tuple(
        name
        for name, held in told.items()
        if not name.startswith(APART) and (name not in own or _otherwise(float(own[name].value), held))
    )


def _otherwise(own: float, held: Any) -> bool:
    """Whether a number is not the one that is carried."""
    number = held.get("value") if isinstance(held, Mapping) else None
    return not isinstance(number, float | int) or _differs(own, float(number), SAME)
