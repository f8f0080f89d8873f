# ruff: noqa: E501, T201 - printing is its work, and a line of the file stays one
"""How time grows with sections, rooms, branches and parts, with the exponent of each; and many projects in jobs.

    python tests/benchmarks/bench_growth.py [--projects 200]

Reading and calculating are told apart. An exponent of 1 is time in proportion to the number; it is that of the
last two sizes. Sections stand in a CSV table of so many rows.
"""

import argparse
import subprocess
import sys
from collections.abc import Callable, Iterator
from math import log
from os import environ
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

from dossier.project import load
from dossier.sizing.circuit import circuit
from dossier.sizing.coolant import coolant_study
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.ring import ring_study
from dossier.sizing.study import study

ROOT = Path(__file__).parents[2]
HEAD = "format: 1\nconditions: {outside_air: -10 degC, sea: 4 degC}\n"
SIZES = {
    "sections": (100, 1000, 10_000),
    "rooms": (10, 100, 1000),
    "branches": (4, 40, 200),
    "parts": (10, 100, 1000),
}


def sections(count: int, folder: Path) -> str:
    """One room with so many sections in a table."""
    rows = [f"S{n},{1 + n % 7 / 10} m2,{0.5 + n % 5 / 10} W/m2K,air" for n in range(count)]
    (folder / "sections.csv").write_text("name,area,u_value,faces\n" + "\n".join(rows), encoding="utf-8")
    return (
        f"{HEAD}zones:\n  - {{id: hold, target: 18 degC, volume: 40 m3, sections: {{from: sections.csv}}}}\n"
    )


def rooms(count: int, _folder: Path) -> str:
    """So many rooms in a row, every second one left to float, each with a bulkhead to the next."""
    lines = [f"{HEAD}zones:"]
    for n in range(count):
        held = "target: 18 degC" if n % 2 == 0 else "floats: true"
        wall = f", {{name: Aft, u_value: 0.8 W/m2K, area: 4 m2, faces: {{zone: r{n - 1}}}}}" if n else ""
        side = f"{{name: Side, u_value: 1.1 W/m2K, area: 6 m2, faces: air}}{wall}"
        lines.append(f"  - {{id: r{n}, {held}, volume: 12 m3, sections: [{side}]}}")
    return "\n".join(lines) + "\n"


def branches(count: int, _folder: Path) -> str:
    """So many cabins, each with its fan coil and valve, between two manifolds."""
    lines = [f"{HEAD}zones:"]
    for n in range(count):
        shell = "{name: Side, u_value: 1.1 W/m2K, area: 6 m2, faces: air}"
        lines.append(f"  - {{id: r{n}, target: 18 degC, volume: 12 m3, sections: [{shell}]}}")
    lines += [
        "components:",
        f"  B1: {{kind: burner, output: {{max: {max(count, 5)} kW, min: 2 kW}}, efficiency: 84 %, water_volume: 2 l, pressure_drop: 5 kPa at {4 * count} l/min}}",
    ]
    lines += [
        f"  P1: {{kind: pump, curve: [[0 l/min, 60 kPa], [{4 * count} l/min, 45 kPa], [{8 * count} l/min, 0 kPa]]}}"
    ]
    lines += [
        "  T1: {kind: header_tank, volume: 20 l, cold_level: 30 %}",
        "  M1: {kind: manifold}",
        "  M2: {kind: manifold}",
    ]
    ring = [
        "circuit:",
        "  coolant: {base: propylene glycol, share: 40 %}",
        "  system: open",
        "  design_drop: 10 K",
        "  ring:",
    ]
    ring += [
        "    - unit: P1",
        "    - unit: B1",
        "    - pipe: {bore: 200 mm, roughness: 0.05 mm, length: 2 m}",
        "    - between: [M1, M2]",
        "      branches:",
    ]
    for n in range(count):
        lines += [f"  V{n}: {{kind: balancing_valve, kv: 1.6 m3/h}}"]
        lines += [
            f"  F{n}: {{kind: fan_coil, zone: r{n}, output: 1 kW, at: {{water_in: 80 degC, air_in: 18 degC, flow: 4 l/min}}, air_flow: 90 m3/h, pressure_drop: 4 kPa at 4 l/min, water_volume: 0.4 l}}"
        ]
        ring += [
            f"        r{n}: [{{unit: V{n}}}, {{pipe: {{size: pex 16x2.0, length: {3 + n % 9} m, bends: 4}}}}, {{unit: F{n}}}, {{pipe: {{size: pex 16x2.0, length: {3 + n % 9} m}}}}]"
        ]
    ring += ["  header: {unit: T1, joins_before: P1}"]
    return "\n".join(lines + ring) + "\n"


