"""Gives back the files a dossier was made from, as they were: ``recover``.

Nothing is written outside the folder, over another file, or in part.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from dossier.notation import DossierError
from dossier.rendering.carried import Carried, carried_by

RESULTS = "results.json"
PROJECT_ENDINGS = (".yaml", ".yml")


@dataclass(frozen=True)
class Recovered:
    """Where the project file stands now, and all files written."""

    project: Path
    files: tuple[Path, ...]


def recover(pdf: str | Path, folder: str | Path) -> Recovered:
    """Write the files that a PDF carries into a folder and give their paths.

    A file that stands there already with the same content is left alone. Raises DossierError in one line
    where the PDF cannot be read, carries no project file or names that lead out of the folder, or where
    another file stands in the way; nothing is then written. OSError where the folder cannot be written to.
    """
    files = carried_by(Path(pdf))
    project = _project(files, pdf)
    root = Path(folder)
    paths = [_path(root, file, pdf) for file in files]
    folded = {str(path).casefold() for path in paths}
    if len(folded) < len(paths):
        raise DossierError(f"{pdf}: two of its files have names that some systems take for one")
    root.mkdir(parents=True, exist_ok=True)
    written: list[Path] = []
    try:
        for path, file in zip(paths, files, strict=True):
            if not path.exists():
                path.parent.mkdir(parents=True, exist_ok=True)
                written.append(path)
                with path.open("xb") as out:
                    out.write(file.content)
    except OSError:
        for path in written:
            path.unlink(missing_ok=True)
        raise
    return Recovered(paths[files.index(project)], tuple(paths))


def carried_results(found: Recovered) -> Mapping[str, Any]:
    """The results a dossier carries as data, empty where it carries none that can be read."""
    path = next((path for path in found.files if path.name.lstrip("_") == RESULTS), None)
    if path is None:
        return {}
    try:
        held = json.loads(path.read_bytes())
    except (ValueError, RecursionError):
        return {}
    return held if isinstance(held, dict) else {}


def _project(files: Sequence[Carried], pdf: str | Path) -> Carried:
    """The project file: the first that the document names, else the only one of its kind."""
    fitting = [file for file in files if file.name.casefold().endswith(PROJECT_ENDINGS)]
    chosen = [file for file in fitting if file.first] or [file for file in fitting if "/" not in file.name]
    if len(chosen) != 1:
        what = "no project file" if not chosen else "several project files"
        raise DossierError(f"{pdf}: the PDF carries {what}; take the file that dossier build wrote")
    return chosen[0]


def _path(root: Path, file: Carried, pdf: str | Path) -> Path:
    """Where a file goes: inside the folder, links resolved, where nothing else stands."""
    path = root / file.name
    if not path.resolve().is_relative_to(root.resolve()):
        raise DossierError(f"{pdf}: {file.name!r} would lie outside {root}; nothing was written")
    if path.exists() and (not path.is_file() or path.read_bytes() != file.content):
        raise DossierError(f"{path}: another file stands there already; name another folder")
    return path
