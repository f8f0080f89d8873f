# ruff: noqa: T201 - printing is its work
"""How long the ring of a boat takes, flow and temperature together, in one run on one machine.

    python tests/benchmarks/bench_ring.py

Shortest of many rounds, in milliseconds of processor time: on a machine that does other things as well the
time on the wall says little. A loop of plain Python stands beside it as a measure of the machine.
"""

from pathlib import Path
from time import process_time

from dossier.project import load
from dossier.sizing.circuit import circuit
from dossier.sizing.cold_start import cold_start
from dossier.sizing.coolant import coolant_study
from dossier.sizing.expansion import expansion
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.held import held_rooms
from dossier.sizing.interaction import interaction
from dossier.sizing.mix_curve import mix_curve
from dossier.sizing.mode_settings import ModeSettings
from dossier.sizing.modes import DESIGN, mode_states, valve_settings
from dossier.sizing.operation import operate
from dossier.sizing.pipe_choice import pipe_choices
from dossier.sizing.pressures import pressures
from dossier.sizing.ring import ring_study

PROJECTS = Path(__file__).parents[2] / "projects"
BOATS = ("lantern_auk/lantern_auk", "northern_quill/northern_quill", "barley_moth/barley_moth_b")
ROUNDS = 40


def shortest(job):
    """Shortest processor time of a job (ms)."""
    times = []
    for _ in range(ROUNDS):
        begun = process_time()
        job()
        times.append(1000 * (process_time() - begun))
    return min(times)


def plain_loop():
    """A measure of the machine: a hundred thousand multiplications and sums in plain Python."""
    total = 0
    for number in range(100000):
        total += number * number
    return total


def settings_of(project, ring, mix, loss):
    """The design mode as it is balanced, and with its presets set."""
    state = mode_states(project)[DESIGN]
    settings = ModeSettings(project, ring.hydraulics, ring.emitters, loss, mix)
    free = settings.throttled(state, settings.loads(state))
    presets = ring.design.outcome.balance.presets
    stated = valve_settings(ring.hydraulics.circuit, state, {})
    return (
        settings.setting(state, stated, free),
        settings.setting(state, valve_settings(ring.hydraulics.circuit, state, presets)),
    )


def measure(name):
    """Times of one boat."""
    project = load(PROJECTS / f"{name}.yaml")
    loss, graph = heat_loss(project), circuit(project)
    mix = coolant_study(project, graph)
    ring = ring_study(project, graph, loss, mix)
    balanced, preset = settings_of(project, ring, mix, loss)
    every = f"all {len(ring.operations)} modes with workings (ring_study)"
    jobs = {
        "design mode balanced, flow and temperature": lambda: operate(ring.hydraulics, balanced),
        "the same with its presets": lambda: operate(ring.hydraulics, preset),
        every: lambda: ring_study(project, graph, loss, mix),
        "cold start": lambda: cold_start(project, mix, ring),
        "pressures and expansion": lambda: expansion(project, ring, mix, pressures(project, ring, mix)),
        "rooms held": lambda: held_rooms(loss, ring),
        "interaction of emitters": lambda: interaction(ring),
        "sizes of all runs": lambda: pipe_choices(project, ring),
        "eight temperatures of the mix": lambda: mix_curve(project, mix, ring),
    }
    print(f"\n{name}: {len(ring.hydraulics.network.runs)} runs, {len(graph.places)} parts")
    for what, job in jobs.items():
        print(f"  {what:48s} {shortest(job):8.2f} ms")


if __name__ == "__main__":
    print(f"plain loop of the machine {shortest(plain_loop):.2f} ms")
    for boat in BOATS:
        measure(boat)
