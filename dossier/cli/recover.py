"""``dossier recover``: the sources back from a PDF."""

from typing import Any

from dossier.cli.files import new_command
from dossier.cli.status import DONE

HELP = """
Give back the files a dossier was made from: the project file, its tables and
pictures, and the results as data. Built again, they give the same PDF, byte
for byte, with the same version of the program.

Nothing is written outside the folder or over another file. A PDF that was
printed to a file, encrypted, damaged or made by something else is refused
with the reason; nothing in a PDF is ever run.

examples:
  dossier recover out/LA-HEAT-01-A-full.pdf -o again
  dossier build again/lantern_auk.yaml -o again

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "recover", "give back the project file that a PDF carries", HELP)
    command.add_argument("pdf", metavar="PDF", help="a dossier, any edition")
    command.add_argument("-o", "--out", metavar="DIR", required=True, help="folder to write to")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Write the files a PDF carries."""
    from dossier.rendering.recovery_of_sources import recover

    found = recover(asked.pdf, asked.out)
    for path in found.files:
        print(path)
    print(f"next: dossier build {found.project}")
    return DONE
