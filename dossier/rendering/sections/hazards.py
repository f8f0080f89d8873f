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


MOST_SHARE = 0.58
"""Of the width, for the panel with more words of two."""
GUTTER = 10.0


def side_by_side(panels: Sequence[Panel], width: float | None = None) -> list[Block]:
    """Panels in two columns over the whole width, the strongest first; one alone stands in the text.

    With the whole ``width`` in millimetres, two alone share it by their words, so that they are as high.
    """
    if len(panels) < 2:  # noqa: PLR2004 - a pair
        return list(panels)
    half = (len(panels) + 1) // 2
    if width is None or len(panels) > 2:  # noqa: PLR2004 - a pair
        return [Pair(panels[:half], panels[half:])]
    first, second = (len(f"{p.hazard} {p.consequence} {p.avoidance} {p.last}") for p in panels)
    share = min(MOST_SHARE, max(1 - MOST_SHARE, first / (first + second)))
    return [Pair(panels[:1], panels[1:], left_width=share * (width - GUTTER))]
