# ruff: noqa: T201 - printing is its work
"""How long a circuit takes, beside EPANET 2.2 called from Python, in one run on one machine.

    python tests/benchmarks/bench_network.py

Best of several rounds, ours and EPANET's in turn. EPANET's time from Python is that of wntr's toolkit from
opening a file that lies ready to closing it, with one solution; its bare time is the solution alone.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import log
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

import numpy as np

from dossier.physics.network import Network
from dossier.physics.network_batch import solve_batch
from dossier.physics.network_elimination import _system

PHYSICS = Path(__file__).parents[1] / "physics"
SIZES = (4, 10, 20, 40, 100, 200, 400, 1000)


def beside(name):
    """Module of the tests of physics."""
    spec = spec_from_file_location(name, PHYSICS / f"{name}.py")
    sys.modules[name] = module_from_spec(spec)
    spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


circuits, oracle = beside("circuits"), beside("epanet_oracle")
LIQUID = circuits.DENSITY, circuits.VISCOSITY


def best(rounds, *jobs):
    """Shortest time of each job (ms), the jobs taking turns."""
    times = [[] for _ in jobs]
    for _ in range(rounds):
        for job, taken in zip(jobs, times, strict=True):
            begun = perf_counter()
            job()
            taken.append(1000 * (perf_counter() - begun))
    return [min(taken) for taken in times]


def fresh(circuit):
    """Gather, analyse and solve a circuit that was never seen before."""
    _system.cache_clear()
    return Network(*circuit).solve(*LIQUID)


def ladders():
    """Ladders of growing length."""
    print("branches   fresh  known   warm   EPANET from Python  bare    fresh/EPANET  known/EPANET   (ms)")
    found = []
    for size in SIZES:
        circuit = circuits.ladder(size, plain=True)
        network = Network(*circuit)
        answer = network.solve(*LIQUID)
        with TemporaryDirectory() as folder:
            path = Path(folder) / "circuit.inp"
            path.write_text(oracle.written(*circuit, *LIQUID), encoding="ascii")
            files = [str(path), str(path.with_suffix(".rpt")), str(path.with_suffix(".bin"))]

            def from_python(files=files):
                epanet = oracle.toolkit().ENepanet(version=2.2)
                epanet.ENopen(*files)
                epanet.ENopenH()
                epanet.ENinitH(0)
                epanet.ENrunH()
                epanet.ENcloseH()
                epanet.ENclose()

            with oracle.Epanet(oracle.written(*circuit, *LIQUID)) as opened:
                opened.toolkit.ENopenH()
                times = best(
                    15,
                    lambda c=circuit: fresh(c),
                    lambda n=network: n.solve(*LIQUID),
                    lambda n=network, a=answer: n.solve(0.998 * LIQUID[0], 1.03 * LIQUID[1], start=a),
                    from_python,
                    opened.solve,
                )
                opened.toolkit.ENcloseH()
        found.append(times)
        new, known, warm, python, bare = times
        print(
            f"{size:8d} {new:7.2f} {known:6.2f} {warm:6.2f} {python:12.2f} {bare:13.3f}"
            f"{new / python:12.2f} {known / python:13.2f}"
        )
    for kind, name in ((0, "fresh"), (1, "known")):
        spans = [(low, high) for low, high in ((2, 7), (4, 7))]
        text = ", ".join(
            f"{log(found[high][kind] / found[low][kind]) / log(SIZES[high] / SIZES[low]):.2f} from "
            f"{SIZES[low]} to {SIZES[high]} branches"
            for low, high in spans
        )
        print(f"growth, {name}: exponent {text}")


def combinations():
    """All 1,024 combinations of ten branches, open or shut."""
    circuit = circuits.ladder(10, plain=True)
    network = Network(*circuit)
    rows = [network.run_index[f"branch{number}"] for number in range(10)]
    open_runs = np.ones((len(circuit.runs), 1024), dtype=bool)
    for number, row in enumerate(rows):
        open_runs[row] = (np.arange(1024) >> number) & 1
    with oracle.Epanet(oracle.written(*circuit, *LIQUID)) as opened:
        opened.toolkit.ENopenH()

        def one_by_one():
            for case in range(1024):
                for row in rows:
                    opened.set_open(row, open_runs[row, case])
                opened.solve()

        ours, theirs = best(5, lambda: solve_batch(network, *LIQUID, open_runs), one_by_one)
        opened.toolkit.ENcloseH()
    ratio = ours / theirs
    print(f"1,024 combinations of 10 branches: ours {ours:.1f} ms, EPANET bare {theirs:.1f} ms ({ratio:.2f})")


def modes():
    """Five states of a five-branch circuit, each six times with the liquid as it cools."""
    network = Network(*circuits.ladder(5))
    many = len(network.elements.names)

    def all_modes():
        for mode in range(5):
            answer = None
            for turn in range(6):
                density = np.full(many, 1030 - 10 * turn * 0.5**turn)
                answer = network.solve(density, 2e-3 * (1 + 0.3**turn), shut={f"branch{mode}"}, start=answer)

    print(f"5 modes of 5 branches, 6 turns of liquid each: {best(15, all_modes)[0]:.1f} ms")


if __name__ == "__main__":
    ladders()
    combinations()
    modes()
