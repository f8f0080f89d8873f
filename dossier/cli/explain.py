"""``dossier explain``: the working of one result."""

from typing import Any

from dossier.cli.files import FILE, assessed, at_least_one, new_command
from dossier.cli.status import DONE

HELP = """
Print how one result was found: formula by formula with its source, every
value with its unit, down to the lines of the project file and the rows of the
tables it rests on.

NAME is a result (heat_loss.total), a check (exhaust.length), or a key of the
project file (zones.saloon, or saloon alone): a key shows what was read, short
forms written out, each value with its line, basis and note. A name that is
not known is answered with the nearest ones. Numbers are SI, as the formulas
take them; the trade's unit stands in brackets.

examples:
  dossier explain boat.yaml heat_loss.total
  dossier explain boat.yaml heat_loss.total --depth 2
  dossier explain boat.yaml saloon

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "explain", "print how a result was found", HELP)
    command.add_argument("file", **FILE)
    command.add_argument("name", metavar="NAME", help="a result, a check, or a key of the file")
    command.add_argument("--depth", type=at_least_one, metavar="N", help="steps down from the result (all)")
    command.add_argument("--units", choices=("metric", "imperial"), default="metric", help="units (metric)")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Print the working of one result."""
    from dossier.rendering.explanation import explanation

    print(explanation(assessed(asked.file), asked.name, depth=asked.depth, units=asked.units))
    return DONE
