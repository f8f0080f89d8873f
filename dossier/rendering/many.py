"""Several dossiers in one go, in as many processes as wanted: builds share nothing.

Names of the documents are looked at first, so that no dossier is written over another of the same call.
"""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, field
from multiprocessing import get_context
from pathlib import Path
from typing import Any

from dossier.assessment import assess
from dossier.notation import DossierError, OutOfRange, ProjectFaults
from dossier.project import Project, load
from dossier.project.pointing import pointed
from dossier.rendering.render import file_name, render

Progress = Callable[[int, int], None]


@dataclass(frozen=True)
class Order:
    """What is built of every file; ``words`` is a yard's own folder of texts."""

    out: Path
    edition: str = "full"
    paper: str = "A4"
    units: str = "metric"
    words: Path | None = None


@dataclass(frozen=True)
class Built:
    """One file: where its dossier stands, or why there is none; what is odd in it."""

    name: str
    path: Path | None = None
    fault: str = ""
    warnings: tuple[str, ...] = field(default=())


def build_all(
    names: Sequence[str], order: Order, jobs: int = 1, progress: Progress | None = None
) -> Iterator[Built]:
    """Build a dossier of every file, told in their order; one that fails does not stop the others.

    ``progress`` is told the sheets of a dossier that is drawn in this process.
    """
    refused = {built.name: built for built in _refused(names, order)}
    wanted = [name for name in names if name not in refused]
    if jobs > 1 and len(wanted) > 1:
        done = _in_processes(wanted, order, min(jobs, len(wanted)))
    else:
        done = (_build(name, order, progress) for name in wanted)
    for name in names:
        yield refused[name] if name in refused else next(done)


def _refused(names: Sequence[str], order: Order) -> Iterator[Built]:
    """Files whose dossier would be written over that of a file before."""
    taken: dict[str, str] = {}
    for name in names if len(names) > 1 else ():
        try:
            path = _path(load(name), order)
        except DossierError:
            continue  # told when it is built
        first = taken.setdefault(str(path).casefold(), name)
        if first != name:
            both = f"its dossier and that of {first} would both be {path}"
            yield Built(name, fault=f"{name}: {both}; give it a number, revision or folder of its own")


def _path(project: Project, order: Order) -> Path:
    """Where a dossier goes, as ``render`` has it."""
    if order.out.is_dir() or not order.out.suffix:
        return order.out / file_name(project, order.edition)
    return order.out


def _build(name: str, order: Order, progress: Progress | None = None) -> Built:
    told: tuple[str, ...] = ()
    try:
        project = load(name)
        told = tuple(map(str, project.warnings))
        options: dict[str, Any] = {"edition": order.edition, "paper": order.paper, "units": order.units}
        path = render(assess(project), order.out, templates=order.words, progress=progress, **options)
    except ProjectFaults as faults:
        return Built(name, fault=pointed(faults, Path(name).parent), warnings=told)
    except OutOfRange as beyond:
        return Built(name, fault=pointed(beyond, Path(name).parent) or str(beyond), warnings=told)
    except DossierError as fault:
        return Built(name, fault=str(fault), warnings=told)
    except OSError as fault:
        return Built(name, fault=f"{fault.filename or order.out}: {fault.strerror or fault}", warnings=told)
    return Built(name, path, warnings=told)


def _in_processes(names: Sequence[str], order: Order, jobs: int) -> Iterator[Built]:
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        waiting = [(name, pool.submit(_build, name, order)) for name in names]
        for name, built in waiting:
            try:
                yield built.result()
            except BrokenProcessPool:
                yield Built(name, fault=f"{name}: the process that built it was ended; build it alone")
