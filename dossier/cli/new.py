"""``dossier new``: a first project file."""

from pathlib import Path
from typing import Any

from dossier.cli.files import new_command
from dossier.cli.status import DONE
from dossier.notation import DossierError

HELP = """
Write a first project file into a folder: commented, complete enough to build,
with figures to replace by your own. Nothing that stands in the folder is ever
overwritten.

examples:
  dossier new my_boat
  dossier new my_boat --from lantern_auk    a richer one, of an invented steel cutter

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "new", "write a first project file that builds as it stands", HELP)
    command.add_argument("folder", metavar="DIR", help="folder to write it to; made if it is not there")
    command.add_argument("--from", dest="demo", metavar="DEMO", help="copy a richer demonstration project")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Write a starter project."""
    from dossier.project.starter import demos, write_starter

    if asked.demo is not None and asked.demo not in demos():
        raise DossierError(f"there is no demo {asked.demo!r}; there are {', '.join(demos())}")
    written = write_starter(Path(asked.folder), asked.demo)
    print(f"wrote {written}; next: dossier check {written}")
    return DONE
