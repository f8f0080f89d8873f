"""What does the system weigh, dry and filled, and how does it lean and trim the boat?

Parts stand at the middle of their boxes. Trim is taken about half the length. Pipes weigh their coolant.
"""

from collections.abc import Mapping
from math import pi
from typing import TYPE_CHECKING, Annotated

import numpy as np

from dossier.data.assumptions import assumed
from dossier.data.sources import HYDROSTATICS, MASS_BALANCE
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.attitude import middle, offset
from dossier.physics.boxes import Box
from dossier.physics.fluid import water
from dossier.sizing.coolant import fluid_of
from dossier.sizing.placement import boxes_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model import Component

QUESTION = "What does the system weigh?"
GRAVITY = 9.80665
CAN_BE_HEAVY = (
    "burner",
    "buffer",
    "water_heater",
    "header_tank",
    "membrane_vessel",
    "fan_coil",
    "radiator",
    "towel_rail",
    "tap_exchanger",
    "recovery_exchanger",
)
"""Kinds whose mass must be known before a sum counts as whole."""
NOT_OF_THE_SYSTEM = ("engine", "generator", "battery", "fuel_tank", "fuel_filter")


@formula("m = Σ m_i", ARITHMETIC)
def total_mass(
    *masses: Annotated[Real, q("m_i", "kg", "mass of one part", low=0, high=1e5)],
) -> Annotated[Real, q("m", "kg", "mass", low=0)]:
    """Mass of several parts together."""
    total: Real = 0.0
    for mass in masses:
        total = total + mass
    return total


@formula("m = ρ · V", MASS_BALANCE)
def liquid_mass(
    density: Annotated[Real, q("ρ", "kg/m3", "density of the liquid", low=900, high=1200)],
    volume: Annotated[Real, q("V", "m3", "volume of the liquid", low=0, high=50)],
) -> Annotated[Real, q("m", "kg", "mass of the liquid", low=0)]:
    """Mass of a liquid."""
    return density * volume


@formula("M = m · 9.80665 m/s² · a", HYDROSTATICS)
def moment(
    mass: Annotated[Real, q("m", "kg", "mass", low=0, high=1e5)],
    arm: Annotated[Real, q("a", "m", "distance from the axis", low=-500, high=500)],
) -> Annotated[Real, q("M", "N*m", "moment")]:
    """Moment of a part's weight about an axis of the boat."""
    return mass * GRAVITY * arm


@formula("M = Σ M_i", HYDROSTATICS)
def total_moment(
    *moments: Annotated[Real, q("M_i", "N*m", "moment of one part", low=-1e9, high=1e9)],
) -> Annotated[Real, q("M", "N*m", "moment")]:
    """Moment of several parts together."""
    total: Real = 0.0
    for part in moments:
        total = total + part
    return total


@formula("φ = |M|/M_φ · π/180", HYDROSTATICS)
def list_angle(
    heeling: Annotated[Real, q("M", "N*m", "moment to one side", low=-1e9, high=1e9)],
    per_degree: Annotated[Real, q("M_φ", "N*m", "moment that lists the boat by one degree", low=1, high=1e9)],
) -> Annotated[Real, q("φ", "rad", "list", low=0)]:
    """List from a moment, to either side."""
    found: Real = np.abs(heeling) / per_degree * pi / 180
    return found


@formula("t = |M|/M_t · 0.01 m/L", HYDROSTATICS)
def trim_share(
    trimming: Annotated[Real, q("M", "N*m", "moment to one end", low=-1e9, high=1e9)],
    per_centimetre: Annotated[
        Real, q("M_t", "N*m", "moment that trims the boat by one centimetre", low=1, high=1e9)
    ],
    length: Annotated[Real, q("L", "m", "length of the boat", low=1, high=500)],
) -> Annotated[Real, q("t", "1", "change of trim over the length", low=0)]:
    """Change of trim over the length, to either end."""
    found: Real = np.abs(trimming) / per_centimetre * 0.01 / length
    return found


@formula("x_0 = L/2", HYDROSTATICS)
def trim_axis(
    length: Annotated[Real, q("L", "m", "length of the boat", low=1, high=500)],
) -> Annotated[Real, q("x_0", "m", "axis of trim, forward of the aft end")]:
    """Place of the axis the boat trims about."""
    return length / 2


@dataclass(frozen=True)
class PartMass:
    """Mass of one part; ``x``, ``y``, ``z`` are the middle of its box."""

    tag: str
    kind: str
    dry: Annotated[Real | None, q("m", "kg", "dry")]
    coolant: Annotated[Real | None, q("m", "kg", "coolant in it")]
    filled: Annotated[Real | None, q("m", "kg", "filled, or as much of it as is known")]
    x: Annotated[Real | None, q("x", "m", "forward of the aft end")]
    y: Annotated[Real | None, q("y", "m", "to port")]
    z: Annotated[Real | None, q("z", "m", "above the waterline")]
    fixing: str | None


