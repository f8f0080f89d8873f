"""Does water gather inside a build-up? Months of air, sea and vapour, and Glaser's method with them."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated

import numpy as np

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.materials import material
from dossier.data.sources import HEAT_BALANCE, ISO_13788_GLASER, ISO_13788_SURFACE
from dossier.notation import ARITHMETIC, NotAssessed, Quantity, Real, formula, q, solved
from dossier.notation.records import dataclass
from dossier.physics.envelope import Layer
from dossier.physics.glaser import GlaserYear, Month, Part, glaser_year, vapour_thickness
from dossier.physics.moisture import saturation_pressure
from dossier.physics.tap_exchanger import fall
from dossier.sizing.envelope import BuildUpWorth

if TYPE_CHECKING:
    from dossier.project import Project

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
HOURS = 24
QUESTION = "Does water gather inside the build-up?"
CUPS = (("dry", "wet"), ("wet", "wet"))
"""Vapour factors of the outermost layer and of all others; the pair that holds most water counts.

The others let most vapour in by the wet cup; the outermost keeps it in by the dry one, but not in wet wood.
"""

INSIDE = q("θ_i", "K", "room", low=213, high=373)
OUTSIDE = q("θ_e", "K", "outside air", low=213, high=373)
HUMIDITY = q("φ", "1", "relative humidity", low=0, high=1)


@formula("p_v = max(φ_i·p_sat(θ_i), φ_e·p_sat(θ_e))", ISO_13788_SURFACE)
def room_vapour(
    humidity: Annotated[Real, HUMIDITY],
    inside: Annotated[Real, INSIDE],
    outside_humidity: Annotated[Real, HUMIDITY],
    outside: Annotated[Real, OUTSIDE],
) -> Annotated[Real, q("p_v", "Pa", "vapour pressure of the room", low=0)]:
    """Vapour in a room that is aired from outside: what people leave in it, and never less than outside."""
    return np.maximum(
        humidity * saturation_pressure.function(inside),
        outside_humidity * saturation_pressure.function(outside),
    )


@formula("b = Δθ_u/Δθ_e", HEAT_BALANCE)
def unheated_share(
    fall_before: Annotated[Real, q("Δθ_u", "K", "room over the space beyond", low=-150, high=150)],
    whole_fall: Annotated[Real, q("Δθ_e", "K", "room over the outside air", low=1, high=150)],
) -> Annotated[Real, q("b", "1", "share of the fall to the outside air that lies before the space beyond")]:
    """How far a space that nobody heats follows the outside air; taken as the same in every month."""
    return fall_before / whole_fall


@formula("θ_u = θ_i − b·(θ_i − θ_e)", HEAT_BALANCE)
def unheated_in_month(
    inside: Annotated[Real, INSIDE],
    share: Annotated[Real, q("b", "1", "share of the fall to the outside air", low=-150, high=150)],
    outside: Annotated[Real, OUTSIDE],
) -> Annotated[Real, q("θ_u", "K", "space beyond, mean of the month")]:
    """Temperature of a space that nobody heats, in a month."""
    return inside - share * (inside - outside)


@formula("θ_i = max(θ_t, θ_e)", HEAT_BALANCE)
def warm_room(
    target: Annotated[Real, q("θ_t", "K", "target of the room", low=213, high=373)],
    outside: Annotated[Real, OUTSIDE],
) -> Annotated[Real, INSIDE]:
    """Room in a month: at its target, or as warm as the air outside."""
    return np.maximum(target, outside)


@dataclass(frozen=True)
class MonthAir:
    """Means of one month; ``sea`` is None where it is not given."""

    number: int
    days: float
    outside: Annotated[Real, OUTSIDE]
    sea: Annotated[Real | None, q("θ_w", "K", "sea")]
    humidity: Annotated[Real, q("φ_e", "1", "relative humidity outside")]


@dataclass(frozen=True)
class Condensation:
    """Water that gathers in a build-up in the course of a year.

    ``cups`` names the vapour factors taken: of the outermost layer, and of all others.
    """

    year: GlaserYear
    cups: tuple[str, str]
    condensate: Real
    dries: Real


def months_of(project: "Project") -> tuple[MonthAir, ...] | NotAssessed:
    """The year by months, from the table of months or the hours of the weather file."""
    conditions = project.conditions
    humidity = assumed("conditions.humidity_outside")
    if conditions is not None and conditions.weather is not None:
        return _of_hours(conditions.weather.outside_air, conditions.months or (), humidity)
    if conditions is None or not conditions.months:
        return NotAssessed(QUESTION, ("conditions.months",))
    rows = sorted(conditions.months, key=lambda row: float(row.month))
    if any(row.outside_air is None for row in rows):
        return NotAssessed(QUESTION, ("conditions.months.outside_air",))
    return tuple(
        MonthAir(int(row.month), DAYS[int(row.month) - 1], row.outside_air, row.sea, humidity)
        for row in rows
        if row.outside_air is not None
    )


def _of_hours(air: Sequence[float], rows: Sequence[object], humidity: Real) -> tuple[MonthAir, ...]:
    """Means of hours of a year that begins in January; the sea out of the table of months, if any."""
    seas = {int(getattr(row, "month", 0)): getattr(row, "sea", None) for row in rows}
    found, start = [], 0
    for number, days in enumerate(DAYS, 1):
        long = days + (number == 2 and len(air) > HOURS * sum(DAYS))  # noqa: PLR2004 - February of a leap year
        hours = air[start : start + HOURS * long]
        start += HOURS * long
        mean = solved(float(np.mean(hours)), OUTSIDE, "mean of the hours of the weather file", ARITHMETIC)
        found.append(MonthAir(number, long, mean, seas.get(number), humidity))
    return tuple(found)


def vapour_factor(layer: Layer, cup: str, own: Mapping[str, object]) -> Real | None:
    """Vapour resistance factor of a solid layer by the dry or the wet cup; None where it is not known."""
    if cup == "dry" or layer.name in own:
        return layer.vapour_factor
    return material(layer.name).vapour_factor_wet


def lacking_factors(worth: BuildUpWorth) -> tuple[str, ...]:
    """Keys of vapour factors that the file's own materials lack."""
    solid = (layer for layer in worth.layers if not layer.is_air)
    return tuple(
        dict.fromkeys(
            f"materials.{layer.name}.vapour_factor" for layer in solid if layer.vapour_factor is None
        )
    )


