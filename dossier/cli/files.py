"""What the commands share: files read and assessed, their warnings told, progress on a terminal."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dossier.cli.status import DONE, FAULT
from dossier.notation import DossierError, OutOfRange, ProjectFaults

if TYPE_CHECKING:
    from dossier.assessment import Assessment

FILE: dict[str, Any] = {"metavar": "FILE", "help": "project file (YAML)"}


def new_command(commands: Any, name: str, brief: str, text: str) -> argparse.ArgumentParser:
    """A command with its one line for the list and its whole help; the help's first paragraph is on top."""
    description, _, more = text.strip().partition("\n\n")
    made: argparse.ArgumentParser = commands.add_parser(
        name,
        help=brief,
        description=" ".join(description.split()),
        epilog=more.strip() or None,
        allow_abbrev=False,
        formatter_class=Layout,
    )
    return made


def at_least_one(text: str) -> int:
    """A whole number from 1 on, for options that count."""
    if not text.isdecimal() or int(text[:9]) < 1:
        raise argparse.ArgumentTypeError(f"write a whole number from 1 on, not {text!r}")
    return int(text[:9])


class Layout(argparse.RawDescriptionHelpFormatter):
    """Help in which examples keep their lines."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        if "\n" in text:
            return super()._fill_text(text, width, indent)
        return argparse.HelpFormatter._fill_text(self, text, width, indent)  # noqa: SLF001 - the plain layout


def assessed(name: str) -> "Assessment":
    """One project, read and assessed; what is odd in it is told on the error stream."""
    from dossier.assessment import assess
    from dossier.project import load
    from dossier.project.pointing import pointed

    try:
        project = load(name)
        for doubt in project.warnings:
            print(f"warning: {doubt}", file=sys.stderr)
        return assess(project)
    except ProjectFaults as faults:
        raise DossierError(pointed(faults, Path(name).parent)) from None
    except OutOfRange as beyond:
        raise DossierError(pointed(beyond, Path(name).parent) or str(beyond)) from None


def each_assessed(names: Sequence[str]) -> "tuple[list[Assessment], int]":
    """Assess every file; one that fails says why and does not stop the others."""
    assessments, status = [], DONE
    for name in names:
        try:
            assessments.append(assessed(name))
        except DossierError as fault:
            print(fault, file=sys.stderr)
            status = FAULT
    return assessments, status


def agreed(question: str, *, yes: bool) -> bool:
    """Whether the user agrees; what is no answer is no."""
    if yes:
        return True
    print(f"{question} [y/N] ", end="", flush=True)
    answer = sys.stdin.readline()
    if not answer.endswith("\n"):
        print()
    if answer.strip().casefold() in {"y", "yes"}:
        return True
    print("nothing was written")
    return False


def put(text: str, out: str | None) -> None:
    """Print a text, or write it to a file, whole or not at all, and tell which."""
    if out is None:
        sys.stdout.write(text)
        return
    print(write_whole(Path(out), text.encode("utf-8")))


def write_whole(path: Path, content: bytes) -> Path:
    """Write a file whole or not at all; folders that are not there are made."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_bytes(content)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return path
