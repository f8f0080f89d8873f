# ruff: noqa: E501, T201 - printing is its work, and a script stands within
"""What the commands cost, beside what cannot be saved.

``python tests/benchmarks/bench_commands.py`` prints, for one demonstration boat (``--boat`` names another):

- ``check`` over a process that only imports the libraries a project file needs, and has pint read our units;
- ``build`` of the full edition over a bare platypus script: as many pages, tables, cells, words and figures,
  every cell a paragraph that may wrap, every figure a few curves;
- pages, peak memory, and whether two builds are the same to the byte;
- the share of each stage of ``build``.

Each run is a process of its own, imports included. Seconds are those of the processor in the user's part, since
others may use the machine; runs take turns, and the least of several counts.
"""

import argparse
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass
from multiprocessing import Process, Queue
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

LIBRARIES = """
from fractions import Fraction
import numpy.random, yaml, pint
from pydantic import BaseModel, Field
pint.UnitRegistry("dossier/data/units.txt", non_int_type=Fraction)
"""
PLATYPUS = """
import sys
from reportlab.graphics.shapes import Drawing, PolyLine
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import PageBreak, Paragraph, SimpleDocTemplate, Table, TableStyle
pages, tables, cells, cell_words, words, figures, out = {counts}, sys.argv[1]
columns = 5
body = getSampleStyleSheet()["BodyText"]
body.fontSize, body.leading, body.spaceBefore = 6, 7, 0
ruled = TableStyle([("LINEBELOW", (0, 0), (-1, -1), 0.4, (0, 0, 0)), ("FONTSIZE", (0, 0), (-1, -1), 6),
                    ("TOPPADDING", (0, 0), (-1, -1), 0), ("BOTTOMPADDING", (0, 0), (-1, -1), 0)])
said = "boat supply warm between valves coolant rise".split()
text = lambda count: " ".join(said[n % len(said)] for n in range(count))
part = lambda whole, page: whole * (page + 1) // pages - whole * page // pages
story = []
for page in range(pages):
    story += [Paragraph(text(min(60, left)), body) for left in range(part(words, page), 0, -60)]
    for n in range(part(tables, page)):
        rows = max(1, cells // tables // columns)
        filled = [[Paragraph(text(max(1, cell_words // cells)), body) for _ in range(columns)] for _ in range(rows)]
        story.append(Table(filled, style=ruled, repeatRows=1))
    for n in range(part(figures, page)):
        figure = Drawing(300, 100)
        for curve in range(4):
            figure.add(PolyLine([c for x in range(60) for c in (5 * x, (x * (curve + 1)) % 100)]))
        story.append(figure)
    story.append(PageBreak())
SimpleDocTemplate(out, pagesize=A4, topMargin=20, bottomMargin=20).build(story)
"""


@dataclass(frozen=True)
class Amounts:
    """How much a document holds; ``words`` are those outside tables."""

    pages: int
    tables: int
    cells: int
    cell_words: int
    words: int
    figures: int


def blocks_within(block: Any) -> Iterator[Any]:
    """A block and all that stand in it."""
    if is_dataclass(block):
        yield block
        for field in fields(block):
            yield from blocks_within(getattr(block, field.name))
    elif isinstance(block, tuple | list):
        for inner in block:
            yield from blocks_within(inner)


def amounts_of(file: Path, pdf: Path, told: "Queue[Amounts]") -> None:
    """Count what the full edition of a project holds."""
    import pypdf

    from dossier import assess, load
    from dossier.rendering import blocks as kinds
    from dossier.rendering.draft import Draft
    from dossier.rendering.editions import blocks_of, extents
    from dossier.rendering.numbers import Numbers
    from dossier.rendering.words import Words

    draft = Draft(assess(load(file)), Words("en"), Numbers(), "full", "A4", extents("full"))
    rows: list[Sequence[Any]] = []
    tables = figures = 0
    for block in blocks_within(tuple(blocks_of(draft))):
        if isinstance(block, kinds.Table):
            tables += 1
            rows += [[column.label for column in block.columns], *block.rows, *block.totals]
        elif isinstance(block, kinds.FindingsTable | kinds.ChecksTable):
            tables += 1
        elif isinstance(block, kinds.Finding | kinds.Check):
            rows.append([getattr(block, field.name) for field in fields(block)])
        elif isinstance(block, kinds.KeyFigures):
            tables += 1
            rows += block.rows
        elif isinstance(block, kinds.Figure | kinds.DrawingSheet | kinds.CardFigure):
            figures += 1
    cells = sum(map(len, rows))
    cell_words = sum(len(str(cell).split()) for row in rows for cell in row)
    pages = pypdf.PdfReader(str(pdf)).pages
    words = sum(len(page.extract_text().split()) for page in pages)
    told.put(Amounts(len(pages), tables, cells, cell_words, max(words - cell_words, 0), figures))


