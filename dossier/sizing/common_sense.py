"""Do the totals of the file agree with common sense? A rough look for a slip of the pen, and no check."""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

from dossier.data.proof_totals import UsualTotal, usual_totals
from dossier.notation import NotAssessed
from dossier.notation.records import dataclass
from dossier.project.model.envelope import Beyond
from dossier.sizing.placement import compartments_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.envelope import Zone
    from dossier.sizing.study import Study

FREEBOARD, HEADROOM = 1.0, 2.0
"""Taken for the girth and for the volume of a hull (m)."""
EMITTERS = ("fan_coil", "radiator", "towel_rail")
OUTSIDE = ("air", "sea")
SLACK = 1e-9

Pair = tuple[float | None, float | None]


@dataclass(frozen=True)
class Total:
    """One total and what it is set against, both SI and None where they are not known."""

    row: UsualTotal
    amount: float | None
    against: float | None

    @property
    def ratio(self) -> float | None:
        """The total over what it is set against."""
        return None if self.amount is None or not self.against else self.amount / self.against

    @property
    def is_usual(self) -> bool | None:
        """Whether the ratio lies where such ratios usually lie."""
        if self.ratio is None:
            return None
        return self.row.low * (1 - SLACK) <= self.ratio <= self.row.high * (1 + SLACK)


@dataclass(frozen=True)
class RoomSize:
    """A room as the file has it: areas (m²) to outside and to its neighbours, corners of its compartment."""

    zone: "Zone"
    outside: float
    glazed: float
    neighbours: tuple[tuple[str, float], ...]
    box: tuple[tuple[float, float, float], tuple[float, float, float]] | None

    @property
    def box_volume(self) -> float | None:
        """Volume of its compartment; None where the layout has none."""
        if self.box is None:
            return None
        low, high = self.box
        return (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2])


def room_sizes(project: "Project") -> tuple[RoomSize, ...]:
    """All rooms in the order of the file."""
    boxes = compartments_of(project)
    return tuple(_room(zone, boxes.get(zone.id)) for zone in project.zones or ())


def _room(zone: "Zone", box: Any) -> RoomSize:
    outside = glazed = 0.0
    neighbours: dict[str, float] = {}
    for section in zone.sections or ():
        area = float(section.area or 0.0)
        if section.faces in OUTSIDE:
            outside += area
            glazed += area if section.glazing is not None else 0.0
        elif isinstance(section.faces, Beyond) and section.faces.zone:
            neighbours[section.faces.zone] = neighbours.get(section.faces.zone, 0.0) + area
    corners = None if box is None else (_corner(box.low), _corner(box.high))
    return RoomSize(zone, outside, glazed, tuple(neighbours.items()), corners)


def _corner(point: Any) -> tuple[float, float, float]:
    x, y, z = (float(each) for each in point)
    return x, y, z


def totals(study: "Study") -> tuple[Total, ...]:
    """All totals, known or not."""
    looked = _Look(study)
    return tuple(Total(row, *looked.pair(name)) for name, row in usual_totals().items())


class _Look:
    """The sums of one project."""

    def __init__(self, study: "Study") -> None:
        self.study, self.project = study, study.project
        self.rooms = room_sizes(study.project)
        vessel = study.project.vessel
        self.length = _plain(vessel.length if vessel else None)
        self.beam = _plain(vessel.beam if vessel else None)
        self.draught = _plain(vessel.draught if vessel else None)

    def pair(self, name: str) -> Pair:
        """A total, and what it is set against."""
        sums: dict[str, Callable[[], Pair]] = {
            "shell": lambda: (self._shell(), self._hull()),
            "rooms": lambda: (self._volume(heated=False), self._block()),
            "windows": lambda: (sum(room.glazed for room in self.rooms) or None, self._shell()),
            "load": lambda: (self._load(), self._volume(heated=True)),
            "burner": lambda: (self._burner(), self._load()),
            "emitters": lambda: (self._emitters(), self._load()),
            "coolant": lambda: (self._coolant(), self._burner()),
            "pipes": lambda: (self._pipes(), self.length),
            "exhaust": lambda: (self._exhaust(), self.beam),
            "cables": lambda: (max(self._cables(), default=None), self.length),
            "battery": self._battery,
            "fuel": self._fuel,
        }
        return sums[name]()

    def _shell(self) -> float | None:
        return sum(room.outside for room in self.rooms) or None

    def _hull(self) -> float | None:
        if self.length is None or self.beam is None or self.draught is None:
            return None
        return self.length * 2 * (self.beam + self.draught + FREEBOARD)

    def _block(self) -> float | None:
        return None if self.length is None or self.beam is None else self.length * self.beam * HEADROOM

    def _volume(self, *, heated: bool) -> float | None:
        zones = [room.zone for room in self.rooms if not heated or room.zone.target is not None]
        known = [float(zone.volume) for zone in zones if zone.volume is not None]
        return sum(known) or None

    def _load(self) -> float | None:
        found = self.study.heat_loss
        return None if isinstance(found, NotAssessed) else _plain(found.total)

    def _of_kind(self, *kinds: str) -> Iterator[Any]:
        return (part for part in (self.project.components or {}).values() if part.kind in kinds)

    def _burner(self) -> float | None:
        outputs = [float(b.output.max) for b in self._of_kind("burner") if b.output is not None]
        return sum(outputs) or None

    def _emitters(self) -> float | None:
        return sum(float(e.output) for e in self._of_kind(*EMITTERS) if e.output is not None) or None

    def _coolant(self) -> float | None:
        found = self.study.coolant
        return None if isinstance(found, NotAssessed) else _plain(found.volume)

    def _pipes(self) -> float | None:
        runs = self.study.parts.runs
        return None if runs is None else sum(float(run.length) for run in runs.runs.values()) or None

    def _exhaust(self) -> float | None:
        found = self.study.exhaust
        return None if isinstance(found, NotAssessed) else _plain(found.length)

    def _cables(self) -> Iterator[float]:
        written = self.project.electrics
        for circuit in (written.circuits if written else None) or ():
            if circuit.length is not None:
                yield float(circuit.length)

    def _battery(self) -> Pair:
        written, found = self.project.electrics, self.study.electrics
        day = None if isinstance(found, NotAssessed) else _plain(found.per_day)
        return _plain(written.battery if written else None), day

    def _fuel(self) -> Pair:
        found = self.study.fuel
        return (
            (None, None) if isinstance(found, NotAssessed) else (_plain(found.usable), _plain(found.per_day))
        )


def _plain(number: Any) -> float | None:
    return None if number is None else float(number)
