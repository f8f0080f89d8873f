"""The demonstration cutter, her file changed: ``cutter("sensor: return", "sensor: outlet")``."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from dossier.project import load
from tests.calculated import Calculated

FOLDER = Path(__file__).parents[2] / "projects" / "lantern_auk"


@cache
def cutter(*changes, alternative=""):
    """The cutter with pieces of text replaced, in pairs, and perhaps one of her alternatives."""
    text = (FOLDER / "lantern_auk.yaml").read_text(encoding="utf-8")
    for old, new in zip(changes[::2], changes[1::2], strict=True):
        if old not in text:
            raise ValueError(f"the file does not hold {old!r}")
        text = text.replace(old, new)
    if not alternative:
        text = text[: text.index("\nalternatives:") + 1]  # read again with each of them, which takes time
    with TemporaryDirectory() as folder:
        (Path(folder) / "boat.yaml").write_text(text, encoding="utf-8")
        months = (FOLDER / "months.csv").read_text(encoding="utf-8")
        (Path(folder) / "months.csv").write_text(months, encoding="utf-8")
        project = load(Path(folder) / "boat.yaml")
    return Calculated(project.alternative(alternative) if alternative else project)
