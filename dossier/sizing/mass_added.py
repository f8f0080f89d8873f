"""How much heavier does another layout make the boat, where not every part of the system is weighed?"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

from dossier.data.sources import MASS_BALANCE
from dossier.notation import NotAssessed, Real, formula, q
from dossier.sizing.masses import CAN_BE_HEAVY, NOT_OF_THE_SYSTEM, total_mass

if TYPE_CHECKING:
    from dossier.project.model import Component
    from dossier.sizing.study import Study


@formula("Δm = m_2 − m_1", MASS_BALANCE)
def mass_difference(
    first: Annotated[Real, q("m_1", "kg", "filled mass as it stands", low=0, high=1e6)],
    second: Annotated[Real, q("m_2", "kg", "filled mass of the other", low=0, high=1e6)],
) -> Annotated[Real, q("Δm", "kg", "mass more, filled")]:
    """Mass by which one system is heavier than another."""
    return second - first


@formula("Δm = m_+ − m_− + ρ · (V_2 − V_1)", MASS_BALANCE)
def mass_of_changes(
    added: Annotated[Real, q("m_+", "kg", "dry mass of the parts added", low=0, high=1e6)],
    left_out: Annotated[Real, q("m_−", "kg", "dry mass of the parts left out", low=0, high=1e6)],
    density: Annotated[Real, q("ρ", "kg/m3", "density of the coolant", low=900, high=1200)],
    first: Annotated[Real, q("V_1", "m3", "coolant as it stands", low=0, high=50)],
    second: Annotated[Real, q("V_2", "m3", "coolant of the other", low=0, high=50)],
) -> Annotated[Real, q("Δm", "kg", "mass more, filled")]:
    """Mass by which parts added and left out, and their coolant, make a system heavier."""
    return added - left_out + density * (second - first)


def mass_added(base: "Study", other: "Study") -> Real | None:
    """Mass (kg, filled) by which another layout is heavier; negative where it is lighter.

    The difference of the whole systems where every part of both is weighed; else that of the parts added and
    left out with the coolant. A part without a mass weighs at least the metal it holds. None where a heavy
    part tells neither, or the coolant is not known.
    """
    whole = [_whole(study) for study in (base, other)]
    if whole[0] is not None and whole[1] is not None:
        return mass_difference(whole[0], whole[1])
    before, after = base.project.components or {}, other.project.components or {}
    added, left_out = _beyond(after, before), _beyond(before, after)
    one, mix = base.coolant, other.coolant
    if added is None or left_out is None or isinstance(one, NotAssessed) or isinstance(mix, NotAssessed):
        return None
    if one.volume is None or mix.volume is None:
        return None
    return mass_of_changes(added, left_out, mix.density, one.volume, mix.volume)


def _whole(study: "Study") -> Real | None:
    """Filled mass of a system all of whose heavy parts are weighed."""
    masses = study.masses
    return None if isinstance(masses, NotAssessed) or masses.unweighed else masses.filled


def _beyond(these: "Mapping[str, Component]", those: "Mapping[str, Component]") -> Real | None:
    """Dry mass of the parts of one list that the other lacks; None where a heavy one tells none."""
    own = [part for tag, part in these.items() if tag not in those and part.kind not in NOT_OF_THE_SYSTEM]
    known = [mass for part in own if (mass := part.metal if part.mass is None else part.mass) is not None]
    silent = any(part.mass is None and part.metal is None and part.kind in CAN_BE_HEAVY for part in own)
    return None if silent else total_mass(*known)
