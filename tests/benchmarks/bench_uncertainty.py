# ruff: noqa: T201 - printing is its work
"""How long the study of uncertainty takes on the demonstrations, best of several rounds.

    python tests/benchmarks/bench_uncertainty.py

Asked: 10,000 samples of the cutter's heat load under 0.2 s, drawn and pushed through all her formulas. The
cutter is timed as she stands and with every figure of her file assumed. Processor time of one process, so
that what else runs on the machine does not count.
"""

from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from dossier.project import load
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.study import asked_again
from dossier.sizing.uncertainty import SAMPLES, uncertainty
from dossier.sizing.uncertainty_inputs import unknowns_behind
from dossier.sizing.uncertainty_workings import SampledWorkings

PROJECTS = Path(__file__).parents[2] / "projects"
CUTTER = PROJECTS / "lantern_auk"


def best(job, rounds=5):
    """Shortest time of a job (ms)."""
    times = []
    for _ in range(rounds):
        begun = process_time()
        job()
        times.append(1000 * (process_time() - begun))
    return min(times)


def guessed_cutter():
    """The cutter with every figure assumed."""
    with TemporaryDirectory() as folder:
        text = (CUTTER / "lantern_auk.yaml").read_text(encoding="utf-8")
        text = text.replace("{basis: drawing}", "{basis: assumed}")
        (Path(folder) / "boat.yaml").write_text(text, encoding="utf-8")
        (Path(folder) / "months.csv").write_bytes((CUTTER / "months.csv").read_bytes())
        return load(Path(folder) / "boat.yaml")


def heat_load(name, project):
    """Samples of the heat load: as arrays through the calculation, and through its workings."""
    total = heat_loss(project).total
    unknowns = unknowns_behind(project, [total])
    graph = SampledWorkings({"load": total}, unknowns.places.get)
    drawn = unknowns.drawn(1, SAMPLES)
    stated = {f.line.key: x for f, x in zip(unknowns.figures, drawn, strict=True) if f.line.line is not None}
    samples = project.with_numbers(stated)
    times = (
        best(lambda: unknowns.drawn(1, SAMPLES)),
        best(lambda: SampledWorkings({"load": total}, unknowns.places.get)),
        best(lambda: graph.run(drawn)),
        best(lambda: heat_loss(samples)),
    )
    print(
        f"{name:28s} {len(unknowns.each):3d} unknowns: drawn {times[0]:6.1f}, workings gathered "
        f"{times[1]:5.1f}, pushed through {times[2]:6.1f}, together {sum(times[:3]):6.1f}; whole calculation "
        f"{times[3]:6.1f}"
    )


def whole(name, project):
    """The whole study: percentiles, ranking, and the ring solved again where it must be."""
    parts = asked_again(project)
    found = uncertainty(project, parts, asked_again)
    taken = best(lambda: uncertainty(project, parts, asked_again), rounds=3)
    held = best(lambda: uncertainty(project, parts), rounds=3)
    once = best(lambda: asked_again(project), rounds=3)
    print(
        f"{name:28s} {len(found.unknowns):3d} unknowns, {len(found.spreads)} results: {taken:7.1f}, of which "
        f"{found.solutions} solutions {taken - held:7.1f} (one calculation of all {once:5.1f})"
    )


if __name__ == "__main__":
    cutter, guessed = load(CUTTER / "lantern_auk.yaml"), guessed_cutter()
    print(f"{SAMPLES} samples of the heat load (ms)")
    heat_load("cutter", cutter)
    heat_load("cutter, all assumed", guessed)
    print("whole study (ms)")
    whole("cutter", cutter)
    whole("cutter, all assumed", guessed)
    for each in ("barley_moth/barley_moth_a", "starter/boat", "puddle_wren/puddle_wren"):
        whole(each, load(PROJECTS / f"{each}.yaml"))
