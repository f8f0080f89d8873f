"""A circuit too large for one sheet, taken apart at its manifolds into parts that name each other.

Where branches are too many the rest of a manifold's branches moves to a part of its own; where one branch is
too large it moves as a whole; where a line is too long its second half does. What moved is marked by a
pentagon that names the part.
"""

from dataclasses import dataclass, replace

from dossier.rendering.drawings.circuit import Branch, Item, Parallel, Run, Side, Unit, side_after, strands
from dossier.rendering.drawings.ring import Sequence, Step
from dossier.rendering.drawings.strings import Surroundings

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of the circuit with its name and what hangs on it."""

    name: str
    sequence: Sequence
    around: Surroundings


def part_name(number: int) -> str:
    """A, B … Z, AA, AB …"""
    first, last = divmod(number, 26)
    return (LETTERS[first - 1] if first else "") + LETTERS[last]


def rows_of(items: tuple[Item, ...] | tuple[Step, ...]) -> int:
    """How many rows something takes one under the other."""
    most = 1
    for each in items:
        item = each[1] if isinstance(each, tuple) else each
        if isinstance(item, Parallel):
            most = max(most, sum(rows_of(branch.items) for branch in item.branches))
    return most


def is_moved(branch: Branch) -> bool:
    """Whether a branch is nothing but the mark of another part."""
    return [item.kind for item in branch.items if isinstance(item, Unit)] == ["off_page"] and not any(
        isinstance(item, Parallel) for item in branch.items
    )


def mark(text: str, *facts: str) -> Unit:
    """The pentagon that names another part."""
    return Unit(text, "off_page", facts=tuple(facts))


@dataclass(frozen=True, slots=True)
class Cut:
    """Words for the marks: how a part is named here, and how the part it was taken from is named there."""

    there: str
    here: str
    branches: str = "branches"


def largest_group(sequence: Sequence) -> int | None:
    """Which step holds the group with the most rows."""
    sizes = [rows_of((item,)) if isinstance(item, Parallel) else 0 for _, item in sequence.steps]
    return sizes.index(max(sizes)) if any(sizes) else None


def without_rest(piece: Piece, step: int, kept: int, cut: Cut) -> tuple[Piece, Piece]:
    """The first branches of a group here, the others between the same manifolds in a part of their own."""
    run, group = piece.sequence.steps[step]
    if not isinstance(group, Parallel):
        raise TypeError("only a group has branches")
    side = run.side or Side.SUPPLY
    after = side_after(group, side)
    rest = group.branches[kept:]
    moved = Branch((mark(cut.there, f"{len(rest)} {cut.branches}"), Run(after)))
    here = replace(group, branches=(*group.branches[:kept], moved))
    steps: tuple[Step, ...] = (
        (Run(side), mark(cut.here)),
        (Run(side), replace(group, branches=rest)),
        (Run(after), mark(cut.here)),
    )
    bare = _bare(piece.around, group)
    return _replaced(piece, step, here), Piece(cut.there, Sequence(steps, is_open=True), bare)


def without_branch(piece: Piece, step: int, number: int, cut: Cut) -> tuple[Piece, Piece]:
    """One branch of a group moved to a part of its own."""
    run, group = piece.sequence.steps[step]
    if not isinstance(group, Parallel):
        raise TypeError("only a group has branches")
    side = run.side or Side.SUPPLY
    runs = strands(group.branches[number].items, side)
    last = runs.pop()[0]
    moved = Branch((Run(runs[0][0].side if runs else side), mark(cut.there), Run(last.side)))
    branches = (*group.branches[:number], moved, *group.branches[number + 1 :])
    inside: list[Step] = [(r, item) for r, item in runs if item is not None]
    steps = ((Run(side), mark(cut.here)), *inside, (last, mark(cut.here)))
    part = Piece(cut.there, Sequence(steps, is_open=True), piece.around)
    return _replaced(piece, step, replace(group, branches=branches)), part


def can_be_halved(piece: Piece) -> bool:
    """Whether a line holds at least two things that are not marks of other parts."""
    return len(_own_steps(piece)) > 1


def _own_steps(piece: Piece) -> list[int]:
    return [
        n
        for n, (_, item) in enumerate(piece.sequence.steps)
        if isinstance(item, Parallel) or item.kind != "off_page"
    ]


def without_half(piece: Piece, cut: Cut) -> tuple[Piece, Piece]:
    """The second half of a long line moved to a part of its own."""
    steps = piece.sequence.steps
    own = _own_steps(piece)
    middle = own[(len(own) + 1) // 2]
    high = len(steps) - (1 if piece.sequence.is_open else 0)
    moved = steps[middle:high]
    leaving = steps[high][0] if piece.sequence.is_open else Run(moved[-1][0].side)
    here = (*steps[:middle], (Run(moved[0][0].side), mark(cut.there)), *steps[high:])
    part = ((Run(moved[0][0].side), mark(cut.here)), *moved, (Run(leaving.side), mark(cut.here)))
    back = min(piece.sequence.back, 1)
    return (
        replace(piece, sequence=replace(piece.sequence, steps=here, back=back)),
        Piece(cut.there, Sequence(part, is_open=True), piece.around),
    )


def _replaced(piece: Piece, step: int, item: Parallel) -> Piece:
    steps = list(piece.sequence.steps)
    steps[step] = (steps[step][0], item)
    return replace(piece, sequence=replace(piece.sequence, steps=tuple(steps)))


def _bare(around: Surroundings, group: Parallel) -> Surroundings:
    """Surroundings without what joins before or behind a group that is shown a second time."""
    start = group.start.tag if group.start else ""
    end = group.end.tag if group.end else ""
    return replace(
        around,
        before={tag: joins for tag, joins in around.before.items() if tag != start},
        after={tag: joins for tag, joins in around.after.items() if tag != end},
        link_starts={tag: n for tag, n in around.link_starts.items() if tag != end},
        link_ends={tag: n for tag, n in around.link_ends.items() if tag != start},
    )
