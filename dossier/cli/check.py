"""``dossier check``: sizes and checks, prints a summary."""

import json
from typing import Any

from dossier.cli.files import FILE, each_assessed, new_command
from dossier.cli.status import DONE, NOT_MET

HELP = """
Size and check projects, and print for each what fits a screen: load and
burner, what is not met, worst first, how many checks came to what, and what
to measure next.

--json prints everything for programs: results by name as SI numbers with
unit, label and basis, those of the alternatives among them, and every check
with its limit, margin, source and line. Format 1; several files give a list. The names are a contract.

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
    command.add_argument("--json", action="store_true", help="print results and checks for programs")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Size and check projects; print summaries, or JSON for programs."""
    from dossier.alternatives import whole_plain
    from dossier.checking.finding import Status

    assessments, status = each_assessed(asked.files)
    if not assessments:
        return status
    if asked.json:
        plain = [whole_plain(assessment) for assessment in assessments]
        whole = plain if len(asked.files) > 1 else plain[0]
        print(json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False))
    else:
        from dossier.rendering.summary import summary

        for assessment in assessments:
            print(summary(assessment))
    missed = any(f.status is Status.NOT_MET for a in assessments for f in a.findings)
    return status or (NOT_MET if missed else DONE)
