# ruff: noqa: T201 - printing is its work
"""How long the year takes: by twelve months, and by the 8,760 hours of an open weather file.

    python tests/benchmarks/bench_season.py

Best of several rounds. The hours are those of the TMY3 file that pvlib carries; reading it is timed apart.
"""

from pathlib import Path
from shutil import copy
from tempfile import TemporaryDirectory
from time import perf_counter

import pvlib

from dossier.project import load
from dossier.sizing.season import season
from dossier.sizing.study import study

ROOT = Path(__file__).parents[2]
TMY3 = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"
BOATS = (
    "lantern_auk/lantern_auk.yaml",
    "northern_quill/northern_quill.yaml",
    "barley_moth/barley_moth_b.yaml",
)
WEATHER = "format: 1\nconditions: {weather: {from: weather.csv}}\n"
ROUNDS = 7


def best(job):
    """Shortest time of a job (ms)."""
    times = []
    for _ in range(ROUNDS):
        begun = perf_counter()
        job()
        times.append(1000 * (perf_counter() - begun))
    return min(times)


def read(folder):
    """The weather of a year from its file."""
    return load(folder / "weather.yaml").conditions.weather


def main():
    """Print one line for each boat."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        copy(TMY3, folder / "weather.csv")
        (folder / "weather.yaml").write_text(WEATHER, encoding="utf-8")
        weather = read(folder)
        print(f"reading {len(weather.outside_air)} hours: {best(lambda: read(folder)):.0f} ms")
    print("boat                                 months  hours  (ms)")
    for boat in BOATS:
        found = study(load(ROOT / "projects" / boat))
        rests = found.heat_loss, found.fuel, found.ring, found.store, found.recovery
        held = found.project.conditions.model_copy(update={"weather": weather})
        hourly = found.project.model_copy(update={"conditions": held})
        months = best(lambda: season(found.project, *rests))  # noqa: B023 - called at once
        hours = best(lambda: season(hourly, *rests))  # noqa: B023 - called at once
        print(f"{boat:35} {months:7.1f} {hours:6.1f}")


if __name__ == "__main__":
    main()
