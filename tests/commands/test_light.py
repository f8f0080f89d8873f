"""`check` is for every save: it loads no paper."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
HEAVY = ("reportlab", "matplotlib", "pypdf", "jinja2", "PIL")
ASK = """
import sys
from dossier.cli import main
status = main(["check", {file!r}])
print([name for name in {heavy!r} if name in sys.modules], file=sys.stderr)
sys.exit(status)
"""


def test_check_imports_neither_reportlab_nor_matplotlib():
    file = str(ROOT / "projects" / "lantern_auk" / "lantern_auk.yaml")
    done = subprocess.run(
        [sys.executable, "-c", ASK.format(file=file, heavy=HEAVY)],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert done.returncode in {0, 1}, done.stderr
    assert done.stderr.splitlines()[-1] == "[]"


def test_text_alone_needs_no_paper():
    file = str(ROOT / "projects" / "puddle_wren" / "puddle_wren.yaml")
    asked = (["explain", file, "heat_loss.total"], ["parts", file], ["compare", file, file], ["schema"])
    code = "".join(f"main({words!r})\n" for words in asked)
    loaded = f"print([name for name in {HEAVY!r} if name in sys.modules], file=sys.stderr)"
    done = subprocess.run(
        [sys.executable, "-c", f"import sys\nfrom dossier.cli import main\n{code}{loaded}"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert done.stderr.splitlines()[-1] == "[]"
