"""Any circuit at all: nested groups, side circuits, vessels and links, drawn at random."""

import random

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
    Power,
    Run,
    Side,
    Tap,
    Unit,
    units_of,
)

EMITTERS = ("fan_coil", "radiator", "towel_rail", "floor_loop")
VALVES = (
    "balancing_valve",
    "bypass_valve",
    "shut_valve",
    "check_valve",
    "thermostatic_valve",
    "motor_valve",
)
INLINE = ("buffer", "air_separator", "water_heater", "recovery_exchanger", "pump")
NAMES = ("Saloon · 2.0 kW", "", "Starboard-quarter-berth-and-oilskin-locker-under-the-side-deck", "R & D <1>")


class Trees:
    """Draws random circuits; every tag is new."""

    def __init__(self, seed):
        self.random = random.Random(seed)  # noqa: S311 - draws test cases
        self.count = 0

    def tag(self, letter):
        self.count += 1
        return f"{letter}{self.count}"

    def pick(self, *choices):
        return self.random.choice(choices)

    def one_in(self, number):
        return self.random.randrange(number) == 0

    def run(self, side):
        flow = self.pick("", "4.2 l/min", "124.25 US gal/min")
        return Run(side, flow, self.pick("", "72 °C", "161.6 °F"))

    def valve(self):
        return Unit(
            self.tag("V"), self.pick(*VALVES), state=self.pick("", "open", "shut", "Kv 0.98, 2.3 turns")
        )

    def emitter(self):
        kind = self.pick(*EMITTERS)
        return Unit(self.tag("F"), kind, name=self.pick(*NAMES), worst=self.one_in(3))

    def inline(self):
        facts = self.pick((), ("23.5 kPa",), ("60 l", "copper coil, two walls"))
        return Unit(self.tag("T"), self.pick(*INLINE), flow=self.pick("", "15.4 l/min"), facts=facts)

    def branch(self, depth, budget):
        items: list[Item] = [self.valve() for _ in range(self.random.randint(0, 2))]
        items.append(self.run(Side.SUPPLY))
        if depth and budget > 1 and self.one_in(3):
            items.append(self.group(depth - 1, budget))
        elif not self.one_in(3):
            items.append(self.emitter())
        items.append(self.run(Side.RETURN))
        if self.one_in(3):
            items.append(self.inline())
        return Branch(tuple(items), self.pick("", "Bypass", NAMES[2]))

    def group(self, depth, budget):
        count = self.random.randint(1, max(1, budget))
        branches = tuple(self.branch(depth, budget // count) for _ in range(count))
        start, end = (
            (Unit(self.tag("M"), kind) if kind else None)
            for kind in self.pick(
                ("manifold", "manifold"), ("", ""), ("three_way_valve", ""), ("", "three_way_valve")
            )
        )
        return Parallel(branches, start, end)


def any_circuit(seed):
    """A circuit with up to some forty branches, nested up to four deep, and some of what may hang on it."""
    trees = Trees(seed)
    burner = Unit(trees.tag("B"), "burner", facts=("5.0 to 12 kW",))
    exchanger = Unit(trees.tag("X"), "tap_exchanger", facts=trees.pick((), ("14 kW",)))
    pump = Unit(trees.tag("P"), "pump", flow="15.4 l/min", facts=("23.5 kPa",))
    ring = any_ring(trees, burner, exchanger, pump)
    turn = trees.random.randint(0, len(ring))
    sides = [side for side in sides_of(ring, burner, exchanger) if trees.one_in(2)]
    joins = [join for join in joins_of(burner, trees.pick(pump, burner), pump) if trees.one_in(2)]
    links = any_links(trees, ring) if trees.one_in(2) else ()
    return Circuit((*ring[turn:], *ring[:turn]), tuple(sides), tuple(joins), links)


def any_ring(trees, burner, exchanger, pump):
    """Burner, perhaps an exchanger, groups, what stands on the way back, perhaps a pump."""
    pick, number = trees.pick, trees.random.randint
    ring: list[Item] = [burner, trees.run(Side.SUPPLY)]
    if trees.one_in(2):
        ring += [exchanger, trees.run(Side.SUPPLY)]
    for _ in range(number(0, 2)):
        ring += [trees.inline(), trees.run(Side.SUPPLY)]
    for _ in range(number(0, 2)):
        ring += [trees.group(number(0, 3), pick(1, 2, 4, 8, 16, 40)), trees.run(Side.RETURN)]
    for _ in range(number(0, 3)):
        ring += [trees.inline(), trees.run(Side.RETURN)]
    return ring + ([pump, trees.run(Side.SUPPLY)] if trees.one_in(2) else [])


def sides_of(ring, burner, exchanger):
    """Fuel, exhaust, power and tap, and the engine of every recovery exchanger."""
    tank = Unit("", "fuel_tank", name="Fuel tank", facts=("900 l",))
    engine = Unit("G9001", "generator", name="Generator", facts=("7 kW jacket",))
    yield Fuel(burner.tag, (Unit("V9020", "fuel_shut_off"), Unit("", "fuel_filter"), tank))
    yield Exhaust(burner.tag, "Exhaust 38 mm, 1.97 m, to the starboard side")
    yield Power(burner.tag, (Unit("Q9001", "isolator"), Unit("K9001", "battery", facts=("400 Ah",))))
    yield Tap(exchanger.tag, Unit("V9040", "mixing_valve", facts=("46 °C",)), (Unit("V9041", "check_valve"),))
    for unit in ring:
        if isinstance(unit, Unit) and unit.kind == "recovery_exchanger":
            towards, back = (Unit("V9060", "shut_valve"),), (Unit("V9061", "shut_valve"),)
            yield EngineSide(unit.tag, engine, towards, back)


def joins_of(burner, before, pump):
    """Header, safety valve, vessel."""
    header = Unit("T9200", "header_tank", facts=("12 l",))
    notes, levels = ("no valve", "no reducer"), ("hot", "cold")
    yield Join(header, before=before.tag, notes=notes, vent="open vent", levels=levels)
    yield Join(Unit("V9008", "safety_valve", facts=("3 bar", "to the catch bottle")), after=burner.tag)
    yield Join(Unit("T9201", "membrane_vessel", facts=("18 l", "0.8 bar")), before=pump.tag)


def any_links(trees, ring):
    """Up to two pipes from somewhere to somewhere else."""
    tags = [unit.tag for unit in units_of(tuple(ring)) if unit.kind != "three_way_valve"]
    count = trees.random.randint(0, 2)
    return tuple(
        Link(trees.pick(*tags), trees.pick(*tags), text=trees.pick("", "by-pass pipe")) for _ in range(count)
    )
