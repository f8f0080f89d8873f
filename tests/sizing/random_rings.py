"""Random heating circuits as project files, and the same circuits as EPANET reads them.

One tree of items is drawn, and written twice by code that shares nothing: as the lists of a project file, and
as pipes, pumps and nodes of an input file of EPANET.
"""

from dataclasses import dataclass, field
from math import pi

import numpy as np

GRAVITY = 32.2 * 0.3048
"""Acceleration of free fall as EPANET has it (m/s²)."""

VISCOSITY = 1.1e-5 * 0.3048**2
"""Kinematic viscosity of EPANET's water (m²/s), which its multiplier refers to."""

SHORT = 1e-4
"""Length (m) of the smooth pipe that carries the loss factor of a valve or unit in EPANET."""

WIDE = 0.025


@dataclass
class Part:
    """A pipe, valve, unit or pump: how the file writes it, and its pipe in EPANET (m, loss factor)."""

    tag: str
    item: dict
    bore: float = 0.0
    length: float = 0.0
    rough: float = 0.0
    loss: float = 0.0
    one_way: bool = False
    curve: tuple = ()


@dataclass
class Bundle:
    """Parallel branches: ``branches`` by name, each a list of parts and bundles."""

    ends: tuple
    branches: dict


@dataclass
class Drawn:
    """A circuit: components and ring of the file, the tree, links as (from, to, pipe)."""

    components: dict
    ring: list
    links: list = field(default_factory=list)


class Drawing:
    """Draws one circuit from a seed."""

    def __init__(self, seed):
        self.draw = np.random.default_rng(seed)
        self.components = {}
        self.counts = {"F": 0, "V": 0, "M": 0, "H": 0, "B": 0, "C": 0}

    def tag(self, letter):
        self.counts[letter] += 1
        return f"{letter}{self.counts[letter]}"

    def pipe(self, longest=12.0):
        tag = self.tag("H")
        bore = float(self.draw.choice([10, 12, 13, 16, 19, 22])) / 1000
        length, rough = float(self.draw.uniform(0.3, longest)), float(self.draw.uniform(0, 3e-5))
        loss = float(self.draw.uniform(0, 6))
        body = {
            "id": tag,
            "bore": f"{1000 * bore:.9g} mm",
            "roughness": f"{1000 * rough:.9g} mm",
            "length": f"{length:.9g} m",
            "k": f"{loss:.9g}",
        }
        return Part(tag, {"pipe": body}, bore, length, rough, loss)

    def valve(self, kind="balancing_valve"):
        tag = self.tag("C" if kind == "check_valve" else "V")
        kv = float(self.draw.uniform(0.4, 3.0))
        self.components[tag] = {"kind": kind, "kv": f"{kv:.9g} m3/h"}
        area = pi / 4 * WIDE**2
        loss = 2 * 1e5 * 3600**2 / 1000 * area**2 / kv**2
        return Part(tag, {"unit": tag}, WIDE, SHORT, 0.0, loss, one_way=kind == "check_valve")

    def unit(self):
        """A burner's drop, stated with hot water as its test liquid is: 998.2 kg/m³ at 20 °C counts."""
        tag = self.tag("F")
        flow, drop = float(self.draw.uniform(4, 20)) / 60000, float(self.draw.uniform(1e3, 1e4))
        self.components[tag] = {
            "kind": "tap_exchanger",
            "pressure_drop": f"{drop:.9g} Pa at {60000 * flow:.9g} l/min",
        }
        area = pi / 4 * WIDE**2
        loss = 2 * drop * area**2 / (998.2 * flow**2)
        return Part(tag, {"unit": tag}, WIDE, SHORT, 0.0, loss)

    def series(self, depth):
        """Parts of one branch, with a bundle among them where there is room for one."""
        parts = [self.pipe()]
        if self.draw.random() < 0.7:
            parts.append(self.valve())
        if self.draw.random() < 0.7:
            parts.append(self.unit())
        if self.draw.random() < 0.15:
            parts.append(self.valve("check_valve"))
        if depth and self.draw.random() < 0.45:
            parts.append(self.bundle(depth - 1))
        parts.append(self.pipe())
        return parts

    def bundle(self, depth):
        ends = (self.tag("M"), self.tag("M"))
        for end in ends:
            self.components[end] = {"kind": "manifold"}
        return Bundle(ends, {self.tag("B"): self.series(depth) for _ in range(int(self.draw.integers(2, 6)))})

    def circuit(self, *, links=True):
        """A ring: pump, pipes, a unit, one or two bundles; sometimes cross-connections between branches."""
        points = int(self.draw.integers(4, 8))
        last, top = float(self.draw.uniform(40, 120)), float(self.draw.uniform(3e4, 9e4))
        share = np.linspace(0, 1, points)
        curve = [(float(s) * last / 60000, top * (1 - float(s) ** 2)) for s in share]
        self.components["P1"] = {
            "kind": "pump",
            "curve": [[f"{60000 * q:.9g} l/min", f"{dp:.9g} Pa"] for q, dp in curve],
        }
        ring = [Part("P1", {"unit": "P1"}, curve=tuple(curve)), self.pipe(3), self.unit(), self.pipe(3)]
        for _ in range(int(self.draw.integers(1, 3))):
            ring += [self.bundle(2), self.pipe(3)]
        drawn = Drawn(self.components, ring)
        if links:
            self.add_links(drawn)
        return drawn

    def add_links(self, drawn):
        """Cross-connections from the outlet of a unit in one branch to the inlet of a unit in another."""
        spots = []
        for number, item in enumerate(drawn.ring):
            if isinstance(item, Bundle):
                for name, parts in item.branches.items():
                    spots += [(number, name, p.tag) for p in parts if isinstance(p, Part) and p.tag[0] == "F"]
        for _ in range(int(self.draw.integers(0, 3))):
            if len(spots) < 2:
                return
            one, other = self.draw.choice(len(spots), 2, replace=False)
            if spots[one][:2] != spots[other][:2]:
                drawn.links.append((spots[one][2], spots[other][2], self.pipe()))


