"""Circuits to solve: ladders of branches, and tangles of pipes, pumps and check valves."""

from typing import NamedTuple

import numpy as np

from dossier.physics.network_elements import CheckValve, Node, Pipe, Pump, Run, Unit, Valve
from dossier.physics.pump import PumpCurve


class Circuit(NamedTuple):
    nodes: list
    runs: list


DENSITY, VISCOSITY = 985.0, 5e-4


def parabolic(flow, rise, density=1000.0, points=7):
    """Pump curve that falls from ``rise`` to nothing at ``flow``."""
    share = np.linspace(0, 1, points)
    return PumpCurve(tuple((flow * share).tolist()), tuple((rise * (1 - share**2)).tolist()), density)


def ladder(branches, seed=0, *, plain=False):
    """Two-pipe system with direct return: pump, mains, and ``branches`` between them.

    ``plain`` gives every run one pipe (with a valve) or one pump, and smooth pipes, as EPANET can read it.
    """
    draw = np.random.default_rng(seed)
    supply, back = 2, 2 + branches
    nodes = [Node("header", 1.1e5), Node("outlet")]
    nodes += [Node(f"{side}{n}") for side in ("supply", "return") for n in range(branches)]
    rough = 0.0 if plain else 1e-5
    curve = parabolic(2.4e-4 * branches, 60e3)
    boiler = [] if plain else [Unit("boiler", 1.2e-4 * branches, 8e3, 990.0, 5e-4)]
    runs = [Run("pump", 0, 1, (Pump("circulator", curve), *boiler))]

    def main(name, start, end, loss, carries):
        bore = 0.012 * carries**0.45 + 0.006
        return Run(name, start, end, (Pipe(f"{name} pipe", bore, draw.uniform(0.5, 3), rough, loss),))

    runs.append(main("flow", 1, supply, 4.0, branches))
    runs.append(main("back", back, 0, 4.0, branches))
    for n in range(branches - 1):
        runs.append(main(f"flow{n}", supply + n, supply + n + 1, 0.6, branches - n))
        runs.append(main(f"back{n}", back + n + 1, back + n, 0.6, branches - n))
    for n in range(branches):
        first = Pipe(f"to {n}", 0.012, draw.uniform(3, 9), 0.0 if plain else 7e-6, 4.5)
        valve = Valve(f"valve {n}", draw.uniform(0.8, 2.0))
        rest = (
            Unit(f"coil {n}", 1.5e-4, 6e3, 990.0, 5e-4),
            Pipe(f"from {n}", 0.012, first.length, 7e-6, 4.5),
        )
        runs.append(Run(f"branch{n}", supply + n, back + n, (first, valve, *(() if plain else rest))))
    return Circuit(nodes, runs)


def tangle(seed, per_head, *, rough=False):
    """Random connected circuit of 3 to 180 runs with reservoirs and demands, water of 1000 kg/m³.

    ``per_head`` is the pressure of one metre. Pumps and check valves stand only in runs that are no node's
    sole way, so that every demand can be met.
    """
    draw = np.random.default_rng(seed)
    count = int(draw.integers(4, 90))
    held = int(draw.integers(1, 4))
    tree = [(int(draw.integers(0, node)), node) for node in range(1, count)]
    extra = [
        tuple(draw.choice(count, 2, replace=False).tolist()) for _ in range(int(draw.integers(0, count)))
    ]
    nodes = [
        Node(f"n{n}", pressure=per_head * float(draw.uniform(10, 60)))
        if n < held
        else Node(f"n{n}", demand=float(draw.uniform(0.3, 1.5)) * bool(draw.random() < 0.6))
        for n in range(count)
    ]
    runs = []
    for number, ends in enumerate([*tree, *extra]):
        start, end = ends if draw.random() < 0.5 else reversed(ends)
        spare = number >= len(tree)
        kind = draw.random()
        pipe = Pipe(
            f"p{number}",
            float(draw.uniform(0.02, 0.06)),
            float(draw.uniform(5, 60)),
            float(draw.uniform(0, 1e-4)) if rough else 0.0,
            float(draw.uniform(0, 5)),
        )
        if spare and kind < 0.12:
            pump = Pump(f"p{number}", parabolic(6e-3, 20 * per_head, points=6))
            elements = (pump, CheckValve(f"c{number}", 2e4))
        elif spare and kind < 0.4:
            elements = (pipe, CheckValve(f"c{number}", float(draw.uniform(5, 20))))
        else:
            elements = (pipe,)
        runs.append(Run(f"r{number}", start, end, elements))
    return Circuit(nodes, runs)
