"""The circuit in each mode, small: what flows and what stands."""

from collections.abc import Iterator

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Figure, Span
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.circuit import Circuit
from dossier.rendering.drawings.mode_schematic import Mode, in_mode, mode_schematic
from dossier.rendering.layout.measures import column_width
from dossier.rendering.sections.circuit_drawn import circuit_drawn
from dossier.rendering.sections.valve_plan import Stand, ValvePlan, valve_plan
from dossier.sizing.ring import RingStudy

HEIGHT = 88.0
"""Most that one figure may take of the sheet's height (mm)."""

SHOWN = frozenset({Stand.SHUT, Stand.OFF})
"""What is told under a part: nothing that is as usual."""


def figures(draft: Draft, ring: RingStudy) -> Iterator[Figure]:
    """A figure for each way the water goes in the solved modes; none where it is too large."""
    circuit, plan, words = circuit_drawn(draft), valve_plan(draft), draft.words
    if circuit is None or isinstance(plan, NotAssessed):
        return
    width = column_width(draft.paper, Span.FULL)
    names = {tag: draft.capital(emitter.zone) for tag, emitter in ring.emitters.items()}
    alike: dict[Circuit, list[str]] = {}
    for mode, operation in ring.operations.items():
        states = _states(plan, plan.modes.index(mode))
        drawn = in_mode(circuit, Mode(frozenset(operation.standing_still), states, names))
        alike.setdefault(drawn, []).append(mode)
    for n, (drawn, modes) in enumerate(alike.items()):
        drawing, said = mode_schematic(drawn, width, HEIGHT), ", ".join(modes)
        if drawing is None:
            return
        yield Figure(
            drawing,
            words("modes.figure", modes=said, count=len(modes)),
            str(words("modes.figure_alt", modes=said)),
            key=f"figure_mode_{n}",
            span=Span.FULL,
            notes="" if n else words("modes.figure_notes"),
        )


def _states(plan: ValvePlan, place: int) -> dict[str, str]:
    """Words under the parts that a mode shuts or stops."""
    here = ((row.tag, row.positions[place]) for row in plan.rows)
    return {tag: position.said for tag, position in here if position.stand in SHOWN}
