"""What the sources give at most in the design mode, and what they have to cover."""

from typing import TYPE_CHECKING

from dossier.checking.aboard import circuit_is_written, of_kind
from dossier.notation import NotAssessed, Real
from dossier.physics.zones import total_heat_flow
from dossier.sizing.heat_sums import total_heat

if TYPE_CHECKING:
    from dossier.sizing.study import Study


def full_output(study: "Study") -> Real | None:
    """Full output of all burners that run in the design mode, recovered heat of that mode added."""
    stopped = frozenset[str]()
    ring = study.ring
    if not isinstance(ring, NotAssessed) and ring.design is not None:
        stopped = ring.design.state.stopped
    burners = [b for b in of_kind(study.project, "burner") if b.tag not in stopped and b.output is not None]
    if not burners:
        return None
    parts: list[Real] = [burner.output.max for burner in burners]
    if not isinstance(ring, NotAssessed) and ring.design is not None and ring.design.heat is not None:
        parts += [s.output for s in ring.design.heat.sources.values() if s.kind == "recovery_exchanger"]
    return total_heat(*parts) if len(parts) > 1 else parts[0]


def to_cover(study: "Study") -> Real | NotAssessed:
    """Design load and what pipes lose outside the heated zones; the load alone where no circuit is."""
    loss, ring = study.heat_loss, study.ring
    if isinstance(loss, NotAssessed):
        return loss
    if not circuit_is_written(study.project):
        return loss.total
    if isinstance(ring, NotAssessed):
        return ring
    if ring.design is None:
        why = next(iter(ring.not_solved.values()), "")
        return NotAssessed("What do the pipes lose?", ("modes.heating",), why)
    return loss.total if ring.design.heat is None else total_heat_flow(loss.total, ring.design.heat.outside)
