"""``dossier draw``: one drawing or figure."""

from pathlib import Path
from typing import Any

from dossier.cli.files import FILE, assessed, new_command, write_whole
from dossier.cli.status import DONE

HELP = """
Draw one drawing or figure of the dossier into a file of its own: svg, pdf,
png or dxf by the ending of OUT. Without a name, list what there is.

Lengths are true: a sheet is as large as it is printed. A drawing of several
sheets makes several pages of a pdf, or files numbered X.svg, X_2.svg and so
on. DXF needs the extra of the package: pip install 'boat-heating-dossier[dxf]'.

examples:
  dossier draw boat.yaml
  dossier draw boat.yaml schematic -o schematic.svg
  dossier draw boat.yaml schematic --paper A3 -o schematic.dxf
  dossier draw boat.yaml pump -o pump.png

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "draw", "draw one drawing or figure as svg, pdf, png or dxf", HELP)
    command.add_argument("file", **FILE)
    command.add_argument("name", metavar="NAME", nargs="?", help="what to draw (list what there is)")
    command.add_argument("-o", "--out", metavar="OUT", help="file to write (NAME.svg)")
    command.add_argument("--paper", choices=("A4", "A3", "letter"), default="A4", help="paper (A4)")
    command.add_argument("--units", choices=("metric", "imperial"), default="metric", help="units (metric)")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Write a drawing, or list what can be drawn."""
    from dossier.rendering.plain_table import aligned
    from dossier.rendering.single import all_drawn, draft_of, files_of, find

    draft = draft_of(assessed(asked.file), asked.paper, asked.units)
    if asked.name is None:
        print("\n".join(aligned([(drawn.name, drawn.title) for drawn in all_drawn(draft)])))
        return DONE
    out = Path(asked.out or f"{asked.name}.svg")
    for path, content in files_of(find(draft, asked.name), out).items():
        print(write_whole(path, content))
    return DONE