def _parts(
    worth: BuildUpWorth, cups: tuple[str, str], own: Mapping[str, object], *, is_tight: bool
) -> tuple[tuple[Part, ...], list[tuple[Quantity, Real]]]:
    """Layers as vapour meets them, from outside to inside, and the thicknesses of air they stand for."""
    resistances = worth.wall.resistances[1:-1]
    parts, given = [], []
    for place, (layer, resistance) in enumerate(zip(worth.layers, resistances, strict=True)):
        factor = None if layer.is_air else vapour_factor(layer, cups[min(place, 1)], own)
        if factor is None:
            thickness: Real = coefficient("envelope.air_layer_vapour_thickness")
        else:
            thickness = vapour_thickness(factor, layer.thickness)
        given.append((q("s_d", "m", f"diffusion-equivalent thickness of {layer.name}"), thickness))
        parts.append(Part(layer.name, float(resistance), float(thickness)))
    if is_tight:
        barrier = assumed("build_ups.vapour_barrier", f"build_ups.{worth.name}.vapour_tight")
        given.append((q("s_d", "m", "diffusion-equivalent thickness of the inner face"), barrier))
        parts.append(Part("vapour-tight inner face", 0.0, float(barrier)))
    return tuple(parts), given


def condensation(
    worth: BuildUpWorth,
    own: Mapping[str, object],
    months: Sequence[tuple[float, Real, Real, Real, Real]],
    *,
    is_tight: bool,
    mirrored: bool = False,
) -> Condensation:
    """Water in a build-up over the year, by the least favourable vapour factors.

    ``months`` holds days, room, temperature beyond (K), and the relative humidities of both. ``mirrored``
    where the warm room lies on the outer side of the build-up.
    """
    course = [Month(*(float(figure) for figure in _ordered(*month))) for month in months]
    films = (float(worth.films.outside), float(worth.films.inside))
    found: dict[tuple[Part, ...], tuple[GlaserYear, tuple[str, str], list[tuple[Quantity, Real]]]] = {}
    for cups in CUPS:
        parts, given = _parts(worth, cups, own, is_tight=is_tight)
        if parts not in found:
            turned = (parts[::-1], course, films[::-1]) if mirrored else (parts, course, films)
            found[parts] = (glaser_year(*turned), cups, given)
    year, cups, given = max(found.values(), key=lambda each: (not each[0].dries, each[0].peak))
    for number, (_, inside, beyond, _, _) in enumerate(months, 1):
        given += [(q("θ_i", "K", f"room, month {number}"), inside)]
        given += [(q("θ_e", "K", f"beyond, month {number}"), beyond)]
    text = f"month by month; vapour factors: outermost layer {cups[0]} cup, others {cups[1]} cup"
    return Condensation(
        year,
        cups,
        solved(year.peak, q("M_a", "kg/m2", "water in the build-up"), text, ISO_13788_GLASER, given),
        solved(float(year.dries), q("–", "1", "dries within the year"), text, ISO_13788_GLASER, given),
    )


def _ordered(days: float, inside: Real, beyond: Real, damp: Real, damp_beyond: Real) -> tuple[Real, ...]:
    return inside, beyond, damp, damp_beyond, days


def share_beyond(target: Real, beyond: Real, outside: Real) -> Real | None:
    """How far an unheated space follows the outside air, None where there is no fall to part."""
    if float(target) - float(outside) < 1:
        return None
    return unheated_share(fall(target, beyond), fall(target, outside))


def humidity_inside(project: "Project") -> Real:
    """Relative humidity of heated rooms: as stated, else as assumed."""
    conditions = project.conditions
    return stated_or_assumed(conditions.humidity_inside if conditions else None, "conditions.humidity_inside")
