"""Builds the boat of the simulated day from what was found of it: its zones, its ring, what hangs on them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.physics.envelope import section_conductance
from dossier.physics.exchanger import Arrangement, exchanger_heat
from dossier.physics.tap_water import tap_heat
from dossier.physics.ventilation import ventilation_conductance
from dossier.physics.warm_up import zone_capacity
from dossier.sizing.coolant import Coolant
from dossier.sizing.day_boat import (
    OUTSIDE,
    Assembly,
    Boat,
    Emission,
    Recovery,
    Tap,
    Vector,
    emission_term,
    unit_row,
)
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.operation import ways_of
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.sources_of_heat import RecoveryModel, recovery_model
from dossier.sizing.store_modes import OUTLET, STORE, Control
from dossier.sizing.store_parts import metal_of, mixing_share, store_conductance_of

if TYPE_CHECKING:
    from dossier.project import Project

WHOLE = ("burner", "buffer")
"""Kinds that are one mixed cell however fine the ring is cut."""
WATER = 4.18e6
"""Heat capacity of a m³ of tap water (J/m³K)."""
LEAST_ZONE = 30e3
"""Heat capacity (J/K) of a zone whose volume is not stated."""
LEAST_PART = 4.0
"""Heat capacity (J/K) of a millilitre of coolant: what passes a part that is said to hold nothing."""


@dataclass
class _Cells:
    """Cells of the ring: by tag, with what enters each and how much."""

    of: dict[str, list[int]] = field(default_factory=dict)
    inlets: dict[int, Vector] = field(default_factory=dict)
    rates: dict[int, float] = field(default_factory=dict)

    def inlet(self, tag: str) -> Vector:
        """Row that reads the water entering a part."""
        return self.inlets[self.of[tag][0]]


class BoatBuilder:
    """The steps of the building, with what they share."""

    def __init__(
        self, project: "Project", ring: RingStudy, coolant: Coolant, loss: HeatLoss, control: Control
    ) -> None:
        self.project, self.ring, self.coolant = project, ring, coolant
        self.loss, self.control = loss, control
        self.components: Any = project.components or {}
        self.assembly = Assembly()
        self.zones: dict[str, int] = {}

    def boat(self, operation: Operation, cells: int = 1) -> Boat:
        """The boat with the flows of a mode; ``cells`` cuts each pipe and unit of the ring into so many."""
        self._zones()
        found = self._cells(operation, cells)
        self._losses(operation, found)
        assembly = self.assembly
        count = len(assembly.names)
        matrix, source, outside, fixed = assembly.balance(found.inlets, found.rates)
        burner = found.of[self.control.unit.tag][0]
        stores = [tag for tag in found.of if self.ring.hydraulics.circuit.places[tag].kind == "buffer"]
        place = self.control.sensor(stores)
        back = found.inlet(self.control.unit.tag)
        store = found.of[stores[0]][0] if stores else None
        sensor = back
        if place == OUTLET:
            sensor = unit_row(count, burner)
        elif place == STORE and store is not None:
            sensor = unit_row(count, store)
        return Boat(
            tuple(assembly.names),
            np.array(assembly.capacities),
            matrix,
            source,
            outside,
            fixed,
            tuple(self._emissions(operation, found, count)),
            self.zones,
            burner,
            sensor,
            back,
            np.array(assembly.starts),
            store,
            self._recovery(found),
            self._tap(found),
        )

    def _zones(self) -> None:
        assembly, loss = self.assembly, self.loss
        for zone in self.project.zones or ():
            size = LEAST_ZONE
            if zone.volume is not None:
                by_volume = stated_or_assumed(
                    zone.heat_capacity, "zones.heat_capacity", f"zones.{zone.id}.heat_capacity"
                )
                size = max(float(zone_capacity(by_volume, zone.volume)), LEAST_PART)
            start = float(loss.zones[zone.id].temperature)
            self.zones[zone.id] = assembly.capacity(zone.id, size, start)
        for section in loss.shell.sections:
            conductance = float(section_conductance(section.transmittance, section.area))
            here = self.zones[section.zone]
            if section.facing == "zone":
                assembly.between(here, self.zones[str(section.beyond)], conductance)
            elif section.facing == "air":
                assembly.to_outside(here, conductance)
            else:
                beyond = loss.sea if section.facing == "sea" else section.beyond
                assembly.beyond(here, conductance, float(beyond or 0.0), section.facing)
        for name, found in loss.zones.items():
            air = ventilation_conductance(coefficient("envelope.air_heat_capacity"), found.air_flow)
            assembly.to_outside(self.zones[name], float(air))

    def _cells(self, operation: Operation, cells: int) -> _Cells:
        """Cells of all parts that water passes, and what flows into each."""
        outcome, hydraulics = operation.outcome, self.ring.hydraulics
        volumes = {content.tag: content.volume for content in self.coolant.contents}
        by_volume = float(self.coolant.density) * float(self.coolant.specific_heat)
        level = float(self.control.level)
        found = _Cells()
        ways = ways_of(hydraulics, outcome.solution)
        lasts: list[int | None] = []
        firsts: list[tuple[int, int]] = []
        previous: dict[int, int] = {}
        for way in ways:
            last: int | None = None
            for tag in way.tags:
                if tag not in volumes:
                    continue
                kind = hydraulics.circuit.places[tag].kind
                number = 1 if kind in WHOLE else cells
                whole = self._capacity(tag, kind, float(volumes[tag]) * by_volume)
                size = max(whole / number, LEAST_PART)
                found.of[tag] = []
                for _ in range(number):
                    place = self.assembly.capacity(tag, size, level)
                    found.of[tag].append(place)
                    found.rates[place] = way.mass_flow * outcome.specific_heat
                    if last is None:
                        firsts.append((place, way.start))
                    else:
                        previous[place] = last
                    last = place
            lasts.append(last)
        count = len(self.assembly.names)
        nodes = _node_rows([(w.start, w.end, w.mass_flow) for w in ways], lasts, count)
        for place, start in firsts:
            found.inlets[place] = nodes[start]
        for place, before in previous.items():
            found.inlets[place] = unit_row(count, before)
        return found

    def _capacity(self, tag: str, kind: str, fluid: float) -> float:
        unit = self.components.get(tag)
        if unit is None:
            return fluid
        share = float(mixing_share(unit)) if kind == "buffer" else 1.0
        metal = metal_of(unit)
        mass = 0.0 if metal is None else float(metal)
        return share * fluid + mass * float(coefficient("store.metal_specific_heat"))

    def _losses(self, operation: Operation, found: _Cells) -> None:
        """Heat that pipes and stores lose to the air round them."""
        heat = operation.heat
        surroundings = float(assumed("circuit.surroundings"))
        for tag, places in found.of.items():
            unit = self.components.get(tag)
            conductance = operation.outcome.transmittances.get(tag, 0.0)
            if unit is not None and unit.kind == "buffer":
                volume = unit.volume if unit.volume is not None else unit.water_volume
                conductance = float(store_conductance_of(unit, volume))
            if conductance <= 0:
                continue
            pipe = heat.pipes.get(tag) if heat else None
            where = (pipe.through or pipe.beside) if pipe else ""
            for place in places:
                share = conductance / len(places)
                if where == OUTSIDE:
                    self.assembly.to_outside(place, share)
                elif where in self.zones:
                    self.assembly.between(place, self.zones[where], share)
                else:
                    self.assembly.beyond(place, share, surroundings, "surroundings")

    def _emissions(self, operation: Operation, found: _Cells, count: int) -> list[Emission]:
        """Emitters of the zones that call, as straight lines through their state in the mode."""
        heat = operation.heat
        each = []
        for tag, state in (heat.emitters if heat else {}).items():
            if tag not in found.of or state.zone not in self.zones:
                continue
            model = self.ring.emitters[tag].plain
            rate = found.rates[found.of[tag][0]]
            supply, room = float(state.supply), float(state.room)
            if supply <= room:
                continue
            conductance = float(model.output(supply, rate, room)) / (supply - room)
            fan = state.kind == "fan_coil"
            where = model.air_from or model.zone
            air: int | str = OUTSIDE if where == OUTSIDE else self.zones.get(where, self.zones[state.zone])
            inlet = found.inlet(tag)
            stopped = float(assumed("components.fan_coil.stopped_share", f"components.{tag}")) if fan else 0.0
            starts = self._start_stat(tag) if fan else None
            term = emission_term(count, found.of[tag], self.zones[state.zone], inlet, air, conductance)
            each.append(Emission(tag, state.zone, conductance, inlet, stopped, starts, term))
        return each

    def _start_stat(self, tag: str) -> float:
        stated = self.components[tag].start_stat
        key = "components.fan_coil.start_stat"
        return float(stated_or_assumed(stated, key, f"components.{tag}.start_stat"))

    def _recovery(self, found: _Cells) -> Recovery | None:
        """The recovery exchanger in the ring whose engine runs some hours a day."""
        for tag in found.of:
            unit = self.components.get(tag)
            if unit is None or unit.kind != "recovery_exchanger":
                continue
            model = recovery_model(self.project, tag, unit)
            if model is not None:
                place = found.of[tag][0]
                return _recovery_line(model, found.rates[place], place, found.inlet(tag))
        return None

    def _tap(self, found: _Cells) -> Tap | None:
        """The tap exchanger in the ring, where the file says what a shower takes."""
        wanted: Any = self.project.tap_water or None
        if wanted is None or None in {wanted.shower_flow, wanted.at_tap, wanted.shower}:
            return None
        cold = wanted.cold.winter if wanted.cold else None
        for tag, places in found.of.items():
            unit = self.components.get(tag)
            if cold is None or unit is None or unit.kind != "tap_exchanger":
                continue
            at = unit.at
            if unit.output is None or at is None or at.primary_in is None or at.tap_in is None:
                continue
            demand = float(tap_heat(wanted.shower_flow, WATER, wanted.at_tap, cold))
            able = float(unit.output) / (float(at.primary_in) - float(at.tap_in))
            return Tap(tag, able, float(cold), demand, places[0], found.inlet(tag))
        return None


def _node_rows(
    ways: list[tuple[int, int, float]], lasts: list[int | None], count: int
) -> Mapping[int, Vector]:
    """Row that reads the mixed temperature of each junction; ``ways`` are (start, end, mass flow)."""
    nodes = 1 + max((max(start, end) for start, end, _ in ways), default=0)
    arriving = np.zeros(nodes)
    passed, carried = np.zeros((nodes, nodes)), np.zeros((nodes, count))
    for (start, end, flow), last in zip(ways, lasts, strict=True):
        arriving[end] += flow
        if last is None:
            passed[end, start] += flow
        else:
            carried[end, last] += flow
    safe = np.where(arriving > 0, arriving, 1.0)[:, np.newaxis]
    rows = np.linalg.solve(np.eye(nodes) - passed / safe, carried / safe)
    return dict(enumerate(rows))


def _recovery_line(model: RecoveryModel, rate: float, place: int, inlet: Vector) -> Recovery:
    """Heat of a recovery exchanger over the temperature of the ring, as its model has it."""
    passed = float(
        exchanger_heat(
            Arrangement.COUNTERFLOW, float(model.conductance), float(model.engine_rate), rate, 301.0, 300.0
        )
    )
    heat = float(model.jacket_heat)
    if model.jacket_highest is None:
        return Recovery(model.tag, model.serves, heat, np.inf, 0.0, 0.0, place, inlet)
    highest = float(model.jacket_highest)
    opens = min(float(model.thermostat), highest) if model.thermostat is not None else highest
    # The engine's cooler takes its share in a straight line from where its thermostat opens.
    slope = passed
    if opens < highest:
        cooler = heat / (highest - opens)
        slope = passed * cooler / (passed + cooler)
    return Recovery(model.tag, model.serves, heat, opens - heat / passed, slope, highest, place, inlet)
