"""The project's circuit as the schematic wants it: units and runs in flow order, every figure as a text."""

from collections.abc import Iterator, Sequence
from typing import Any

from dossier.notation import NotAssessed, Real
from dossier.project.model.circuit import Group, Pipe
from dossier.project.model.circuit import Unit as Placed
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.circuit import (
    Branch,
    Circuit,
    EngineSide,
    Exhaust,
    Fuel,
    Item,
    Join,
    Link,
    Parallel,
    Run,
    Side,
    SideCircuit,
    Tap,
    Unit,
)
from dossier.rendering.drawings.signs import SIGNS
from dossier.sizing.ring import Operation, RingStudy

EMITTERS = frozenset({"fan_coil", "radiator", "towel_rail", "floor_loop"})
PRESET = frozenset({"balancing_valve", "bypass_valve"})
VALVES = frozenset({"shut_valve", "motor_valve", "thermostatic_valve"})
HEATERS = frozenset({"tap_exchanger", "water_heater"})
TEES = {"strainer": "air_separator"}


def circuit_drawn(draft: Draft) -> Circuit | None:
    """The circuit in the design mode; None where no ring is written."""
    written = draft.project.circuit
    if written is None or not written.ring:
        return None
    return _Drawing(draft).circuit(written)


class _Drawing:
    """The steps, with what they share."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.words = draft, draft.words
        ring = draft.study.ring
        self.ring: RingStudy | None = None if isinstance(ring, NotAssessed) else ring
        self.design: Operation | None = self.ring.design if self.ring else None
        self.parts: dict[str, Any] = dict(draft.project.components or {})

    def circuit(self, written: Any) -> Circuit:
        """Everything the sheet shows."""
        ring = list(written.ring)
        first = next(
            (
                n
                for n, item in enumerate(ring)
                if isinstance(item, Placed) and self._kind(item.unit) == "burner"
            ),
            0,
        )
        items = self._items([*ring[first:], *ring[:first]], inside=False)
        tags = {item.unit for item in ring if isinstance(item, Placed)}
        return Circuit(
            items, tuple(self._sides(tags)), tuple(self._joins(written, tags)), tuple(self._links(written))
        )

    def _kind(self, tag: str) -> str:
        part = self.parts.get(tag)
        return "" if part is None else str(part.kind)

    def _items(self, written: Sequence[Any], *, inside: bool) -> tuple[Item, ...]:
        """Units in flow order with a run after each; pipes say nothing of their own."""
        found: list[Item] = []
        told = False
        for item in written:
            if isinstance(item, Pipe):
                continue
            if isinstance(item, Group):
                found.append(self._group(item))
                continue
            unit = self._unit(item.unit)
            found.append(unit)
            kind = self._kind(item.unit)
            if kind == "burner":
                found.append(Run(Side.SUPPLY, "", self._leaving(item.unit)))
            elif kind in EMITTERS:
                found.append(Run(Side.RETURN, "", self._leaving(item.unit)))
            elif inside and not told:
                found.append(Run(Side.SUPPLY, self._flow(item.unit), self._leaving(item.unit)))
                told = True
            else:
                found.append(Run())
        return tuple(found)

    def _group(self, group: Group) -> Parallel:
        branches = tuple(
            Branch(
                (Run(Side.SUPPLY), *self._items(items, inside=True)),
                "" if self._is_named(items) else self.draft.capital(name),
            )
            for name, items in group.branches.items()
        )
        start, end = (self._end(tag) for tag in group.between)
        return Parallel(branches, start, end)

    def _is_named(self, items: Sequence[Any]) -> bool:
        """Whether an emitter in the branch tells which room it serves."""
        return any(isinstance(item, Placed) and self._kind(item.unit) in EMITTERS for item in items)

    def _end(self, tag: str) -> Unit | None:
        return self._unit(tag) if self._kind(tag) in SIGNS else None

    def _unit(self, tag: str) -> Unit:
        kind = self._kind(tag)
        sign = kind if kind in SIGNS else TEES.get(kind, "manifold")
        part = self.parts.get(tag)
        if kind in EMITTERS:
            return Unit(tag, sign, name=self._served(tag, part), worst=self._is_worst(tag))
        if kind in PRESET:
            return Unit(tag, sign, state=self._preset(tag))
        if kind in VALVES:
            return Unit(tag, sign, state=self._position(tag))
        if kind == "pump":
            return Unit(tag, sign, flow=self._flow(tag), facts=self._rise(tag))
        return Unit(tag, sign, facts=tuple(self._facts(kind, part)))

    def _facts(self, kind: str, part: Any) -> Iterator[str]:
        """What stands under a unit: output of a burner, content of a store."""
        if kind == "burner" and part.output is not None:
            low, high = part.output.min, part.output.max
            said = self.draft.said(high, "power_large")
            if low is not None and float(low) < float(high):
                low_said = self.draft.cell(low, "power_large")
                said = str(self.words("drawings.from_to", low=low_said, high=said))
            yield said
        if kind in {"buffer", "water_heater"} and part.volume is not None:
            yield self.draft.said(part.volume, "volume_whole")

    def _served(self, tag: str, part: Any) -> str:
        """Room and output of an emitter: ``Saloon · 2.0 kW``."""
        zone = self.draft.capital(part.zone or "")
        heat = self.design.heat if self.design else None
        if heat is None or tag not in heat.emitters:
            return zone
        return f"{zone} · {self.draft.said(heat.emitters[tag].output, 'power_large')}"

    def _is_worst(self, tag: str) -> bool:
        if self.ring is None or not self.ring.index:
            return False
        place = self.ring.hydraulics.circuit.places.get(tag)
        return place is not None and place.branch == self.ring.index

    def _preset(self, tag: str) -> str:
        preset = self.ring.presets.get(tag) if self.ring else None
        if preset is None:
            return self._position(tag)
        if preset.is_open:
            return str(self.words("drawings.open"))
        return str(self.words("drawings.kv", kv=self.draft.cell(preset.kv, "flow_factor")))

    def _position(self, tag: str) -> str:
        """Where a valve stands in the design mode: open or shut; nothing where the mode is not known."""
        if self.design is None:
            return ""
        return str(self.words("drawings.shut" if tag in self.design.state.shut else "drawings.open"))

    def _flow(self, tag: str) -> str:
        edge = self.design.flows.edges.get(tag) if self.design else None
        return "" if edge is None else self.draft.said(edge.flow, "flow")

    def _rise(self, tag: str) -> tuple[str, ...]:
        pump = self.design.flows.pumps.get(tag) if self.design else None
        return () if pump is None else (self.draft.said(pump.pressure_rise, "pressure"),)

    def _leaving(self, tag: str) -> str:
        """Temperature of the water that leaves a unit."""
        heat = self.design.heat if self.design else None
        found: Real | None = heat.outlets.get(tag) if heat else None
        return "" if found is None else self.draft.said(found, "temperature")

    def _sides(self, tags: set[str]) -> Iterator[SideCircuit]:
        """Fuel, exhaust, tap and engine, each at the unit it belongs to."""
        for tag in self.parts:
            kind = self._kind(tag)
            if tag not in tags:
                continue
            if kind == "burner":
                yield from self._burner_sides(tag)
            elif kind in HEATERS:
                yield self._tap(tag)
            elif kind == "recovery_exchanger":
                yield from self._engine(tag)

    def _burner_sides(self, tag: str) -> Iterator[SideCircuit]:
        draft, project = self.draft, self.draft.project
        exhaust = draft.study.exhaust
        if project.exhaust is not None and not isinstance(exhaust, NotAssessed):
            said = [
                draft.said(number, kind)
                for number, kind in ((exhaust.bore, "length_check"), (exhaust.length, "length"))
                if number is not None
            ]
            yield Exhaust(
                tag,
                str(self.words("drawings.exhaust", measures=", ".join(said))),
                str(self.words("drawings.outside")),
            )
        fuel = project.fuel
        if fuel is None:
            return
        tank = (draft.said(fuel.tank, "volume_whole"),) if fuel.tank is not None else ()
        units = [Unit("", "fuel_tank", name=str(self.words("drawings.fuel_tank")), facts=tank)]
        if fuel.shut_off and self._kind(str(fuel.shut_off)) in SIGNS:
            units.insert(0, Unit(str(fuel.shut_off), self._kind(str(fuel.shut_off))))
        filters = [each for each in self.parts if self._kind(each) == "fuel_filter"]
        units[:0] = [Unit(each, "fuel_filter") for each in filters]
        yield Fuel(tag, tuple(units))

    def _tap(self, tag: str) -> Tap:
        written: Any = self.draft.project.tap_water or None
        mixed = getattr(written, "mixing_valve", None)
        valve = None
        if isinstance(mixed, float):
            valve = Unit("", "mixing_valve", facts=(self.draft.said(mixed, "temperature"),))
        return Tap(
            tag,
            valve,
            from_text=str(self.words("drawings.cold")),
            to_text=str(self.words("drawings.to_taps")),
        )

    def _engine(self, tag: str) -> Iterator[SideCircuit]:
        served = str(getattr(self.parts[tag], "serves", None) or "")
        kind = self._kind(served)
        if kind in {"engine", "generator"}:
            name = self.draft.capital(str(self.words(f"overview.kind_{kind}")))
            yield EngineSide(tag, Unit(served, kind, name=name))

    def _joins(self, written: Any, tags: set[str]) -> Iterator[Join]:
        """Header and vessel where they join, with what stands by their line."""
        for connection in (written.header, written.expansion):
            unit = getattr(connection, "unit", None)
            before = getattr(connection, "joins_before", None)
            part = self.parts.get(str(unit))
            if not connection or part is None or before not in tags or part.kind not in SIGNS:
                continue
            free = connection.valves_to_burner is not None and not connection.valves_to_burner
            volume = (self.draft.said(part.volume, "volume"),) if part.volume is not None else ()
            is_header = part.kind == "header_tank"
            yield Join(
                Unit(str(unit), part.kind, facts=volume),
                before=str(before),
                notes=(str(self.words("drawings.no_valve")),) if free else (),
                vent=str(self.words("drawings.open_vent")) if is_header and part.cap == "vented" else "",
                levels=self._levels() if is_header else (),
            )

    def _levels(self) -> tuple[str, ...]:
        return (str(self.words("drawings.level_hot")), str(self.words("drawings.level_cold")))

    def _links(self, written: Any) -> Iterator[Link]:
        for link in written.links or ():
            yield Link(link.from_, link.to, text=self.draft.named(link.pipe.id or ""))
