# ruff: noqa: T201 - printing is its work
"""How long a layout of hundreds of parts takes, beside asking every pair of them in turn, in one run.

    python tests/benchmarks/bench_geometry.py [PARTS]

Best of several rounds. Placed: free space before all six sides, fit in the compartment, clashes, heights,
distances of hot parts to fuel and batteries, with the working of every figure that is a result. Checked: the
checks of room and fit on what is placed. In pairs: the free space alone, each part against every other in
turn, as plain numbers.
"""

import random
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from dossier.checking import clearance
from dossier.checking.run import limit_of
from dossier.physics.boxes import Box, Side, free_space
from dossier.project import load
from dossier.sizing.placement import boxes_of, placement
from dossier.sizing.study import study

PARTS, ROUNDS, WANTED = 500, 7, 0.1
"""Parts, rounds, and the time (s) that the layout of so many may take."""
KINDS = ("burner", "fuel_tank", "fuel_filter", "pump", "battery", "battery")


def layout(count):
    """A project of so many parts in two compartments; one in five names a side to keep free."""
    chance = random.Random(7)  # noqa: S311 - parts to place, no secret
    tags = [f"B{n}" if n < len(KINDS) else f"V{n}" for n in range(count)]
    kinds = [KINDS[n] if n < len(KINDS) else "shut_valve" for n in range(count)]
    lines = ["format: 1", "vessel: {heel_angles: [10 deg, 20 deg]}", "components:"]
    lines += [f"  {tag}: {{kind: {kind}}}" for tag, kind in zip(tags, kinds, strict=True)]
    lines += ["exhaust: {bore: 30 mm, route: [[1 m, 0 m, 0.2 m], [1 m, -1 m, 0.9 m], [1 m, -2 m, 1 m]]}"]
    lines += ["layout:", "  flooding_level: -0.4 m", "  compartments:"]
    lines += ["    engine_room: {from: [0 m, -2 m, -1 m], to: [6 m, 2 m, 1 m]}"]
    lines += ["    hold: {from: [6 m, -2 m, -1 m], to: [14 m, 2 m, 1 m]}", "  places:"]
    for n, tag in enumerate(tags):
        at = ", ".join(
            f"{chance.uniform(low, high):.3f} m" for low, high in ((0, 13.8), (-2, 1.8), (-1, 0.8))
        )
        room = ", keep_free: {port: 100 mm}" if n % 5 == 0 else ""
        lines.append(f"    {tag}: {{at: [{at}], size: [0.15 m, 0.12 m, 0.1 m]{room}}}")
    return "\n".join(lines) + "\n"


def best(job):
    """Shortest time of a job (s) on this processor, others that run beside it left out."""
    times = []
    for _ in range(ROUNDS):
        begun = process_time()
        job()
        times.append(process_time() - begun)
    return min(times)


def in_pairs(boxes):
    """Free space before every side, every part asked about every other in turn."""
    for box in boxes:
        others = [other for other in boxes if other is not box]
        for side in Side:
            free_space(box, side, others)


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else PARTS
    with TemporaryDirectory() as folder:
        file = Path(folder) / "boat.yaml"
        file.write_text(layout(count), encoding="utf-8")
        project = load(file)
    route = project.exhaust.route

    def placed():
        return placement(project, route)

    asked = study(project)
    limits = [(name, limit_of(asked, f"clearance.{name}")) for name in ("service", "inside", "flooding")]

    def checked():
        return [getattr(clearance, name)(asked, limit) for name, limit in limits]

    plain = [
        Box(tuple(map(float, box.low)), tuple(map(float, box.high))) for box in boxes_of(project).values()
    ]
    whole, checks = best(placed), best(checked)
    begun = process_time()
    in_pairs(plain)
    slow = process_time() - begun
    print(f"{count} parts, {len(placed().clashes)} pairs that clash; milliseconds of one processor")
    verdict = "within" if whole + checks <= WANTED else "OVER"
    print(f"placed   {1000 * whole:8.1f}")
    print(f"checked  {1000 * checks:8.1f}   together {verdict} the {1000 * WANTED:.0f} wanted")
    print(f"in pairs {1000 * slow:8.1f}   {slow / whole:.0f} times as long as placed")


if __name__ == "__main__":
    main()
