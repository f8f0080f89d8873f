"""Circuits handed to EPANET 2.2 (through wntr's toolkit), for comparison.

EPANET reckons in heads with g = 32.2 ft/s², in Swamee-Jain's friction factor above Re 4000 and a cubic from
2000 to 4000, and keeps single precision at its border. Everything is written in metres, mm and l/s.
"""

import tempfile
import warnings
from functools import cache
from pathlib import Path

import numpy as np

from dossier.physics.network_elements import CheckValve, Fitting, Pipe, Pump, Valve
from dossier.physics.valves import SQUARE

GRAVITY = 32.2 * 0.3048
"""Acceleration of free fall as EPANET has it (m/s²)."""

VISCOSITY = 1.1e-5 * 0.3048**2
"""Kinematic viscosity of EPANET's water (m²/s), which its multiplier refers to."""

STATUS = 11
FLOW, HEAD = 8, 10


def _pipe(run):
    """Bore, length, roughness and loss factor of a run that is one pipe with valves and fittings on it."""
    pipe = next(element for element in run.elements if isinstance(element, Pipe))
    area = np.pi / 4 * pipe.bore**2
    loss = pipe.loss
    for element in run.elements:
        if isinstance(element, Valve | CheckValve):
            loss += 2 * SQUARE * area**2 / element.kv**2
        elif isinstance(element, Fitting):
            loss += element.loss * (pipe.bore / element.bore) ** 4
    return pipe.bore, pipe.length, pipe.roughness, loss


def written(nodes, runs, density, viscosity, shut=()):
    """Input file of a circuit whose runs are one pipe each, or one pump."""
    per_head = density * GRAVITY
    junctions, reservoirs, pipes, pumps, curves, status = [], [], [], [], [], []
    for number, node in enumerate(nodes):
        if node.pressure is None:
            junctions.append(f"N{number} 0 {1000 * node.demand / density:.12g}")
        else:
            reservoirs.append(f"N{number} {node.pressure / per_head:.12g}")
    for number, run in enumerate(runs):
        ends = f"L{number} N{run.start} N{run.end}"
        if isinstance(run.elements[0], Pump):
            pump = run.elements[0]
            pumps.append(f"{ends} HEAD C{number} SPEED {pump.speed:.12g}")
            curves += [
                f"C{number} {1000 * flow:.12g} {rise / (pump.curve.density * GRAVITY):.12g}"
                for flow, rise in zip(pump.curve.flows, pump.curve.rises, strict=True)
            ]
        else:
            bore, length, roughness, loss = _pipe(run)
            one_way = any(isinstance(element, CheckValve) for element in run.elements)
            state = "CV" if one_way else "OPEN"
            pipes.append(
                f"{ends} {length:.12g} {1000 * bore:.12g} {1000 * roughness:.12g} {loss:.12g} {state}"
            )
        if run.name in shut:
            status.append(f"L{number} CLOSED")
    parts = {
        "JUNCTIONS": junctions,
        "RESERVOIRS": reservoirs,
        "PIPES": pipes,
        "PUMPS": pumps,
        "CURVES": curves,
        "STATUS": status,
        "OPTIONS": [
            "UNITS LPS",
            "HEADLOSS D-W",
            f"VISCOSITY {viscosity / density / VISCOSITY:.12g}",
            "ACCURACY 1e-8",
            "TRIALS 500",
            "UNBALANCED CONTINUE 100",
            "QUALITY NONE",
        ],
        "TIMES": ["DURATION 0"],
        "REPORT": ["STATUS NO"],
    }
    return "".join(f"[{name}]\n" + "\n".join(lines) + "\n\n" for name, lines in parts.items()) + "[END]\n"


@cache
def toolkit():
    """EPANET's own functions; the package about them is slow to load, so only where a circuit is solved."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from wntr.epanet import toolkit as functions

    return functions


class Epanet:
    """One circuit opened in EPANET; flows in m³/s in the order of the runs, heads in metres."""

    def __init__(self, text):
        self._folder = tempfile.TemporaryDirectory()
        path = Path(self._folder.name) / "circuit"
        path.with_suffix(".inp").write_text(text, encoding="ascii")
        self.toolkit = toolkit().ENepanet(version=2.2)
        files = [str(path.with_suffix(suffix)) for suffix in (".inp", ".rpt", ".bin")]
        self.toolkit.ENopen(*files)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.toolkit.ENclose()
        self._folder.cleanup()

    def solve(self):
        """Solve the present state."""
        self.toolkit.ENinitH(0)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            self.toolkit.ENrunH()

    def set_open(self, run, is_open):
        """Open or shut a run before it is solved."""
        self.toolkit.ENsetlinkvalue(run + 1, STATUS, 1.0 if is_open else 0.0)

    def flows(self, runs):
        """Flow of each run (m³/s)."""
        index = [self.toolkit.ENgetlinkindex(f"L{number}") for number in range(len(runs))]
        return np.array([self.toolkit.ENgetlinkvalue(place, FLOW) for place in index]) / 1000

    def heads(self, nodes):
        """Head of each node (m)."""
        index = [self.toolkit.ENgetnodeindex(f"N{number}") for number in range(len(nodes))]
        return np.array([self.toolkit.ENgetnodevalue(place, HEAD) for place in index])


def solved(nodes, runs, density, viscosity, shut=()):
    """Mass flows (kg/s) by EPANET, from opening the file to closing it."""
    with Epanet(written(nodes, runs, density, viscosity, shut)) as epanet:
        epanet.toolkit.ENopenH()
        epanet.solve()
        flows = epanet.flows(runs)
        heads = epanet.heads(nodes)
        epanet.toolkit.ENcloseH()
    return flows * density, heads * density * GRAVITY
