"""Modes without an answer: a check that needs one says *not assessed*, with the reason."""

from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Limit, not_assessed
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.ring import Operation, RingStudy
    from dossier.sizing.study import Study


def ring_of(study: "Study", limit: Limit) -> "RingStudy | Finding":
    """The circuit in its modes, or why no flow was found at all."""
    ring = study.ring
    if isinstance(ring, NotAssessed):
        return not_assessed(limit, ring)
    if not ring.operations:
        return unsolved(ring, limit)[0][1]
    return ring


def unsolved(ring: "RingStudy", limit: Limit) -> list[tuple[str, Finding]]:
    """A finding for each mode that has no answer."""
    return [
        (mode, not_assessed(limit, [f"modes.{mode}"], f"mode {mode} has no answer: {why}"))
        for mode, why in ring.not_solved.items()
    ]


def design_of(study: "Study", limit: Limit) -> "Operation | Finding":
    """The design mode, or why it has no answer."""
    ring = study.ring
    if isinstance(ring, NotAssessed):
        return not_assessed(limit, ring)
    if ring.design is None:
        return unsolved(ring, limit)[0][1]
    return ring.design
