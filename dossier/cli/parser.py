"""Which commands there are, and the help they share."""

import argparse
from functools import cache

from dossier import __version__
from dossier.cli import (
    build,
    check,
    compare,
    completion,
    draw,
    explain,
    network,
    new,
    parts,
    recover,
    schema,
    take,
    upgrade,
)
from dossier.cli.files import Layout

COMMANDS = (
    new, check, build, take, explain, draw, compare, parts, network, recover, upgrade, schema,
    completion,
)  # fmt: skip

FIRST_STEPS = """\
dossier new DIR        writes a first project file that builds as it stands
dossier check FILE     sizes and checks it, and prints a summary
dossier build FILE     renders the installation dossier as a PDF
dossier COMMAND --help tells more"""

EPILOG = """\
exit status:
  0  done
  1  at least one check is not met (check alone)
  2  a fault, told in words with file, line and column

A project file is text that you write and keep. dossier reads nothing outside its folder and never uses the
network. The same file gives the same PDF, byte for byte. Nothing is coloured, on a terminal or elsewhere.
Start with: dossier new my_boat"""


@cache
def parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    made = argparse.ArgumentParser(
        allow_abbrev=False,
        prog="dossier",
        description="Sizes and checks a diesel-fired water heating system in a boat and renders its "
        "installation dossier.",
        epilog=EPILOG,
        formatter_class=Layout,
    )
    made.add_argument("--version", action="version", version=f"dossier {__version__}")
    commands = made.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    for command in COMMANDS:
        command.add(commands)
    return made
