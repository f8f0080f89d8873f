# ruff: noqa: T201 - printing is its work
"""How long the simulated day takes, with the closed forms and the warm-up beside it, in one run.

    python tests/benchmarks/bench_day.py

Best and median of several rounds for the demonstration cutter and her stores; asked for is a day in 0.3 s.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from statistics import median
from time import perf_counter

from dossier.sizing.day import day
from dossier.sizing.store import store_study
from dossier.sizing.warm_up import warm_up

SIZING = Path(__file__).parents[1] / "sizing"
ROUNDS = 9


def beside(name):
    """Module of the tests of sizing."""
    spec = spec_from_file_location(name, SIZING / f"{name}.py")
    sys.modules[name] = module_from_spec(spec)
    spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


def timed(job):
    """Best and median time of a job (ms), and what it gave last."""
    each = []
    for _ in range(ROUNDS):
        begin = perf_counter()
        found = job()
        each.append(1000 * (perf_counter() - begin))
    return f"{min(each):6.1f} {median(each):6.1f}", found


def main():
    """Print a line for each boat."""
    cutter = beside("cutter").cutter
    print("boat                  day best, median   starts  stretches  balance    store          warm-up")
    for name in ("", "buffer_60", "buffer_120"):
        boat = cutter(alternative=name)
        rests = (boat.project, boat.ring, boat.coolant, boat.heat_loss)
        simulated, found = timed(lambda rests=rests: day(*rests))
        stores, _ = timed(lambda rests=rests: store_study(*rests))
        warm, _ = timed(lambda b=boat: warm_up(b.project, b.heat_loss, b.ring, b.coolant))
        print(
            f"{name or 'plain ring':20}  {simulated:>16}  {float(found.starts):7.0f}  {len(found.record):9}  "
            f"{found.heat.residual:7.0e}  {stores}  {warm}"
        )


if __name__ == "__main__":
    main()
