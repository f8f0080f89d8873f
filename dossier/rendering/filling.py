"""What stands for the names in braces within the words for crew and yard: figures of this boat, or nothing.

``worded(text, Filling(draft))`` prints a text with a box to write in for what is not known; ``filled`` gives
it as plain text, with a line to write on. ``Filling(draft).number(name)`` is the figure behind a name, in SI.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from math import pi
from typing import Any

from dossier.checking.coolant import ALUMINIUM, wetted_metals
from dossier.checking.run import limit_of
from dossier.data.catalogue import further_limit
from dossier.data.wording import Placeholder, pieces, placeholders
from dossier.notation import NotAssessed, Real, slug
from dossier.project.model import Point
from dossier.project.model.entry import Answer
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import Limits
from dossier.rendering.text import Markup, Text, blank, own, text
from dossier.sizing.electrics import CircuitStudy
from dossier.sizing.needs_aboard import answers_at
from dossier.sizing.part_rows import written
from dossier.sizing.readings_aboard import Wandering, air_of_coils, wandering
from dossier.sizing.spaces import burner_of, space_of
from dossier.sizing.tightness import tightness_test

DESIGN = "heating"
POINTS = "points"
OUTLET_NEVER_MET = pi / 2
SIDES = ("either", "port", "starboard")
METER = 0.3
"""How far a voltmeter's reading may lie below the calculated voltage (V)."""
WANDERING = {
    "supply_low": ("supply", 0), "supply_high": ("supply", 1),
    "return_low": ("back", 0), "return_high": ("back", 1),
}  # fmt: skip
"""Ends between which temperatures wander as the burner starts and stops."""
AS_WRITTEN = ("burner_fuse",)
"""Figures that are ratings, printed as the file has them."""
ROUNDED_DOWN = ("stop_angle",)
"""Figures of which less is on the safe side."""


def worded(sentence: str, filling: "Filling", references: Mapping[str, Text] | None = None) -> Markup:
    """A sentence of the tables in the language of the pages, filled; what is not known is a box to write in.

    ``references`` fills places whose text only the pages know, such as the number of a page.
    """
    parts: list[Text] = []
    for words, name in pieces(filling.draft.words.told(sentence)):
        if words:
            parts.append(own(words))
        if name:
            parts.append((references or {}).get(name) or filling[name] or blank())
    return text(*parts)