def as_project(drawn):
    """The circuit as the mapping of a project file; water, no source of heat, joined before the pump."""

    def items(parts):
        return [part.item if isinstance(part, Part) else group(part) for part in parts]

    def group(bundle):
        return {
            "between": list(bundle.ends),
            "branches": {name: items(parts) for name, parts in bundle.branches.items()},
        }

    circuit = {
        "coolant": {"base": "water"},
        "system": "open",
        "ring": items(drawn.ring),
        "header": {"unit": "T1", "joins_before": "P1"},
    }
    if drawn.links:
        circuit["links"] = [
            {"from": start, "to": end, "pipe": pipe.item["pipe"]} for start, end, pipe in drawn.links
        ]
    components = {**drawn.components, "T1": {"kind": "header_tank", "volume": "8 l"}}
    document = {"number": "R-1", "revision": "A", "date": "2026-11-20"}
    return {"format": "1", "document": document, "components": components, "circuit": circuit}


class _Laid:
    """The tree laid out as links of EPANET: (tag, start, end, part)."""

    def __init__(self):
        self.nodes = 0
        self.laid = []
        self.ends = {}

    def node(self):
        self.nodes += 1
        return self.nodes - 1

    def series(self, parts, start, end):
        here = start
        for number, part in enumerate(parts):
            there = end if number == len(parts) - 1 else self.node()
            if isinstance(part, Bundle):
                for branch in part.branches.values():
                    self.series(branch, here, there)
            else:
                self.laid.append((part.tag, here, there, part))
                self.ends[part.tag] = (here, there)
            here = there


def as_epanet(drawn, density, viscosity):
    """Input file of EPANET for the circuit, and the tags of its links in order."""
    laid = _Laid()
    first = laid.node()
    laid.series(drawn.ring, first, first)
    for start, end, pipe in drawn.links:
        laid.laid.append((pipe.tag, laid.ends[start][1], laid.ends[end][0], pipe))
    pipes, pumps, curves = [], [], []
    for number, (_, start, end, part) in enumerate(laid.laid):
        ends = f"L{number} N{start} N{end}"
        if part.curve:
            pumps.append(f"{ends} HEAD C{number}")
            curves += [
                f"C{number} {1000 * flow:.12g} {rise / (998.2 * GRAVITY):.12g}" for flow, rise in part.curve
            ]
        else:
            state = "CV" if part.one_way else "OPEN"
            sizes = f"{part.length:.12g} {1000 * part.bore:.12g} {1000 * part.rough:.12g} {part.loss:.12g}"
            pipes.append(f"{ends} {sizes} {state}")
    sections = {
        "JUNCTIONS": [f"N{n} 0 0" for n in range(1, laid.nodes)],
        "RESERVOIRS": ["N0 10"],
        "PIPES": pipes,
        "PUMPS": pumps,
        "CURVES": curves,
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
    text = "".join(f"[{name}]\n" + "\n".join(lines) + "\n\n" for name, lines in sections.items())
    return f"{text}[END]\n", [tag for tag, *_ in laid.laid]
