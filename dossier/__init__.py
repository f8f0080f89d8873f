"""Sizes and checks a diesel-fired water heating system in a boat and renders its installation dossier.

    from dossier import assess, load, render

    assessment = assess(load("boat.yaml"))
    render(assessment, "out", edition="full")

The commands of ``dossier --help`` are thin over these.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dossier.assessment import Assessment, assess
    from dossier.project import Project, load
    from dossier.rendering.render import render

__all__ = ["Assessment", "Project", "assess", "load", "render"]
__version__ = "0.1.0"

_HOMES = {
    "Assessment": "dossier.assessment",
    "Project": "dossier.project",
    "assess": "dossier.assessment",
    "load": "dossier.project",
    "render": "dossier.rendering.render",
}


def __getattr__(name: str) -> Any:
    """Give each name out when it is asked for, so that nobody pays for what they do not use."""
    if name in _HOMES:
        return getattr(import_module(_HOMES[name]), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
