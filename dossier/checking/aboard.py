"""What is aboard, as the file says it: the rules by which a check does not apply.

A circuit that is written out is complete: what is not in it is not aboard. Before one is written, silence is
no answer, and only ``none`` is.
"""

from typing import TYPE_CHECKING, Any

from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.project import Project


def of_kind(project: "Project", *kinds: str) -> tuple[Any, ...]:
    """Components of these kinds, in the order of the file."""
    return tuple(c for c in (project.components or {}).values() if c.kind in kinds)


def burners(project: "Project") -> tuple[Any, ...]:
    """All burners aboard."""
    return of_kind(project, "burner")


def circuit_is_written(project: "Project") -> bool:
    """Whether the file writes the circuit out."""
    return project.circuit is not None and bool(project.circuit.ring)


def is_sealed(project: "Project") -> bool | None:
    """Whether the ring is sealed: as stated, or by a vessel or a pressure cap; None where nobody says."""
    if of_kind(project, "membrane_vessel") or any(
        tank.cap == "pressure" for tank in of_kind(project, "header_tank")
    ):
        return True
    if project.circuit is not None and project.circuit.system is not None:
        return project.circuit.system == "sealed"
    return None


def lacks(project: "Project", *kinds: str) -> bool:
    """Whether it is known that no component of these kinds is aboard: the circuit is written without one."""
    return circuit_is_written(project) and not of_kind(project, *kinds)


def found(result: Any) -> bool:
    """Whether a calculation was made."""
    return result is not None and not isinstance(result, NotAssessed)
