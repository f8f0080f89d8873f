"""``dossier build``: renders the dossier as PDF."""

import sys
from pathlib import Path
from typing import Any

from dossier.cli.files import FILE, at_least_one, new_command
from dossier.cli.status import DONE, FAULT

EDITIONS = ("full", "survey", "aboard", "yard", "measure", "proof")
HELP = """
Render the installation dossier of each project as a PDF, named by its
document number, revision and edition; two files that would give the same name
are refused. The PDF carries the project file and its tables. A failed build
leaves an older PDF as it was.

editions:
  full      everything, with workings and sources
  survey    for insurer and surveyor: findings, evidence, what was not looked at
  aboard    for the crew: what to do, what to watch, what is due
  yard      for those who fit it: drawings, parts, cut list, settings, tests
  measure   blank sheets for tape measure and plates
  proof     two or three pages to see whether the file says what was meant

examples:
  dossier build boat.yaml -o out
  dossier build archive/*.yaml -o out --jobs 4
  dossier build boat.yaml --edition aboard --paper A5 --units imperial
  dossier build boat.yaml --words our_words

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "build", "render the installation dossier as a PDF", HELP)
    command.add_argument(
        "--jobs",
        type=at_least_one,
        default=1,
        metavar="N",
        help="build so many at a time, each in a process (1)",
    )
    command.add_argument("files", nargs="+", **FILE)
    command.add_argument("-o", "--out", metavar="DIR", default=".", help="folder to write to (this one)")
    command.add_argument("--edition", choices=EDITIONS, default="full", help="which edition (full)")
    command.add_argument("--paper", choices=("A4", "letter", "A5"), default="A4", help="paper (A4)")
    command.add_argument("--units", choices=("metric", "imperial"), default="metric", help="units (metric)")
    command.add_argument(
        "--words",
        type=Path,
        metavar="DIR",
        help="a folder of your own texts, DIR/en/SECTION.j2; ours stand where it is silent",
    )
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Render dossiers as PDF."""
    from dossier.rendering.many import Order, build_all

    order = Order(Path(asked.out), asked.edition, asked.paper, asked.units, asked.words)
    status = DONE
    for built in build_all(asked.files, order, asked.jobs, _progress if sys.stderr.isatty() else None):
        for doubt in built.warnings:
            print(f"warning: {doubt}", file=sys.stderr)
        if built.path is None:
            print(built.fault, file=sys.stderr)
            status = FAULT
        else:
            print(built.path, flush=True)
    return status


def _progress(sheet: int, sheets: int) -> None:
    end = "\n" if sheet == sheets else ""
    print(f"\rsheet {sheet} of {sheets}", end=end, file=sys.stderr, flush=True)
