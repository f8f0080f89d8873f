"""Which needs of the tables are met aboard: parts that are there, answers that the file gives.

A step, task, panel or spare is printed only where its need is met; ``wanted`` of the tables judges it with
the names found here.
"""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from dossier.data.wording import Need, needs
from dossier.project.model.entry import Answer

if TYPE_CHECKING:
    from dossier.project import Project

SILENT, NONE = "not stated", "none"


def needs_met(project: "Project") -> frozenset[str]:
    """Names of the needs that are met by what is aboard."""
    return frozenset(name for name, need in needs().items() if _is_met(project, need))


def _is_met(project: "Project", need: Need) -> bool:
    if need.component:
        return any(part.kind == need.component for part in (project.components or {}).values())
    answers = [_word(answer) for answer in answers_at(project, need.key.split("."))] or [SILENT]
    if need.answers:
        return any(answer in need.answers for answer in answers)
    return any(answer not in {SILENT, NONE} for answer in answers)


def _word(answer: Any) -> str:
    if isinstance(answer, Answer) or answer == ():
        return NONE
    return answer if isinstance(answer, str) else "stated"


def answers_at(here: Any, path: list[str]) -> Iterator[Any]:
    """All answers under a key; lists are gone through, and components are found by their kind."""
    if here is None:
        return
    if isinstance(here, Answer) or not path:
        yield here
        return
    first, *rest = path
    if isinstance(here, tuple):
        for each in here:
            yield from answers_at(each, path)
    elif isinstance(here, Mapping):
        for each in here.values():
            if getattr(each, "kind", None) == first:
                yield from answers_at(each, rest)
    elif path == ["ring", "pipe", "drains"]:
        yield from _drains(here)
    else:
        yield from answers_at(getattr(here, first, None), rest)


def _drains(circuit: Any) -> Iterator[Any]:
    """Drains of all pipes of a circuit, inside its branches too."""
    pending = list(circuit.ring or ())
    while pending:
        item = pending.pop()
        pending += [inner for branch in getattr(item, "branches", {}).values() for inner in branch]
        if getattr(item, "drains", None):
            yield item.drains
