"""The commands. Each parses, calls and prints; what they print stands in ``rendering.summary``.

Exit status: 0 done; 1 at least one check is not met (``check`` alone); 2 a fault that the message explains.
"""

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dossier.notation import DossierError

if TYPE_CHECKING:
    from dossier.assessment import Assessment

DONE, NOT_MET, FAULT = 0, 1, 2
EDITIONS = ("full", "survey", "aboard", "yard", "measure", "proof")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit status."""
    _plain_streams()
    parser = _parser()
    asked = parser.parse_args(arguments)
    if asked.command is None:
        return next_step()
    try:
        return int(asked.run(asked))
    except DossierError as fault:
        print(fault, file=sys.stderr)
        return FAULT
    except BrokenPipeError:
        sys.stderr.close()
        return DONE
    except OSError as fault:
        print(f"{fault.filename or 'dossier'}: {fault.strerror or fault}", file=sys.stderr)
        return FAULT


def _plain_streams() -> None:
    """Let a terminal or pipe that lacks a character show a substitute instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def next_step() -> int:
    """Say what to do first."""
    print("dossier new DIR        writes a first project file that builds as it stands")
    print("dossier check FILE     sizes and checks it, and prints a summary")
    print("dossier build FILE     renders the installation dossier as a PDF")
    print("dossier COMMAND --help tells more")
    return DONE


def new(asked: Any) -> int:
    """Write a starter project."""
    from dossier.project.starter import demos, write_starter

    if asked.demo is not None and asked.demo not in demos():
        raise DossierError(f"there is no demo {asked.demo!r}; there are {', '.join(demos())}")
    written = write_starter(Path(asked.folder), asked.demo)
    print(f"wrote {written}; next: dossier check {written}")
    return DONE


def _assessed(name: str) -> "Assessment":
    from dossier.assessment import assess
    from dossier.project import load

    project = load(name)
    for doubt in project.warnings:
        print(f"warning: {doubt}", file=sys.stderr)
    return assess(project)


def _each(names: Sequence[str]) -> "tuple[list[Assessment], int]":
    """Assess every file; one that fails says why and does not stop the others."""
    assessments, status = [], DONE
    for name in names:
        try:
            assessments.append(_assessed(name))
        except DossierError as fault:
            print(fault, file=sys.stderr)
            status = FAULT
    return assessments, status


def check(asked: Any) -> int:
    """Size and check projects; print summaries, or JSON for programs."""
    from dossier.assessment import as_plain
    from dossier.checking.finding import Status

    assessments, status = _each(asked.files)
    if not assessments:
        return status
    if asked.json:
        plain = [as_plain(assessment) for assessment in assessments]
        whole = plain if len(asked.files) > 1 else plain[0]
        print(json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False))
    else:
        from dossier.rendering.summary import summary

        for assessment in assessments:
            print(summary(assessment))
    missed = any(f.status is Status.NOT_MET for a in assessments for f in a.findings)
    return status or (NOT_MET if missed else DONE)


def build(asked: Any) -> int:
    """Render dossiers as PDF."""
    assessments, status = _each(asked.files)
    if not assessments:
        return status
    from dossier.rendering.render import render

    for assessment in assessments:
        path = render(
            assessment,
            asked.out,
            edition=asked.edition,
            paper=asked.paper,
            units=asked.units,
            progress=_progress if sys.stderr.isatty() else None,
        )
        print(path)
    return status


def _progress(sheet: int, sheets: int) -> None:
    end = "\n" if sheet == sheets else ""
    print(f"\rsheet {sheet} of {sheets}", end=end, file=sys.stderr, flush=True)


def _parser() -> argparse.ArgumentParser:
    from dossier import __version__

    parser = argparse.ArgumentParser(
        prog="dossier",
        description="Sizes and checks a diesel-fired water heating system in a boat and renders its dossier.",
        epilog="Exit status: 0 done; 1 a check is not met (check alone); 2 a fault, told in words.",
    )
    parser.add_argument("--version", action="version", version=f"dossier {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")

    starter = commands.add_parser("new", help="write a first project file that builds as it stands")
    starter.add_argument("folder", metavar="DIR", help="folder to write it to; made if it is not there")
    starter.add_argument("--from", dest="demo", metavar="DEMO", help="copy a richer demonstration project")
    starter.set_defaults(run=new)

    checker = commands.add_parser("check", help="size and check projects, print a summary")
    checker.add_argument("files", metavar="FILE", nargs="+", help="project file")
    checker.add_argument("--json", action="store_true", help="print results and checks for programs")
    checker.set_defaults(run=check)

    builder = commands.add_parser("build", help="render the installation dossier as a PDF")
    builder.add_argument("files", metavar="FILE", nargs="+", help="project file")
    builder.add_argument("-o", "--out", metavar="DIR", default=".", help="folder to write to (this one)")
    builder.add_argument("--edition", choices=EDITIONS, default="full", help="which edition (full)")
    builder.add_argument("--paper", choices=("A4", "letter", "A5"), default="A4", help="paper (A4)")
    builder.add_argument("--units", choices=("metric", "imperial"), default="metric", help="units (metric)")
    builder.set_defaults(run=build)
    return parser


if __name__ == "__main__":
    sys.exit(main())
