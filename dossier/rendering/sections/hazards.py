"""Hazard panels by their names, for what is aboard, strongest word first."""

from collections.abc import Iterable, Iterator, Sequence

from dossier.data.procedures import Caution, cautions
from dossier.data.wording import wanted
from dossier.rendering.blocks import Block, Pair, Panel, SignalWord
from dossier.rendering.draft import Draft
from dossier.rendering.filling import Filling, worded
from dossier.sizing.needs_aboard import needs_met


def hazard_panels(draft: Draft, names: Iterable[str], *, embedded: bool = False) -> Iterator[Panel]:
    """Panels of some cautions; those of parts that are not aboard are left out.

    ``embedded`` sets them low, for their place right before a step.
    """
    aboard, filling = needs_met(draft.project), Filling(draft)
    order = [word.value for word in SignalWord]
    asked: list[Caution] = [cautions()[name] for name in names]
    for caution in sorted(asked, key=lambda each: (order.index(each.signal_word.casefold()), each.id)):
        if wanted(caution.needs, aboard):
            yield Panel(
                SignalWord(caution.signal_word.casefold()),
                draft.words.told(caution.hazard),
                worded(caution.consequence, filling),
                worded(caution.avoidance, filling),
                embedded=embedded,
            )


def side_by_side(panels: Sequence[Panel]) -> list[Block]:
    """Panels in two columns over the whole width, the strongest first; one alone stands in the text."""
    if len(panels) < 2:  # noqa: PLR2004 - a pair
        return list(panels)
    half = (len(panels) + 1) // 2
    return [Pair(panels[:half], panels[half:])]