def parts(count: int, _folder: Path) -> str:
    """So many parts with plates, none of them in a circuit."""
    lines = [f"{HEAD}components:"]
    lines += [f"  V{n}: {{kind: shut_valve, kv: 6 m3/h}}" for n in range(count)]
    return "\n".join(lines) + "\n"


def ring_alone(project):
    """Flow and heat of the ring, without all that follows."""
    loss, graph = heat_loss(project), circuit(project)
    return ring_study(project, graph, loss, coolant_study(project, graph))


KINDS: dict[str, tuple[Callable[[int, Path], str], Callable[..., object]]] = {
    "sections": (sections, heat_loss),
    "rooms": (rooms, heat_loss),
    "branches": (branches, ring_alone),
    "parts": (parts, study),
}


def spent(job: Callable[..., object], given: object) -> tuple[float, object]:
    """Processor seconds of a job, and what it gave."""
    begun = process_time()
    found = job(given)
    return process_time() - begun, found


def growth() -> Iterator[str]:
    """A line for each kind and size."""
    for kind, (text, calculated) in KINDS.items():
        before: tuple[int, float, float] | None = None
        for count in SIZES[kind]:
            with TemporaryDirectory() as folder:
                file = Path(folder) / "boat.yaml"
                file.write_text(text(count, Path(folder)), encoding="utf-8")
                read, project = spent(load, file)
                took, _ = spent(calculated, project)
            told = f"{kind:10}{count:7}{read * 1000:11.0f}{took * 1000:13.0f}"
            if before:
                ratio = log(count / before[0])
                told += f"{log(read / before[1]) / ratio:11.2f}{log(took / before[2]) / ratio:13.2f}"
            before = count, read, took
            yield told


def many(count: int) -> Iterator[str]:
    """So many projects built in one process and in two."""
    with TemporaryDirectory() as folder:
        files = []
        for n in range(count):
            file = Path(folder) / f"boat_{n}.yaml"
            file.write_text(
                f"{HEAD}document: {{number: B-{n}, revision: A, date: 2026-11-22}}\n", encoding="utf-8"
            )
            files.append(str(file))
        for jobs in (1, 2):
            command = [sys.executable, "-m", "dossier", "build", *files, "-o", f"{folder}/{jobs}"]
            begun = perf_counter()
            subprocess.run(
                [*command, "--edition", "proof", "--jobs", str(jobs)],
                check=True,
                stdout=subprocess.DEVNULL,
                env=environ | {"PYTHONPATH": str(ROOT)},
            )
            yield f"{count} proofs, {jobs} at a time: {perf_counter() - begun:.1f} s on the clock"


def main() -> None:
    """Print all."""
    asked = argparse.ArgumentParser(description="growth of time with size")
    asked.add_argument("--projects", type=int, default=200)
    print(f"{'':10}{'number':>7}{'read':>11}{'calculated':>13}{'exponent':>11}{'exponent':>13}   (ms)")
    for line in growth():
        print(line, flush=True)
    for line in many(asked.parse_args().projects):
        print(line, flush=True)


if __name__ == "__main__":
    main()
