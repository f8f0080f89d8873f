"""``dossier new``: a first project file."""

import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dossier.cli.files import new_command, write_whole
from dossier.cli.status import DONE
from dossier.notation import DossierError

if TYPE_CHECKING:
    from dossier.data.first_file import Question

HELP = """
Write a first project file into a folder: commented, complete enough to build,
with figures to replace by your own. Nothing that stands in the folder is ever
overwritten.

--ask asks some ten questions in the terminal, or reads the answers from a file
or pipe, one to a line: boat, hull, insulation, cabins by length, width and
height, climate, burner. It writes a first file in which every guess is marked
as assumed with its source, and the measuring sheets as a PDF to fill in. An
empty answer takes what stands in brackets.

examples:
  dossier new my_boat
  dossier new my_boat --from lantern_auk    a richer one, of an invented cutter
  dossier new my_boat --ask

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "new", "write a first project file that builds as it stands", HELP)
    command.add_argument("folder", metavar="DIR", help="folder to write it to; made if it is not there")
    ways = command.add_mutually_exclusive_group()
    ways.add_argument("--from", dest="demo", metavar="DEMO", help="copy a richer demonstration project")
    ways.add_argument("--ask", action="store_true", help="ask some ten questions and write what follows")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Write a starter project."""
    from dossier.project.starter import demos, write_starter

    if asked.ask:
        return _from_answers(Path(asked.folder))
    if asked.demo is not None and asked.demo not in demos():
        raise DossierError(f"there is no demo {asked.demo!r}; there are {', '.join(demos())}")
    written = write_starter(Path(asked.folder), asked.demo)
    print(f"wrote {written}; next: dossier check {written}")
    return DONE


def _from_answers(folder: Path) -> int:
    """Ask, write the file, then the sheets to measure by."""
    from dossier.assessment import assess
    from dossier.data.first_file import questions
    from dossier.project import load
    from dossier.project.first_file import FILE, first_project

    path = folder / FILE
    if path.exists():
        raise DossierError(f"{path} stands there already: name another folder")
    answers = {question.name: _answer(question) for question in questions()}
    text = first_project(answers, dt.datetime.now(tz=dt.timezone.utc).astimezone().date().isoformat())
    print(f"wrote {write_whole(path, text.encode('utf-8'))}")
    from dossier.rendering.render import render

    print(f"wrote {render(assess(load(path)), folder, edition='measure')}, to fill in and take")
    print(f"next: dossier check {path}")
    return DONE


def _answer(question: "Question") -> Any:
    """One answer: asked again on a terminal until it can be read; elsewhere a fault ends it."""
    from dossier.project.first_file import BadAnswer, read_answer

    ours = f" [{question.otherwise}]" if question.otherwise else ""
    choices = f" ({', '.join(question.choices)})" if question.kind == "choice" else ""
    while True:
        hint = f"\n  {question.hint}" if question.hint else ""
        print(f"{question.question}{choices}{hint}{ours}\n> ", end="", flush=True)
        try:
            return read_answer(question, _lines() if question.kind == "rooms" else _line())
        except BadAnswer as why:
            if not sys.stdin.isatty():
                raise DossierError(f"{question.question} {why}; nothing was written") from None
            print(f"  {why}")


def _line() -> str:
    """One line; empty at the end of the input."""
    line = sys.stdin.readline()
    if not sys.stdin.isatty():
        print(line.strip())
    return line.strip()


def _lines() -> str:
    """Lines up to an empty one."""
    found = []
    while line := _line():
        found.append(line)
    return "\n".join(found)
