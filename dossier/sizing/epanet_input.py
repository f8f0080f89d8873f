"""The circuit of one mode as an input file of EPANET 2.2, for a second opinion on its flows.

The format is open and documented in the EPANET 2.2 user manual (Rossman and others, 2020). Every part of the
circuit is a link of its own that bears its tag, in metres, millimetres and litres a second. EPANET knows one
liquid at one temperature: the density and viscosity are the means of the mode, and what hot and cold columns
lift by themselves is not in it.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from math import cos, pi, sin
from typing import TYPE_CHECKING

import numpy as np

from dossier.notation import DossierError, NotAssessed, slug
from dossier.physics.network_elements import CheckValve, Element, Pipe, Pump, Run, Unit, Valve
from dossier.physics.valves import SQUARE
from dossier.project.nearest import nearest
from dossier.sizing.ring import Operation, RingStudy

if TYPE_CHECKING:
    from dossier.sizing.study import Study

GRAVITY = 32.2 * 0.3048
"""Acceleration of free fall as EPANET has it (m/s²)."""
VISCOSITY = 1.1e-5 * 0.3048**2
"""Kinematic viscosity of EPANET's water (m²/s), which its multiplier refers to."""
WATER = 1000.0
LITRES, MILLIMETRES = 1000.0, 1000.0
BORE = 0.02
"""Bore on which a valve's loss is reckoned where its run has no pipe; the drop is the same on any."""
SHORT = 0.001
"""Length of what has no length (m): its friction is none to speak of."""
LONGEST_NAME = 31
FITTED = 3
"""Points of a pump curve through which EPANET would lay a power law instead of straight lines."""
SECTIONS = (
    "TITLE", "JUNCTIONS", "RESERVOIRS", "PIPES", "PUMPS", "VALVES", "STATUS", "CURVES", "OPTIONS", "TIMES",
    "REPORT", "COORDINATES",
)  # fmt: skip


@dataclass
class _Lines:
    """Lines of the file by section, and the names given in it."""

    sections: dict[str, list[str]] = field(default_factory=lambda: {name: [] for name in SECTIONS})
    names: dict[str, str] = field(default_factory=dict)

    def add(self, section: str, *entries: object, note: str = "") -> None:
        words = [f"{entry:.10g}" if isinstance(entry, float) else str(entry) for entry in entries]
        line = " ".join(words)
        self.sections[section].append(f"{line}  ; {_plain(note)}" if note else line)

    def name(self, tag: str) -> str:
        """Name of a link: its tag, as far as the format takes it, unlike all others."""
        base = re.sub(r"[^A-Za-z0-9_.-]", "_", tag)[:LONGEST_NAME] or "link"
        name, number = base, 2
        while name.casefold() in self.names:
            name = f"{base[: LONGEST_NAME - 4]}_{number}"
            number += 1
        self.names[name.casefold()] = tag
        return name


def epanet_input(study: "Study", mode: str = "heating", *, title: str = "") -> str:
    """The input file of one mode, in ASCII. Raises DossierError where the mode has no answer of its own."""
    operation = _operation(study.ring, mode)
    if isinstance(study.ring, NotAssessed):
        raise DossierError(study.ring.why or "the circuit could not be calculated")
    return _Network(study.ring, operation).written(title)


def _operation(ring: RingStudy | NotAssessed, mode: str) -> Operation:
    if isinstance(ring, NotAssessed):
        raise DossierError(f"there is no circuit to write: it waits for {', '.join(ring.needs)}")
    for name, operation in ring.operations.items():
        if mode in {name, slug(name)}:
            return operation
    for name, why in ring.not_solved.items():
        if mode in {name, slug(name)}:
            raise DossierError(f"mode {name} has no answer: {why}")
    near = nearest(mode, ring.operations)
    known = ", ".join(ring.operations)
    raise DossierError(
        f"no mode is called {mode!r}; " + (f"did you mean {near!r}?" if near else f"known: {known}")
    )


