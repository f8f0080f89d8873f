"""Writes a first project file: the commented starter, or a copy of a demonstration project."""

import shutil
from pathlib import Path

from dossier.data.shipped import shipped
from dossier.notation import DossierError

STARTER = "starter"


def demos() -> tuple[str, ...]:
    """Names of the demonstration projects."""
    folders = (folder.name for folder in shipped("projects").iterdir() if folder.is_dir())
    return tuple(sorted(name for name in folders if name != STARTER and not name.startswith((".", "_"))))


def write_starter(folder: Path, demo: str | None = None) -> Path:
    """Copy starter or demo into a folder and give the path of its project file.

    Raises ``DossierError`` where a file of that name stands there already: nothing is ever overwritten.
    """
    source = shipped("projects") / (demo or STARTER)
    files = sorted(path for path in source.iterdir() if path.is_file() and not path.name.startswith("."))
    for path in files:
        if (folder / path.name).exists():
            raise DossierError(f"{folder / path.name} stands there already: name another folder")
    folder.mkdir(parents=True, exist_ok=True)
    for path in files:
        shutil.copyfile(path, folder / path.name)
    first = next(path for path in files if path.suffix == ".yaml")
    return folder / first.name