STAGES = """
import sys
from pathlib import Path
from time import process_time
marks = [("", 0.0)]
def reached(stage):
    marks.append((stage, process_time()))
import dossier.cli, dossier.assessment, dossier.rendering.many
from dossier.assessment import assess
from dossier.project import load
from dossier.rendering import pages, render as module
reached("start and imports")
project = load(Path(sys.argv[1]))
reached("reading the file")
assessment = assess(project)
reached("calculation and checks")
said, laid, drawn = module.imprint, pages.lay_out, pages.draw
def imprint(*given):
    reached("sections")
    return said(*given)
def lay_out(*given):
    reached("data to attach")
    return laid(*given)
def draw(*given):
    reached("laying out")
    drawn(*given)
    reached("drawing")
module.imprint, pages.lay_out, pages.draw = imprint, lay_out, draw
module.render(assessment, sys.argv[2])
reached("writing the PDF")
for (_, begun), (stage, ended) in zip(marks, marks[1:]):
    print(f"  {stage:24}{(ended - begun) / marks[-1][1]:6.0%}")
"""


def counted(file: Path, pdf: Path) -> Amounts:
    """As ``amounts_of``, in a process that leaves this one small."""
    told: Queue[Amounts] = Queue()
    apart = Process(target=amounts_of, args=(file, pdf, told))
    apart.start()
    found = told.get()
    apart.join()
    return found


def cost(command: Sequence[str]) -> tuple[float, float]:
    """Processor seconds (user) and greatest memory (MiB) of one process."""
    environment = {key: said for key, said in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    started = subprocess.Popen(
        [sys.executable, *command],
        cwd=ROOT,
        env=environment | {"PYTHONPATH": str(ROOT)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    _, _, used = os.wait4(started.pid, 0)
    return used.ru_utime, used.ru_maxrss / (1024**2 if sys.platform == "darwin" else 1024)


def least(commands: Mapping[str, Sequence[str]], runs: int) -> dict[str, tuple[float, float]]:
    """Least seconds and memory of each command, run in turns."""
    found = {name: (float("inf"), float("inf")) for name in commands}
    for _ in range(runs):
        for name, command in commands.items():
            seconds, memory = cost(command)
            found[name] = (min(found[name][0], seconds), min(found[name][1], memory))
    return found


def main() -> None:
    """Print both ratios, pages, memory, and whether two builds are one."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--boat", default="projects/lantern_auk/lantern_auk.yaml")
    parser.add_argument("--runs", type=int, default=3)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        one, other = Path(folder, "one"), Path(folder, "other")
        build = ["-m", "dossier", "build", asked.boat, "-o"]
        cost([*build, str(other)])
        found = least(
            {
                "libraries of check": ["-c", LIBRARIES],
                "check": ["-m", "dossier", "check", asked.boat],
                "build": [*build, str(one)],
            },
            asked.runs,
        )
        (first,), (second,) = one.glob("*.pdf"), other.glob("*.pdf")
        same = first.read_bytes() == second.read_bytes()
        amounts = counted(ROOT / asked.boat, first)
        counts = ", ".join(str(getattr(amounts, field.name)) for field in fields(amounts))
        bare = ["-c", PLATYPUS.format(counts=counts), str(Path(folder, "bare.pdf"))]
        found |= least({"bare platypus": bare}, asked.runs)
    for name, (seconds, memory) in found.items():
        print(f"{name:20} {seconds:6.2f} s {memory:6.0f} MiB")
    print(f"check {found['check'][0] / found['libraries of check'][0]:.2f} times its libraries")
    print(f"build {found['build'][0] / found['bare platypus'][0]:.2f} times bare platypus; {amounts}")
    print("two builds are the same bytes" if same else "two builds DIFFER")
    print("stages of build")
    with tempfile.TemporaryDirectory() as folder:
        stages = [sys.executable, "-c", STAGES, str(ROOT / asked.boat), str(Path(folder, "staged.pdf"))]
        subprocess.run(stages, check=True, cwd=ROOT, env=os.environ | {"PYTHONPATH": str(ROOT)})


if __name__ == "__main__":
    main()