class _Network:
    """The network of one mode on its way into the file."""

    def __init__(self, ring: RingStudy, operation: Operation) -> None:
        self.operation, self.network = operation, ring.hydraulics.network
        outcome = operation.outcome
        self.density, self.viscosity = float(np.mean(outcome.density)), float(np.mean(outcome.viscosity))
        self.kv: Mapping[str, float] = outcome.kv
        self.speed: Mapping[str, float] = operation.setting.speed
        self.open = self.network.open_runs(operation.setting.shut, outcome.kv)
        join = next((n for n, node in enumerate(self.network.nodes) if node.pressure is not None), 0)
        self.join, self.height = join, self.network.height - self.network.height[join]
        self.lines = _Lines()

    def written(self, title: str) -> str:
        """The file."""
        lines = self.lines
        for text in self._title(title):
            lines.add("TITLE", _plain(text))
        for number in range(len(self.network.nodes)):
            self._node(f"N{number + 1}", float(self.height[number]), self._place(number), number == self.join)
        for number, run in enumerate(self.network.runs):
            self._run(run, is_open=bool(self.open[number]))
        lines.add("OPTIONS", "UNITS LPS")
        lines.add("OPTIONS", "HEADLOSS D-W")
        lines.add("OPTIONS", "VISCOSITY", self.viscosity / self.density / VISCOSITY)
        lines.add("OPTIONS", "SPECIFIC GRAVITY", self.density / WATER)
        for option in ("ACCURACY 1e-6", "TRIALS 500", "UNBALANCED CONTINUE 100", "QUALITY NONE"):
            lines.add("OPTIONS", option)
        lines.add("TIMES", "DURATION 0")
        lines.add("REPORT", "STATUS NO")
        lines.add("REPORT", "NODES ALL")
        lines.add("REPORT", "LINKS ALL")
        parts = (
            f"[{name}]\n" + "".join(f"{line}\n" for line in found) for name, found in lines.sections.items()
        )
        return "\n".join(parts) + "\n[END]\n"

    def _title(self, title: str) -> Iterator[str]:
        yield title or "Heating circuit"
        liquid = f"{self.density:.1f} kg/m3, {self.viscosity * 1e3:.3f} mPa s"
        yield f"Mode {self.operation.mode}, one liquid of {liquid}"
        yield f"Heads and pressures from those of node N{self.join + 1}, where the header joins"

    def _place(self, number: int) -> tuple[float, float]:
        """Where a node stands on the map: on a circle, in the order of the circuit."""
        angle = 2 * pi * number / len(self.network.nodes)
        return 100 * cos(angle), 100 * sin(angle)

    def _node(self, name: str, height: float, place: tuple[float, float], is_join: bool = False) -> None:  # noqa: FBT001, FBT002 - one call each
        if is_join:
            self.lines.add("RESERVOIRS", name, height)
        else:
            self.lines.add("JUNCTIONS", name, height, 0)
        self.lines.add("COORDINATES", name, *place)

    def _run(self, run: Run, *, is_open: bool) -> None:
        """The elements of a run as links in series, shut where the run is."""
        elements = run.elements or (Pipe(run.name, BORE, 0.0),)
        start, height = f"N{run.start + 1}", float(self.height[run.start])
        (x0, y0), (x1, y1) = self._place(run.start), self._place(run.end)
        bore = next((element.bore for element in elements if isinstance(element, Pipe)), BORE)
        for place, element in enumerate(elements, 1):
            last = place == len(elements)
            height += element.rise
            share = place / len(elements)
            end = f"N{run.end + 1}" if last else f"N{self._count()}"
            if not last:
                self._node(end, height, (x0 + share * (x1 - x0), y0 + share * (y1 - y0)))
            shut = not is_open and not isinstance(element, CheckValve) and place == self._lock(elements)
            self._link(element, (start, end), bore, shut=shut)
            start = end

    def _count(self) -> int:
        return len(self.lines.sections["COORDINATES"]) + 1

    def _lock(self, elements: tuple[Element, ...]) -> int:
        """Place of the element that is written as closed where its run is: one that may bear it."""
        return next((n for n, e in enumerate(elements, 1) if not isinstance(e, CheckValve)), 1)

    def _link(self, element: Element, ends: tuple[str, str], bore: float, *, shut: bool) -> None:
        lines, name = self.lines, self.lines.name(element.name)
        note = element.name if name != element.name else ""
        if isinstance(element, Pump):
            curve = f"C_{name}"[:LONGEST_NAME]
            lines.add(
                "PUMPS",
                name,
                *ends,
                "HEAD",
                curve,
                "SPEED",
                self.speed.get(element.name, element.speed),
                note=note,
            )
            for flow, rise in _points(element):
                lines.add("CURVES", curve, LITRES * flow, rise / (element.curve.density * GRAVITY))
        elif isinstance(element, Pipe | CheckValve):
            own, length, roughness, loss = self._pipe(element, bore)
            state = "CV" if isinstance(element, CheckValve) else "OPEN"
            lines.add(
                "PIPES",
                name,
                *ends,
                length,
                MILLIMETRES * own,
                MILLIMETRES * roughness,
                loss,
                state,
                note=note,
            )
        else:
            lines.add(
                "VALVES", name, *ends, MILLIMETRES * bore, "TCV", self._loss(element, bore), 0, note=note
            )
        if shut:
            lines.add("STATUS", name, "CLOSED")

    def _pipe(self, element: Pipe | CheckValve, bore: float) -> tuple[float, float, float, float]:
        if isinstance(element, Pipe):
            return element.bore, max(element.length, SHORT), element.roughness, element.loss
        return bore, SHORT, 0.0, _of_kv(element.kv, bore)

    def _loss(self, element: Element, bore: float) -> float:
        """Loss factor of a valve or unit on a bore."""
        if isinstance(element, Valve):
            kv = float(self.kv.get(element.name, element.kv))
            return _of_kv(kv, bore) if kv > 0 else 0.0
        if isinstance(element, Unit) and element.exponent == 0:
            area = pi / 4 * bore**2
            return 2 * element.drop * area**2 / (element.density * element.flow**2)
        raise DossierError(
            f"{element.name} follows no square law in mode {self.operation.mode}: EPANET has no link for it"
        )


def _of_kv(kv: float, bore: float) -> float:
    """Loss factor on a bore of a flow factor."""
    area = pi / 4 * bore**2
    return float(2 * SQUARE * area**2 / kv**2)


def _points(pump: Pump) -> Iterable[tuple[float, float]]:
    """Points of a pump curve, one more where EPANET would fit a law through them."""
    points = list(zip(pump.curve.flows, pump.curve.rises, strict=True))
    if len(points) == FITTED:
        (q0, p0), (q1, p1) = points[:2]
        points.insert(1, ((q0 + q1) / 2, (p0 + p1) / 2))
    return points


def _plain(text: str) -> str:
    """A text in ASCII on one line, with nothing in it that the format reads as its own."""
    return re.sub(r"[^ -~]|[;\[\]\"]", "_", " ".join(text.split()))
