"""What current do burner, pump and fans take on the simulated day?"""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from dossier.notation import Quantity, Real, q
from dossier.notation.records import dataclass
from dossier.sizing.battery import consumers
from dossier.sizing.day_boat import Boat

if TYPE_CHECKING:
    from dossier.project import Project


@dataclass(frozen=True)
class Currents:
    """Currents (A): burner starting and running, after-run as running; pumps together; fans by tag.

    ``needs`` names the keys of those that are not known, which count as none; ``stated`` holds the others.
    """

    start: float = 0.0
    run: float = 0.0
    pump: float = 0.0
    fans: Mapping[str, float] | None = None
    needs: tuple[str, ...] = ()
    stated: tuple[tuple[Quantity, Real], ...] = ()

    def of_fan(self, tag: str) -> float:
        """Current of a fan, none where it has none."""
        return (self.fans or {}).get(tag, 0.0)


def currents_of(project: "Project", burner: str, boat: Boat) -> Currents:
    """Currents of a burner, the pumps, and the fans of all emitters that run in the day."""
    emitting = {emission.tag for emission in boat.emissions}
    counted = {
        tag: each
        for tag, each in consumers(project).items()
        if tag == burner or each.kind == "pump" or tag in emitting
    }
    needs, stated = [], []
    for tag, each in counted.items():
        moments = {"run": each.run, "start": each.start} if each.kind == "burner" else {"power": each.run}
        for key, current in moments.items():
            if current is None:
                holder = "current." if each.kind == "burner" else ""
                needs.append(f"components.{tag}.{holder}{key}")
            else:
                stated.append((q("I", "A", f"current of {tag}"), current))
    runs = {tag: float(each.run or 0.0) for tag, each in counted.items()}
    return Currents(
        float(counted[burner].start or 0.0) if burner in counted else 0.0,
        runs.get(burner, 0.0),
        sum(runs[tag] for tag, each in counted.items() if each.kind == "pump"),
        {tag: run for tag, run in runs.items() if tag in emitting},
        tuple(needs),
        tuple(stated),
    )
