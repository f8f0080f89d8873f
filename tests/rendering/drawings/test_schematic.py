"""The schematic of any circuit keeps every label, sign and line apart and inside the frame."""

import random

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

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
from dossier.rendering.drawings.record import misfits
from dossier.rendering.drawings.schematic import schematic
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock

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
FORM = Form(
    TitleBlock(title="Heating circuit", boat="Marsh Heron", scale="not to scale"), "A4", ("Mode heating.",)
)


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
    """A circuit with up to some forty branches, nested up to four deep."""
    trees = Trees(seed)
    pick, number = trees.pick, trees.random.randint
    burner, exchanger, pump = (
        Unit(trees.tag("B"), "burner", facts=("5.0 to 12 kW",)),
        Unit(trees.tag("X"), "tap_exchanger", facts=pick((), ("14 kW",))),
        Unit(trees.tag("P"), "pump", flow="15.4 l/min", facts=("23.5 kPa",)),
    )
    ring: list[Item] = [burner, trees.run(Side.SUPPLY)]
    if trees.one_in(2):
        ring += [exchanger, trees.run(Side.SUPPLY)]
    for _ in range(number(0, 2)):
        ring += [trees.inline(), trees.run(Side.SUPPLY)]
    for _ in range(number(0, 2)):
        ring += [trees.group(number(0, 3), pick(1, 4, 8, 16, 40)), trees.run(Side.RETURN)]
    for _ in range(number(0, 3)):
        ring += [trees.inline(), trees.run(Side.RETURN)]
    ring += [pump, trees.run(Side.SUPPLY)] if trees.one_in(2) else []
    turn = number(0, len(ring))
    tank = Unit("", "fuel_tank", name="Fuel tank", facts=("900 l",))
    sides = [
        Fuel(burner.tag, (Unit("V20", "fuel_shut_off"), Unit("", "fuel_filter"), tank)),
        Exhaust(burner.tag, "Exhaust 38 mm, 1.97 m, to the starboard side"),
        Power(burner.tag, (Unit("Q1", "isolator"), Unit("K1", "battery", facts=("400 Ah",)))),
        Tap(exchanger.tag, Unit("V40", "mixing_valve", facts=("46 °C",)), (Unit("V41", "check_valve"),)),
    ]
    recovery = [u for u in ring if isinstance(u, Unit) and u.kind == "recovery_exchanger"]
    engine = Unit("G1", "generator", name="Generator", facts=("7 kW jacket",))
    sides += [
        EngineSide(u.tag, engine, (Unit("V60", "shut_valve"),), (Unit("V61", "shut_valve"),))
        for u in recovery
    ]
    joins = [
        Join(
            Unit("T200", "header_tank", facts=("12 l",)),
            before=pick(pump.tag, burner.tag),
            notes=("no valve", "no reducer"),
            vent="open vent",
            levels=("hot", "cold"),
        ),
        Join(Unit("V8", "safety_valve", facts=("3 bar", "to the catch bottle")), after=burner.tag),
        Join(Unit("T201", "membrane_vessel", facts=("18 l", "0.8 bar")), before=pump.tag),
    ]
    tags = [unit.tag for unit in units_of(tuple(ring)) if unit.kind != "three_way_valve"]
    links = [Link(pick(*tags), pick(*tags), text=pick("", "by-pass pipe")) for _ in range(number(0, 2))]
    return Circuit(
        (*ring[turn:], *ring[:turn]),
        tuple(side for side in sides if trees.one_in(2)),
        tuple(join for join in joins if trees.one_in(2)),
        tuple(links) if trees.one_in(2) else (),
    )


@settings(max_examples=60, deadline=None, phases=[Phase.generate])
@given(st.integers(0, 10**9), st.sampled_from(["A4", "A3", "letter"]))
def test_no_label_meets_anything_on_the_schematic_of_any_circuit(seed, paper):
    sheet = Sheet(paper)
    for drawing in schematic(any_circuit(seed), Form(FORM.title, paper, FORM.notes)):
        assert misfits(drawing, sheet.frame.grown(8.0)) == ()
