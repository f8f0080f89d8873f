# ruff: noqa: T201 - printing is its work
"""How long a document takes, beside a bare reportlab platypus script of as many pages.

Run it as a script. Each is a process of its own, imports included, and the best of five counts. Both set the
same words: headings, prose, and tables of 22 rows and 6 columns of strings.
"""

import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter

WORDS = "The saloon is the worst branch and the others are throttled until all five lose the same. " * 6
CHAPTERS, ROWS, COLUMNS, RUNS = 38, 22, 6, 5

BARE = """
import sys
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import PageBreak, Paragraph, SimpleDocTemplate, Table, TableStyle
WORDS, chapters, rows, columns, out = {words!r}, {chapters}, {rows}, {columns}, sys.argv[1]
styles = getSampleStyleSheet()
ruled = TableStyle([("LINEBELOW", (0, 0), (-1, -1), 0.4, (0, 0, 0)), ("ALIGN", (1, 0), (-1, -1), "RIGHT")])
story = []
for chapter in range(chapters):
    story.append(Paragraph(f"{{chapter}} Flow", styles["Heading1"]))
    story += [Paragraph(WORDS, styles["BodyText"]) for _ in range(2)]
    head = [[f"Head {{n}}" for n in range(columns)]]
    body = [[f"{{row * n / 7:.2f}}" for n in range(columns)] for row in range(rows)]
    story += [Table(head + body, style=ruled, repeatRows=1), PageBreak()]
SimpleDocTemplate(out, pagesize=A4).build(story)
"""

OURS = """
import sys
from pathlib import Path
from dossier.rendering.blocks import Align, Column, Contents, Heading, Imprint, Paragraph, Table
from dossier.rendering.pages import render_pdf
WORDS, chapters, rows, columns, out = {words!r}, {chapters}, {rows}, {columns}, sys.argv[1]
imprint = Imprint("Marsh Heron", "Dossier", "MH-1", "A", "draft", "2026-09-02", "Survey", foot="Rules first.")
blocks = [Contents("Contents")]
for chapter in range(chapters):
    blocks.append(Heading(1, "Flow"))
    blocks += [Paragraph(WORDS) for _ in range(2)]
    heads = [Column(f"Head {{n}}", align=Align.NUMBER if n else Align.TEXT) for n in range(columns)]
    body = [[f"{{row * n / 7:.2f}}" for n in range(columns)] for row in range(rows)]
    blocks.append(Table(heads, body, "Flows"))
render_pdf(blocks, imprint, Path(out))
"""


PACKAGE = "import dossier, sys; open(sys.argv[1], 'w').close()"


def best(script: str) -> tuple[float, int]:
    """Seconds of the fastest run, and bytes of what it wrote."""
    filled = script.format(words=WORDS, chapters=CHAPTERS, rows=ROWS, columns=COLUMNS)
    with tempfile.TemporaryDirectory() as folder:
        out, times = Path(folder) / "pages.pdf", []
        for _ in range(RUNS):
            start = perf_counter()
            subprocess.run([sys.executable, "-c", filled, str(out)], check=True)
            times.append(perf_counter() - start)
        return min(times), out.stat().st_size


def main() -> None:
    """Print both times and their ratio."""
    (bare, bare_size), (ours, our_size), (package, _) = best(BARE), best(OURS), best(PACKAGE)
    print(f"bare platypus {bare:.2f} s, {bare_size / 1000:.0f} kB")
    print(f"this renderer {ours:.2f} s, {our_size / 1000:.0f} kB")
    print(f"of which the package itself, calculations and all, takes {package:.2f} s to import")
    print(f"ratio {ours / bare:.2f} for {CHAPTERS} chapters of a page")


if __name__ == "__main__":
    main()