class Filling(Mapping[str, str]):
    """Texts by the names of the placeholders; the text of a name of which nothing is known is empty."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.project = draft, draft.project

    def __getitem__(self, name: str) -> str:
        place = placeholders()[name]
        if place.unit:
            return self._figures(place)
        special = getattr(self, f"_{name}", None)
        return str(special()) if special is not None else self._words(place)

    def __iter__(self) -> Iterator[str]:
        return iter(placeholders())

    def __len__(self) -> int:
        return len(placeholders())

    def number(self, name: str) -> Real | None:
        """The figure behind a name, of several the first; None where nothing is known."""
        return next(iter(self._numbers(placeholders()[name])), None)

    def said(self, number: Real, shown: str) -> str:
        """A figure as its placeholder prints it, the other system of units in brackets."""
        if shown == POINTS:
            points = self.draft.numbers.text(float(number), "share")
            return str(self.draft.words("filling.points", points=points))
        return self.draft.numbers.both(float(number), shown)

    def _figures(self, place: Placeholder) -> str:
        if place.name in AS_WRITTEN:
            style = self.draft.words.style
            return ", ".join(style.figure(written(number)) for number in self._numbers(place))
        if place.name in ROUNDED_DOWN:
            numbers = (float(number) for number in self._numbers(place))
            return ", ".join(self._rounded_down(number, place.shown) for number in numbers)
        return ", ".join(dict.fromkeys(self.said(number, place.shown) for number in self._numbers(place)))

    def _rounded_down(self, number: float, shown: str) -> str:
        return self.draft.numbers.judged(number, number - 1.0, shown, Limits.MINIMUM).found

    def _numbers(self, place: Placeholder) -> tuple[Real, ...]:
        special: Callable[[], Real | None] | None = getattr(self, f"_{place.name}_number", None)
        if special is not None:
            found = special()
            return () if found is None else (found,)
        if place.name in WANDERING:
            course, end = WANDERING[place.name]
            return (getattr(self._wanders, course)[end],) if self._wanders else ()
        if place.kind == "limit":
            limit = self._limit(place.filled_from)
            return () if limit is None else (limit,)
        if place.kind == "result":
            result = self.draft.assessment.results.get(self._result_name(place.filled_from))
            return () if result is None else (result.value,)
        if place.kind == "key":
            answers = answers_at(self.project, place.filled_from.split("."))
            return tuple(answer for answer in answers if isinstance(answer, float))
        return ()

    def _limit(self, named: str) -> float | None:
        check, _, case = named.partition("/")
        if case not in {"limit", "upper_limit"}:
            return further_limit(check, case).limit
        limit = limit_of(self.draft.study, check)
        found = limit.value if case == "limit" else limit.upper
        return None if found is None else abs(found)

    def _result_name(self, pattern: str) -> str:
        burner = burner_of(self.project)
        circuit = self._burner_circuit
        parts = {
            "ID": burner.tag if burner else "",
            "NAME": slug(circuit.name) if circuit else "",
            "MODE": DESIGN,
        }
        if pattern.startswith("pump."):
            parts["ID"] = next(iter(self._tags("pump")), "")
        return ".".join(parts.get(part, part) for part in pattern.split("."))

    @cached_property
    def _burner_circuit(self) -> CircuitStudy | None:
        """The circuit that feeds the burner."""
        study = self.draft.study.electrics
        circuits = () if isinstance(study, NotAssessed) else study.circuits
        return next((circuit for circuit in circuits if circuit.feeds_burner), None)

    def _stated_circuit(self) -> Any:
        name = self._burner_circuit.name if self._burner_circuit else None
        circuits = (self.project.electrics.circuits if self.project.electrics else None) or ()
        return next((circuit for circuit in circuits if circuit.name == name), None)

    def _words(self, place: Placeholder) -> str:
        found = []
        for answer in answers_at(self.project, place.filled_from.split(".")):
            if isinstance(answer, Answer) or not answer:
                continue
            if isinstance(answer, Point):
                found.append(self._point(answer))
            elif isinstance(answer, str):
                found.append(self.named(answer))
            elif getattr(answer, "tag", ""):
                found.append(self.named(answer.tag))
        return ", ".join(dict.fromkeys(found))

    def named(self, said: str) -> str:
        """A tag with its place, as far as the file tells; any other word as people read it."""
        part = (self.project.components or {}).get(said)
        if part is None:
            return self.draft.named(said)
        place = part.where or getattr(part, "zone", None) or space_of(self.project, said)
        if not place:
            return said
        return str(self.draft.words("filling.tag_and_place", tag=said, place=self.draft.named(place)))

    def _point(self, point: Point) -> str:
        cells = [self.draft.said(c, "length") for c in point]
        return str(self.draft.words("filling.point", x=cells[0], y=cells[1], z=cells[2]))

    def _tags(self, *kinds: str) -> tuple[str, ...]:
        return tuple(tag for tag, part in (self.project.components or {}).items() if part.kind in kinds)

    def _tagged(self, *kinds: str) -> str:
        return ", ".join(self.named(tag) for tag in self._tags(*kinds))

    def _pump(self) -> str:
        return self._tagged("pump")

    def _bypass(self) -> str:
        return ", ".join(self._tags("bypass_valve"))

    def _recovery_exchanger(self) -> str:
        return self._tagged("recovery_exchanger")

    def _tap_exchanger(self) -> str:
        return self._tagged("tap_exchanger", "water_heater")

    def _fuel_shut_off(self) -> str:
        """Each tag with the place it is worked from, which need not be where it stands."""
        fuel, components = self.project.fuel, self.project.components or {}
        tag = fuel.shut_off if fuel else None
        if not tag:
            return ""
        place = getattr(components.get(str(tag)), "operated_from", None)
        if not place:
            return self.named(str(tag))
        return str(self.draft.words("filling.tag_and_place", tag=tag, place=self.draft.named(place)))

    def _alarm_places(self) -> str:
        safety = self.project.safety
        if safety is not None and safety.co_alarms == ():
            return str(self.draft.words("filling.no_alarm"))
        return self._words(placeholders()["alarm_places"])

    def _extinguisher_place(self) -> str:
        found = answers_at(self.project, ["safety", "extinguishers", "at"])
        places = dict.fromkeys(self.named(str(place)) for place in found if place)
        return str(self.draft.words("filling.one_of", places=list(places)))

    def _outlet_side(self) -> str:
        """The side of the hull the exhaust leaves by: heeled to it, the outlet comes down to the water."""
        if self.project.exhaust is None or not self.project.exhaust.route:
            return ""
        across = float(self.project.exhaust.route[-1].y)
        return str(self.draft.words(f"filling.side_{SIDES[(across > 0) - (across < 0)]}"))

    def _safety_valve(self) -> str:
        return self._tagged("safety_valve")

    def _isolator(self) -> str:
        circuit = self._stated_circuit()
        return self.named(circuit.isolator) if circuit is not None and circuit.isolator else ""

    def _tags_count(self) -> str:
        return str(len(self.project.components or {}) or "")

    def _high_points(self) -> str:
        return ", ".join(self.draft.named(pipe.id) for pipe in self.project.pipes() if pipe.vents)

    def _low_points(self) -> str:
        return ", ".join(self.draft.named(pipe.id) for pipe in self.project.pipes() if pipe.drains)

    def _page_of_restart(self) -> str:
        return ""

    def _to_start(self) -> str:
        return self._steps("to_start")

    def _to_stop(self) -> str:
        return self._steps("to_stop")

    def _steps(self, name: str) -> str:
        controls = self.project.controls
        return "; ".join((getattr(controls, name) if controls else None) or ())

    def _burner_fuse_number(self) -> Real | None:
        circuit = self._stated_circuit()
        fuse = circuit.fuse if circuit is not None else None
        return fuse if isinstance(fuse, float) else None

    def _lowest_voltage_number(self) -> Real | None:
        burner = burner_of(self.project)
        if burner is None or burner.voltage_min is not None:
            return burner.voltage_min if burner else None
        system = self.project.electrics.system if self.project.electrics else None
        case = {12: "12 V system", 24: "24 V system"}.get(round(system or 0.0))
        return further_limit("electrics.drop_start", case).limit if case else None

    def _burner_space_limit_number(self) -> Real | None:
        burner = burner_of(self.project)
        stated = burner.space_max if burner else None
        return stated if stated is not None else self._limit("air.compartment_temperature/limit")

    def _stop_angle_number(self) -> Real | None:
        found = self.draft.assessment.results.get("exhaust.angle_under_water")
        return None if found is None or float(found.value) >= OUTLET_NEVER_MET else found.value

    def _test_pressure_number(self) -> Real | None:
        test = tightness_test(self.draft.study)
        return None if isinstance(test, NotAssessed) else test.pressure

    def _ph_most_number(self) -> Real | None:
        """The narrower one where aluminium is wetted."""
        wide = self._limit("coolant.condition/upper_limit")
        if limit_of(self.draft.study, "coolant.condition").overridden:
            return wide
        metals, _ = wetted_metals(self.project)
        return self._limit("coolant.condition/with aluminium") if metals & ALUMINIUM else wide

    def _start_voltage_least_number(self) -> Real | None:
        calculated, lowest = self.number("start_voltage"), self.number("lowest_voltage")
        known = [] if calculated is None else [float(calculated) - METER]
        return max([*known, *([] if lowest is None else [float(lowest)])], default=None)

    def _coil_air_temperature_number(self) -> Real | None:
        return min(air_of_coils(self.draft.study.ring).values(), key=float, default=None)

    @cached_property
    def _wanders(self) -> Wandering | None:
        return wandering(self.project, self.draft.study.ring)
