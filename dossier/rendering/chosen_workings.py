"""Some of the workings of a document, each with the number that it has among all."""

from collections.abc import Iterable, Iterator, Sequence

from dossier.notation import Working, origin_of
from dossier.rendering.workings import ByFormula, Chapter, Worked, Workings


class ChosenWorkings(Workings):
    """The workings of some numbers, and of what goes into them."""

    def __init__(self, every: Workings, numbers: Iterable[object]) -> None:
        kept = {worked.number for number in numbers for worked in _with_inputs(every, number)}
        self.chapters = tuple(_chosen(every.chapters, kept))
        self.printed = {at: worked for at, worked in every.printed.items() if worked.number in kept}
        self.alike = {kind: worked for kind, worked in every.alike.items() if worked.number in kept}


def _with_inputs(every: Workings, number: object) -> Iterator[Worked]:
    """The working of a number, and those of the numbers put into it."""
    origin = origin_of(number)
    inputs = [given.value for given in origin.given] if isinstance(origin, Working) else []
    yield from (worked for each in (number, *inputs) if (worked := every.of(each)) is not None)


def _chosen(chapters: Sequence[Chapter], kept: set[int]) -> Iterator[Chapter]:
    """Chapters with the workings of some numbers alone."""
    for chapter in chapters:
        formulas = []
        for each in chapter.formulas:
            worked = tuple(one for one in each.worked if one.number in kept)
            if worked:
                formulas.append(ByFormula(each.statement, worked))
        if formulas:
            yield Chapter(chapter.name, tuple(formulas))
