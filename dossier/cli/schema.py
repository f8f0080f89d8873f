"""``dossier schema``: the JSON Schema of the project file."""

import json
from typing import Any

from dossier.cli.files import new_command, put
from dossier.cli.status import DONE

HELP = """
Print the JSON Schema (draft 2020-12) of the project file, for editors that
complete keys and point at slips while you write: every key with what it is,
its unit, its range and how it is written. What the schema takes can still be
wrong; dossier check has the last word.

With --results, the schema of what dossier check --json prints.

examples:
  dossier schema -o dossier.schema.json
  then, as the first line of a project file, for editors that read it:
  # yaml-language-server: $schema=dossier.schema.json

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "schema", "print the JSON Schema of the project file, for editors", HELP)
    command.add_argument(
        "--results", action="store_true", help="the schema of check --json instead, for programs"
    )
    command.add_argument("-o", "--out", metavar="OUT", help="file to write to (print it)")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Print or write the schema."""
    if asked.results:
        from dossier.rendering.results_schema import results_schema as schema
    else:
        from dossier.project.schema import schema

    put(json.dumps(schema(), ensure_ascii=False, indent=1) + "\n", asked.out)
    return DONE