@dataclass(frozen=True)
class Masses:
    """Masses of the system; ``unweighed`` and ``unplaced`` are keys of parts the sums leave out."""

    parts: tuple[PartMass, ...]
    dry: Annotated[Real | None, q("m", "kg", "whole system", name="mass.dry")]
    filled: Annotated[Real | None, q("m", "kg", "whole system", name="mass.filled")]
    to_side: Annotated[Real | None, q("M", "N*m", "moment to port of the filled system")]
    to_end: Annotated[Real | None, q("M", "N*m", "moment to the fore end of the filled system")]
    list: Annotated[Real | None, q("φ", "rad", "list from the filled system", name="mass.list")]
    trim: Annotated[Real | None, q("t", "1", "change of trim over the length", name="mass.trim")]
    unweighed: tuple[str, ...]
    unplaced: tuple[str, ...]


def masses(project: "Project", coolant_by_tag: Mapping[str, Real] | None) -> Masses | NotAssessed:
    """Masses dry and filled, list and trim.

    ``coolant_by_tag`` is the volume of coolant (m³) in each part and pipe; None where it is not known, then
    nothing counts as filled. Tap water in a heater counts too.
    """
    boxes = boxes_of(project)
    contents = None if coolant_by_tag is None else liquid_in(project, coolant_by_tag)
    parts = tuple(
        _part(tag, component, (contents or {}).get(tag), boxes.get(tag))
        for tag, component in (project.components or {}).items()
        if component.kind not in NOT_OF_THE_SYSTEM
    )
    unweighed = tuple(
        f"components.{part.tag}.mass" for part in parts if part.dry is None and part.kind in CAN_BE_HEAVY
    )
    weighed = [part.dry for part in parts if part.dry is not None]
    if not weighed:
        return NotAssessed(QUESTION, unweighed or ("components.mass",))
    dry = total_mass(*weighed)
    filled = None
    if contents is not None:
        filled = total_mass(dry, *contents.values()) if contents else dry
    unplaced = tuple(
        f"layout.places.{part.tag}"
        for part in parts
        if part.filled is not None and part.y is None and part.kind in CAN_BE_HEAVY
    )
    to_side, to_end = _moments(project, parts)
    vessel = project.vessel
    heeled = trimmed = None
    if vessel is not None and to_side is not None and vessel.moment_per_degree is not None:
        heeled = list_angle(to_side, vessel.moment_per_degree)
    if vessel is not None and to_end is not None and vessel.length and vessel.moment_per_cm_trim is not None:
        trimmed = trim_share(to_end, vessel.moment_per_cm_trim, vessel.length)
    return Masses(parts, dry, filled, to_side, to_end, heeled, trimmed, unweighed, unplaced)


def liquid_in(project: "Project", coolant_by_tag: Mapping[str, Real]) -> dict[str, Real] | None:
    """Mass (kg) of coolant and stored tap water in each part and pipe, at the temperature of filling."""
    fluid, cold = fluid_of(project), assumed("conditions.heat_up_start")
    if isinstance(fluid, NotAssessed):
        return None
    coolant, fresh = fluid.density(cold), water().density(cold)
    found = {tag: liquid_mass(coolant, volume) for tag, volume in coolant_by_tag.items()}
    for tag, component in (project.components or {}).items():
        stored = getattr(component, "volume", None) if component.kind == "water_heater" else None
        if stored is not None:
            tap_water = liquid_mass(fresh, stored)
            found[tag] = total_mass(found[tag], tap_water) if tag in found else tap_water
    return found


def _part(tag: str, component: "Component", coolant: Real | None, box: Box | None) -> PartMass:
    known = [mass for mass in (component.mass, coolant) if mass is not None]
    filled = total_mass(*known) if known else None
    x, y, z = (None if box is None else middle(box.low[k], box.high[k]) for k in range(3))
    return PartMass(tag, component.kind, component.mass, coolant, filled, x, y, z, component.fixing)


def _moments(project: "Project", parts: tuple[PartMass, ...]) -> tuple[Real | None, Real | None]:
    """Moments of all parts that have a mass and a place: to port, and to the fore end."""
    placed = [
        (p.filled, p.x, p.y) for p in parts if p.filled is not None and p.x is not None and p.y is not None
    ]
    if not placed:
        return None, None
    to_side = total_moment(*(moment(mass, y) for mass, _, y in placed))
    length = project.vessel.length if project.vessel else None
    if length is None:
        return to_side, None
    axis = trim_axis(length)
    return to_side, total_moment(*(moment(mass, offset(axis, x)) for mass, x, _ in placed))
