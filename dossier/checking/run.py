"""Makes every check that is written: a row of the catalogue and a function of its name are one check."""

from collections.abc import Callable, Mapping
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

from dossier.checking.finding import Finding, Limit
from dossier.checking.limits import limits_of
from dossier.data.catalogue import CatalogueRow, catalogue

if TYPE_CHECKING:
    from dossier.sizing.study import Study

Check = Callable[..., Finding]
AFTER_ALL_OTHERS = frozenset({"document.danger_open"})
"""Checks that look at the findings of the others."""


@cache
def written_checks() -> Mapping[str, Check]:
    """Functions of the checks this version holds, by name, in the order of the catalogue."""
    found: dict[str, Check] = {}
    for name, row in catalogue().items():
        check = getattr(_module(row), row.function, None)
        if check is not None:
            found[name] = check
    return found


@cache
def _group(group: str) -> Any:
    try:
        return import_module(f"dossier.checking.{group}")
    except ModuleNotFoundError as error:
        if error.name == f"dossier.checking.{group}":
            return None
        raise


def _module(row: CatalogueRow) -> Any:
    return _group(row.group)


def all_findings(study: "Study") -> tuple[Finding, ...]:
    """Findings of all checks of one study, in the order of the catalogue."""
    checks = written_checks()
    limits = limits_of({name: catalogue()[name] for name in checks}, _stated(study))
    made: dict[str, Finding] = {
        name: check(study, limits[name]) for name, check in checks.items() if name not in AFTER_ALL_OTHERS
    }
    for name in AFTER_ALL_OTHERS & set(checks):
        made[name] = checks[name](study, limits[name], tuple(made.values()))
    return tuple(made[name] for name in checks)


def limit_of(study: "Study", name: str) -> Limit:
    """The limit that counts for one check of a project."""
    return limits_of({name: catalogue()[name]}, _stated(study))[name]


def _stated(study: "Study") -> dict[str, tuple[float | None, float | None, str]]:
    return {
        name: (limit.at_most, limit.at_least, limit.source or "")
        for name, limit in (study.project.limits or {}).items()
    }
