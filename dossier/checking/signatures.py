"""Which hold points are signed."""

from typing import TYPE_CHECKING

from dossier.checking.stated import stated
from dossier.data.commissioning import hold_points

if TYPE_CHECKING:
    from dossier.project import Project


def key_of(hold: int) -> str:
    """Key under which a hold point is signed."""
    return f"commissioning.signed.H{hold}"


def is_signed(project: "Project", hold: int) -> bool | None:
    """Whether a hold point is signed; None where the file is silent. ``yes`` alone counts, without a name."""
    answer = stated(project, key_of(hold))
    if answer is None or isinstance(answer, bool):
        return answer
    return bool(answer.by) or answer.date is not None


def unsigned(project: "Project") -> tuple[int, ...]:
    """Hold points that are not signed, whatever the reason."""
    return tuple(point.number for point in hold_points() if not is_signed(project, point.number))
