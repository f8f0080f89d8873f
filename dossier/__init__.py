"""Sizes and checks a diesel-fired water heating system in a boat and renders its installation dossier.

from dossier import assess, load, render

assessment = assess(load("boat.yaml"))
render(assessment, "out", edition="full")
"""

from typing import TYPE_CHECKING, Any

from dossier.assessment import Assessment, assess
from dossier.project import Project, load

if TYPE_CHECKING:
    from dossier.rendering.render import render

__all__ = ["Assessment", "Project", "assess", "load", "render"]
__version__ = "0.1.0"


def __getattr__(name: str) -> Any:
    """``render`` is given out when it is asked for: sizing and checking need no paper."""
    if name == "render":
        from dossier.rendering.render import render  # noqa: PLC0415 - paper only when wanted

        return render
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
