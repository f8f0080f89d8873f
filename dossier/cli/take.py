"""``dossier take``: enters what was filled in on sheets."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dossier.cli.files import FILE, agreed, new_command, write_whole
from dossier.cli.status import DONE, FAULT

if TYPE_CHECKING:
    from dossier.project.taking import Taken

HELP = """
Enter what was filled in on the measuring or commissioning sheets of a dossier,
on screen or typed from paper, into the project file. Nothing else in the file
changes: comments, layout and line ends stay.

A measured value is written with its basis: the one ticked, else measured. A
number without a unit is in the unit printed in its box. A line of a table
becomes an entry of its list; one that names an entry of the file changes it.
What cannot be read is told and left to you.

Every change is shown first, and written when you say yes.

examples:
  dossier build boat.yaml --edition measure     the blank sheets
  dossier take boat.yaml LA-HEAT-01-A-measure.pdf
  dossier take boat.yaml filled.pdf --yes

exit status: 0 done, or nothing to take; 2 something could not be taken, told
in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "take", "enter what was filled in on measuring or test sheets", HELP)
    command.add_argument("file", **FILE)
    command.add_argument("sheets", metavar="SHEETS", help="PDF with filled sheets")
    command.add_argument("--yes", action="store_true", help="write without asking")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Show the changes, ask, write."""
    from dossier.project.taking import take
    from dossier.rendering.filled_sheets import filled_in

    taken = take(asked.file, filled_in(Path(asked.sheets)))
    _show(taken)
    if taken.changes and agreed(f"write {len(taken.changes)} changes to {asked.file}?", yes=asked.yes):
        print(f"wrote {write_whole(Path(asked.file), taken.content)}; next: dossier check {asked.file}")
    return FAULT if taken.refused else DONE


def _show(taken: "Taken") -> None:
    """All changes, and what could not be taken."""
    from dossier.rendering.plain_table import aligned

    rows = [(change.key, change.before or "—", "→", change.after) for change in taken.changes]
    for line in aligned(rows):
        print(line)
    if not rows:
        print("nothing new is filled in")
    for doubt in taken.doubts:
        print(f"warning: {doubt.what}; {doubt.instead}", file=sys.stderr)
    for refused in taken.refused:
        print(f"not taken: {refused.key}: '{refused.text}': {refused.why}", file=sys.stderr)
