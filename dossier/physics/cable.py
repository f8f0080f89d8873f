"""What a cable takes from the voltage, what current it may carry, and how long a battery lasts.

Lengths are one way, as the file gives them; current runs out and back, so every drop counts them twice. Which
resistivity is taken matters more than it looks: the ISO form (0.0164 ohm·mm²/m) lies below what copper can
be, ABYC's K = 10.75 equals 0.01787, warm stranded copper has 0.0195. ``dossier.data.cables`` holds them all.
"""

from typing import Annotated

import numpy as np

from dossier.data.cables import (
    CURRENT,
    SECTION,
    bundle_factor,
    engine_space_factor,
    sections,
    tabled_current,
)
from dossier.data.sources import ABYC_E11, AWG_SIZES, COPPER, ISO_10133_AMPACITY, OHM
from dossier.notation import OutOfRange, Real, formula, q, solved

RESISTIVITY = q("ρ_el", "ohm*m", "resistivity of the conductor", low=1.5e-8, high=3e-8)
LENGTH = q("L", "m", "length of the cable, one way", low=0, high=200)
RESISTANCE = q("R", "ohm", "resistance of the cable, out and back", low=0, high=100)
DROP = q("ΔU", "V", "voltage drop", low=0, high=1000)
VOLTAGE = q("U", "V", "voltage", low=1, high=400)
NEEDED = q("A_ΔU", "m2", "section that keeps the drop", low=0)
CARRIES = q("I_z", "A", "ampacity", low=0)
CIRCULAR_MIL = 5.067074790975e-10
"""Area of a circle of 0.001 in (m²)."""


@formula("R = 2 · ρ_el · L/A", OHM)
def cable_resistance(
    resistivity: Annotated[Real, RESISTIVITY],
    length: Annotated[Real, LENGTH],
    section: Annotated[Real, SECTION],
) -> Annotated[Real, q("R", "ohm", "resistance of the cable, out and back", low=0)]:
    """Resistance of a two-wire cable, out and back."""
    return 2 * resistivity * length / section


@formula("R = 2 · R' · L", OHM)
def cable_resistance_tabled(
    per_metre: Annotated[Real, q("R'", "ohm/m", "resistance of one metre of conductor", low=0, high=1)],
    length: Annotated[Real, LENGTH],
) -> Annotated[Real, q("R", "ohm", "resistance of the cable, out and back", low=0)]:
    """Resistance of a two-wire cable from a table such as IEC 60228's."""
    return 2 * per_metre * length


@formula("ΔU = I · R", OHM)
def voltage_drop(
    current: Annotated[Real, CURRENT], resistance: Annotated[Real, RESISTANCE]
) -> Annotated[Real, q("ΔU", "V", "voltage drop")]:
    """Voltage that a cable takes."""
    return current * resistance


@formula("δ = ΔU/U", OHM)
def drop_share(
    drop: Annotated[Real, DROP], system: Annotated[Real, VOLTAGE]
) -> Annotated[Real, q("δ", "1", "voltage drop over system voltage", low=0)]:
    """Voltage drop as a share of the system voltage."""
    return drop / system


@formula("A = 2 · ρ_el · I · L/ΔU", OHM)
def section_for_drop(
    resistivity: Annotated[Real, RESISTIVITY],
    current: Annotated[Real, CURRENT],
    length: Annotated[Real, LENGTH],
    drop: Annotated[Real, q("ΔU", "V", "voltage drop allowed", low=0.01, high=100)],
) -> Annotated[Real, q("A", "m2", "section that keeps the drop", low=0)]:
    """Section that keeps a voltage drop; with the resistivity of K, ABYC's circular mil formula."""
    return 2 * resistivity * current * length / drop


@formula("ρ_el = K · 5.067e-10 m²/0.3048 m", ABYC_E11)
def resistivity_of_constant(
    constant: Annotated[
        Real, q("K", "1", "constant of the circular mil formula, ohm cmil/ft", low=9, high=14)
    ],
) -> Annotated[Real, q("ρ_el", "ohm*m", "resistivity of the conductor", low=0)]:
    """Resistivity behind the constant of ABYC's circular mil formula."""
    return constant * CIRCULAR_MIL / 0.3048


@formula("ρ_el = ρ_20 · (1 + 0.00393 · (θ − 293.15))", COPPER)
def resistivity_at(
    at_20: Annotated[Real, q("ρ_20", "ohm*m", "resistivity at 20 °C", low=1.6e-8, high=2.2e-8)],
    temperature: Annotated[Real, q("θ", "K", "temperature of the conductor", low=223, high=423)],
) -> Annotated[Real, q("ρ_el", "ohm*m", "resistivity of the conductor", low=0)]:
    """Resistivity of copper at another temperature than 20 °C."""
    return at_20 * (1 + 0.00393 * (temperature - 293.15))


