"""``dossier check``: sizes and checks, prints a summary."""

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dossier.cli.files import FILE, each_assessed, new_command
from dossier.cli.status import DONE, NOT_MET

if TYPE_CHECKING:
    from dossier.assessment import Assessment

CLEAR = "\x1b[2J\x1b[H"
"""What clears a terminal; sent to nothing else."""
HELP = """
Size and check projects, and print for each what fits a screen: load and
burner, what is not met, worst first, how many checks came to what, and what
to measure next.

--json prints everything for programs: results by name as SI numbers with
unit, label and basis, those of the alternatives among them, and every check
with its limit, margin, source and line; under alternatives the table that sets
those of the file beside the project, null where it has none. Format 1 (dossier
schema --results); several files give a list. The names are a contract.

--csv prints the results alone, as a table.

--watch waits for the files to be saved and checks again; Ctrl-C ends it with
the status of the last check.

examples:
  dossier check boat.yaml
  dossier check boat.yaml --json > boat.json

exit status: 0 every check that could be made is met; 1 at least one is not; 2
a fault in a file, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "check", "size and check projects, print a summary", HELP)
    command.add_argument("files", nargs="+", **FILE)
    ways = command.add_mutually_exclusive_group()
    ways.add_argument("--json", action="store_true", help="print results and checks for programs")
    ways.add_argument("--csv", action="store_true", help="print the results as a table for a spreadsheet")
    command.add_argument("--watch", action="store_true", help="check again on every save, until Ctrl-C")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Size and check projects; print summaries, or JSON for programs."""
    read: list[Path] = []
    status = _checked(asked, read)
    if not asked.watch:
        return status
    from dossier.project.watching import changes

    try:
        for moved in changes(lambda: read):
            if sys.stdout.isatty():
                print(CLEAR, end="")
            print(f"{', '.join(map(str, moved))} changed", flush=True)
            status = _checked(asked, read)
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
    return status


def _checked(asked: Any, read: list[Path]) -> int:
    """Check once and give the exit status; ``read`` takes the files that were read."""
    assessments, status = each_assessed(asked.files)
    if assessments and asked.json:
        _print_json(assessments, as_list=len(asked.files) > 1)
    elif asked.csv:
        _print_csv(assessments)
    elif assessments:
        from dossier.rendering.summary import summary

        for assessment in assessments:
            print(summary(assessment), flush=True)
    found = [Path(name) for name in asked.files]
    for assessment in assessments:
        found += [assessment.project.folder / file.name for file in assessment.project.files]
    read[:] = list(dict.fromkeys([*found, *read]))
    missed = any(str(f.status) == "not met" for each in assessments for f in each.findings)
    return status or (NOT_MET if missed else DONE)


def _print_csv(assessments: "list[Assessment]") -> None:
    from dossier.alternatives import whole_plain
    from dossier.rendering.results_schema import results_csv

    for assessment in assessments:
        sys.stdout.write(results_csv(whole_plain(assessment)))


def _print_json(assessments: "list[Assessment]", *, as_list: bool) -> None:
    from dossier.alternatives import whole_plain

    plain = [whole_plain(assessment) for assessment in assessments]
    print(json.dumps(plain if as_list else plain[0], ensure_ascii=False, indent=1, allow_nan=False))
