"""``dossier parts``: what must be bought and cut."""

from typing import Any

from dossier.cli.files import FILE, assessed, new_command, put
from dossier.cli.status import DONE

HELP = """
Print the parts list: components, pipes by size with waste apart, fittings,
clamps, coolant, counted from what the file describes. With --cuts the cut
list instead: every run with its length, ends, joints, clamps and insulation.

--csv gives a table for a spreadsheet, in which no cell can become a formula:
a text that could be one has an apostrophe before it.

examples:
  dossier parts boat.yaml
  dossier parts boat.yaml --csv -o parts.csv
  dossier parts boat.yaml --cuts --csv > cuts.csv

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "parts", "print the parts list or the cut list", HELP)
    command.add_argument("file", **FILE)
    command.add_argument("--cuts", action="store_true", help="the cut list instead of the parts list")
    command.add_argument("--csv", action="store_true", help="as a table for a spreadsheet")
    command.add_argument("-o", "--out", metavar="OUT", help="file to write to (print it)")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Print or write the list."""
    from dossier.rendering.parts_text import cut_list_text, parts_text
    from dossier.sizing.parts_csv import cut_list_csv, parts_csv

    found = assessed(asked.file).study.parts
    if asked.csv:
        text = cut_list_csv(found) if asked.cuts else parts_csv(found)
    else:
        text = cut_list_text(found) if asked.cuts else parts_text(found)
    put(text, asked.out)
    return DONE