@formula("A = π/4 · (0.127e-3 · 92^((36 − n)/39))²", AWG_SIZES)
def gauge_section(
    number: Annotated[Real, q("n", "1", "gauge; 1/0 is 0, 2/0 is -1", low=-3, high=40)],
) -> Annotated[Real, q("A", "m2", "section of a solid wire of the gauge", low=0)]:
    """Geometric section of an American gauge; stranded conductors sold under it may have 12 % less."""
    return np.pi / 4 * (0.127e-3 * 92 ** ((36 - number) / 39)) ** 2


@formula("I_z = I_0 · f_E · f_B", ISO_10133_AMPACITY)
def derated_current(
    tabled: Annotated[Real, q("I_0", "A", "current of a single conductor", low=0, high=1000)],
    engine_space: Annotated[Real, q("f_E", "1", "factor for engine spaces", low=0, high=1)],
    bundle: Annotated[Real, q("f_B", "1", "factor for conductors in a bundle", low=0, high=1)],
) -> Annotated[Real, q("I_z", "A", "ampacity", low=0)]:
    """Current a conductor may carry where it lies."""
    return tabled * engine_space * bundle


@formula("U_B = U_0 − I · (R_i + R)", OHM)
def terminal_voltage(
    at_rest: Annotated[Real, q("U_0", "V", "battery at rest, lowest charge, cold", low=1, high=400)],
    current: Annotated[Real, CURRENT],
    battery: Annotated[Real, q("R_i", "ohm", "resistance of the battery", low=0, high=1)],
    cable: Annotated[Real, RESISTANCE],
) -> Annotated[Real, q("U_B", "V", "voltage at the consumer")]:
    """Voltage at a consumer's terminals while it draws a current."""
    return at_rest - current * (battery + cable)


@formula("Q = I · t", OHM)
def charge_drawn(
    current: Annotated[Real, CURRENT],
    time: Annotated[Real, q("t", "s", "running time", low=0, high=1e8)],
) -> Annotated[Real, q("Q", "C", "charge", low=0)]:
    """Charge a consumer takes in its running time."""
    return current * time


@formula("t = Q_B · s/I", OHM)
def battery_autonomy(
    capacity: Annotated[Real, q("Q_B", "C", "capacity of the battery", low=0, high=1e8)],
    usable: Annotated[Real, q("s", "1", "usable share", low=0, high=1)],
    mean_current: Annotated[Real, q("I", "A", "mean current", low=1e-4, high=1000)],
) -> Annotated[Real, q("t", "s", "time until the usable charge is taken", low=0)]:
    """How long the battery lasts at a mean current."""
    return capacity * usable / mean_current


@formula("I = P/U", OHM)
def current_of(
    power: Annotated[Real, q("P", "W", "electrical power", low=0, high=1e5)],
    voltage: Annotated[Real, VOLTAGE],
) -> Annotated[Real, q("I", "A", "current", low=0)]:
    """Current of a consumer of known power."""
    return power / voltage


def ampacity(
    section: float, insulation: float, *, engine_space: bool, bundled: int = 1, table: str = "iso"
) -> Real:
    """Current (A) that a conductor of a section (m²) and insulation rating (K) may carry where it lies.

    ``bundled`` counts the current-carrying conductors in the bundle. Raises ``OutOfRange`` below the table.
    """
    factor = engine_space_factor(insulation, table) if engine_space else 1.0
    return derated_current(tabled_current(section, insulation, table), factor, bundle_factor(bundled, table))


def smallest_section(
    current: float,
    needed: Real,
    insulation: float,
    *,
    engine_space: bool,
    bundled: int = 1,
    table: str = "iso",
) -> float | None:
    """Smallest section on sale (m²) that has ``needed`` (m²) for the drop and carries the current (A).

    The other arguments are those of ``ampacity``. None where no section does.
    """
    for section in sections().values():
        try:
            carries = ampacity(section, insulation, engine_space=engine_space, bundled=bundled, table=table)
        except OutOfRange:
            continue
        if section >= needed and carries >= current:
            given = [(NEEDED, needed), (CURRENT, current), (CARRIES, carries)]
            return solved(section, SECTION, "A = smallest section with A ≥ A_ΔU and I_z ≥ I", OHM, given)
    return None
