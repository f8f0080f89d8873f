"""The demonstration cutter, her file changed: ``cutter("sensor: return", "sensor: outlet")``."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from types import SimpleNamespace

from dossier.project import load
from dossier.sizing.circuit import circuit
from dossier.sizing.coolant import coolant_study
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.ring import ring_study

FOLDER = Path(__file__).parents[2] / "projects" / "lantern_auk"


def calculated(project):
    """What store, day and warm-up rest on."""
    loss, graph = heat_loss(project), circuit(project)
    mix = coolant_study(project, graph)
    ring = ring_study(project, graph, loss, mix)
    return SimpleNamespace(project=project, heat_loss=loss, circuit=graph, coolant=mix, ring=ring)


@cache
def cutter(*changes, alternative=""):
    """The cutter with pieces of text replaced, in pairs, and perhaps one of her alternatives."""
    text = (FOLDER / "lantern_auk.yaml").read_text(encoding="utf-8")
    for old, new in zip(changes[::2], changes[1::2], strict=True):
        if old not in text:
            raise ValueError(f"the file does not hold {old!r}")
        text = text.replace(old, new)
    with TemporaryDirectory() as folder:
        (Path(folder) / "boat.yaml").write_text(text, encoding="utf-8")
        months = (FOLDER / "months.csv").read_text(encoding="utf-8")
        (Path(folder) / "months.csv").write_text(months, encoding="utf-8")
        project = load(Path(folder) / "boat.yaml")
    return calculated(project.alternative(alternative) if alternative else project)
