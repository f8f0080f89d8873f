"""What is wrong with a circuit before anything is calculated? Every reason, with its line."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from dossier.notation import Fault, ProjectFaults
from dossier.physics.network_elements import CircuitFault
from dossier.sizing.circuit import Circuit, fault_at
from dossier.sizing.emitters import EMITTERS

if TYPE_CHECKING:
    from dossier.project import Project


RESISTANCE = "give one of the parts named its pressure drop, or the pipe that leads to it"


def refuse(project: "Project", circuit: Circuit) -> None:
    """Raise ``ProjectFaults`` for a circuit that cannot work at all."""
    faults = [*_of_ring(project, circuit), *_of_emitters(project, circuit), *_of_modes(project, circuit)]
    if faults:
        raise ProjectFaults(faults)


def _of_ring(project: "Project", circuit: Circuit) -> Iterator[Fault]:
    if not circuit.of_kind("pump"):
        yield fault_at(
            project,
            "circuit.ring",
            "the circuit has no pump",
            "list the pump among the units of the ring",
        )


def _of_emitters(project: "Project", circuit: Circuit) -> Iterator[Fault]:
    for tag, part in (project.components or {}).items():
        if part.kind in EMITTERS and tag not in circuit.places:
            yield fault_at(
                project,
                f"components.{tag}",
                f"no coolant reaches {tag}: it stands nowhere in the circuit",
                "list it in a branch, or leave it out",
            )


def _of_modes(project: "Project", circuit: Circuit) -> Iterator[Fault]:
    for name, written in (project.modes or {}).items():
        mode: Any = written
        for word, valves in (("set", mode.set), ("open", mode.open), ("shut", mode.shut)):
            for tag in valves or ():
                if tag not in circuit.places:
                    yield fault_at(
                        project,
                        f"modes.{name}.{word}",
                        f"mode {name} names {tag}, which stands nowhere in the circuit",
                        "list it where the coolant passes it, or leave it out of the mode",
                    )
        for tag, kv in (mode.set or {}).items():
            unit: Any = circuit.places[tag].unit if tag in circuit.places else None
            if unit is None:
                continue
            if unit.kind == "check_valve":
                yield fault_at(
                    project,
                    f"modes.{name}.set",
                    f"{tag} is a check valve and cannot be set",
                    "shut it, or leave it out",
                )
            elif unit.kv is not None and float(kv) > float(unit.kv):
                yield fault_at(
                    project,
                    f"modes.{name}.set",
                    f"mode {name} sets {tag} to {float(kv):g} m3/h, and it has {float(unit.kv):g} m3/h "
                    "fully open",
                    "set it to no more than it has",
                )


def of_network(project: "Project", circuit: Circuit, fault: CircuitFault, mode_key: str) -> ProjectFaults:
    """The fault of a network at the line of the part it names, else of the mode."""
    known = [circuit.places[edge].key for edge in fault.edges if edge in circuit.places]
    key = known[0] if known else mode_key
    instead = RESISTANCE if "no resistance" in str(fault) else "look at the units and pipes named"
    return ProjectFaults([fault_at(project, key, str(fault), instead)])
