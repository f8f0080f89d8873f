"""``dossier compare``: what changed between two revisions."""

import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from dossier.cli.files import assessed, new_command
from dossier.cli.status import DONE

if TYPE_CHECKING:
    from dossier.assessment import Assessment

HELP = """
Tell what changed between two project files, or two dossiers: inputs with
their basis, checks that came to another status, results that moved, and why:
every changed figure is put alone into A and everything is calculated again.
What the changes do together beyond that is named as residual.

A PDF is read by the files it carries (see recover) and calculated with this
version of the program.

examples:
  dossier compare boat_a.yaml boat_b.yaml
  dossier compare LA-HEAT-01-A-full.pdf boat.yaml
  dossier compare a.yaml b.yaml --why store.running_time --why exhaust.length

exit status: 0 done, whether anything differs or not; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "compare", "tell what changed between two revisions, and why", HELP)
    command.add_argument("before", metavar="A", help="project file or PDF")
    command.add_argument("after", metavar="B", help="project file or PDF")
    command.add_argument("--why", metavar="NAME", action="append", default=[], help="a result to explain")
    command.add_argument("--all", action="store_true", help="list all inputs and results that differ")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Print what changed."""
    from dossier.comparison import compare
    from dossier.rendering.comparison_text import comparison_text

    with TemporaryDirectory() as first, TemporaryDirectory() as second:
        found = compare(_opened(asked.before, first), _opened(asked.after, second))
        names = (asked.before, asked.after)
        sys.stdout.write(comparison_text(found, names, why=asked.why, everything=asked.all))
    return DONE


def _opened(name: str, folder: str) -> "Assessment":
    """A project file, or the one that a PDF carries."""
    if Path(name).suffix.casefold() != ".pdf":
        return assessed(name)
    from dossier.comparison import counted_otherwise
    from dossier.rendering.recovery_of_sources import carried_results, recover

    found = recover(name, folder)
    assessment = assessed(str(found.project))
    otherwise = counted_otherwise(assessment, carried_results(found))
    if otherwise:
        said = (
            f"this version of the program finds {len(otherwise)} results otherwise than {name} carries them"
        )
        print(f"note: {said}, {otherwise[0]} among them", file=sys.stderr)
    return assessment
