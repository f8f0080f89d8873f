"""``dossier upgrade``: an older file in the newest format."""

from pathlib import Path
from typing import Any

from dossier.cli.files import FILE, agreed, new_command, write_whole
from dossier.cli.status import DONE

HELP = """
Bring an older project file to the newest format. Comments, layout and line
ends stay; what is done is shown first, and written when you say yes. A file in
the newest format is left alone, a newer one is refused.

examples:
  dossier upgrade boat.yaml
  dossier upgrade boat.yaml --yes

exit status: 0 done, or nothing to do; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "upgrade", "bring an older project file to the newest format", HELP)
    command.add_argument("file", **FILE)
    command.add_argument("--yes", action="store_true", help="write without asking")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Show what is done, ask, write."""
    from dossier.project.upgrading import upgrade

    found = upgrade(asked.file)
    if not found.done:
        print(f"{asked.file} is in the newest format")
        return DONE
    for step in found.done:
        print(f"format {step}")
    if agreed(f"write {asked.file}?", yes=asked.yes):
        print(f"wrote {write_whole(Path(asked.file), found.content)}; next: dossier check {asked.file}")
    return DONE
