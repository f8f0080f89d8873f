"""What the file states under a key, so that a check names the very key it read."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dossier.project import Project

_TURNED = {"from": "from_", "with": "with_", "for": "for_"}


def stated(project: "Project", key: str) -> Any:
    """Answer of the file under a dotted key, such as ``fuel.line.material`` or ``components.V20.at_tank``.

    None where the file is silent, there or anywhere on the way; ``NONE`` where it says ``none`` on the way.
    """
    here: Any = project
    for part in key.split("."):
        if here is None or isinstance(here, str):
            return here
        here = here.get(part) if isinstance(here, Mapping) else getattr(here, _TURNED.get(part, part))
    return here


def silent(project: "Project", keys: Sequence[str]) -> list[str]:
    """Those of some keys under which the file states nothing."""
    return [key for key in keys if stated(project, key) is None]
