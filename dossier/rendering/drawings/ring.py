"""The ring turned to the order in which it is drawn: the way out, the largest group last, the way home."""

from dataclasses import dataclass

from dossier.rendering.drawings.circuit import Item, Parallel, Run, Side, Unit, strands

Step = tuple[Run, Unit | Parallel]


@dataclass(frozen=True, slots=True)
class Sequence:
    """A ring in flow order from the point where its rows begin; ``back`` steps at its end run homeward.

    An open sequence has no way home: it begins and ends in another part of the drawing.
    """

    steps: tuple[Step, ...]
    back: int = 0
    is_open: bool = False


def sequence_of(ring: tuple[Item, ...]) -> Sequence:
    """The ring turned so that its largest group ends the way out and its pump, if it can, the way home."""
    runs = strands(ring, last_side(ring))
    closing = runs.pop()[0]
    steps: list[Step] = [(run, item) for run, item in runs if item is not None]
    if not steps:
        return Sequence(())
    first = steps[0][0]
    steps[0] = (_merged(closing, first), steps[0][1])
    sizes = [len(item.branches) if isinstance(item, Parallel) else 0 for _, item in steps]
    if not any(sizes):
        steps = _turned(steps, _begin(steps))
        return Sequence(tuple(steps), len(steps) // 2)
    largest = sizes.index(max(sizes))
    steps = _turned(steps, (largest + 1) % len(steps))
    back = _homeward(steps)
    return Sequence(tuple(_turned(steps, back % len(steps))), back)


def last_side(ring: tuple[Item, ...]) -> Side:
    """The side of the run that closes a ring."""
    sides = [item.side for item in ring if isinstance(item, Run) and item.side]
    return sides[-1] if sides else Side.SUPPLY


def _merged(closing: Run, first: Run) -> Run:
    """The run that closes the ring is written in two halves, at the end of the list and at its start."""
    return Run(
        first.side or closing.side, first.flow or closing.flow, first.temperature or closing.temperature
    )


def _turned(steps: list[Step], by: int) -> list[Step]:
    return steps[by:] + steps[:by]


def _begin(steps: list[Step]) -> int:
    """Where a ring without groups begins: behind its pump, else at its burner."""
    kinds = [item.kind if isinstance(item, Unit) else "" for _, item in steps]
    if "pump" in kinds:
        return (kinds.index("pump") + 1) % len(steps)
    return kinds.index("burner") if "burner" in kinds else 0


def _homeward(steps: list[Step]) -> int:
    """How many units stand on the way back: up to the pump, else up to the burner or the first supply."""
    for n, (run, item) in enumerate(steps):
        if isinstance(item, Parallel) or item.kind == "burner" or run.side is Side.SUPPLY:
            return n
        if item.kind == "pump":
            return n + 1
    return 0
