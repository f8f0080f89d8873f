"""How hot can the tap get? The hottest moment of any mode, at a trickle, and what a mixing valve leaves."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from dossier.data.sources import HEAT_BALANCE, SCALD_TIMES
from dossier.notation import Real, chosen, q
from dossier.physics.scald import COOLEST, scald_time
from dossier.sizing.extremes import greatest_of, least_of
from dossier.sizing.tap_modes import TapMode

if TYPE_CHECKING:
    from dossier.project import Project

HIGHEST = q("θ", "K", "highest temperature")


def exchanger_highest(units: Sequence[Any], modes: Mapping[str, Sequence[TapMode]]) -> Real | None:
    """Highest temperature (K) leaving any exchanger or store: that of the hottest primary, at a trickle.

    A store whose own thermostat works by itself gets no hotter than its setpoint. None where no mode in
    which warm water passes any of them was solved.
    """
    found: list[Real] = []
    for unit in units:
        hottest = [mode.hottest for mode in modes.get(unit.tag, ())]
        if not hottest:
            continue
        most = greatest_of(HIGHEST, "hottest of all modes", *hottest)
        kept = unit.setpoint if unit.kind == "water_heater" and unit.automatic else None
        found.append(most if kept is None else least_of(HIGHEST, "its thermostat stops it", most, kept))
    if not found:
        return None
    return greatest_of(HIGHEST, "a trickle leaves as hot as the primary", *found)


def valve_is_fitted(project: "Project") -> bool | None:
    """Whether a mixing valve stands before the taps; None where nobody says.

    Where the circuit and the tap water are both written out, a valve that is not among them is not aboard.
    """
    tap: Any = project.tap_water or None
    if tap is not None and tap.mixing_valve:
        return True
    if tap is None:
        return None
    if tap.mixing_valve is not None or (project.circuit is not None and project.circuit.ring):
        return False
    return None


def outlet_highest(project: "Project", highest: Real | None) -> Real | None:
    """Highest temperature (K) at the tap: the setting of the mixing valve, else that of the exchanger."""
    fitted = valve_is_fitted(project)
    if fitted:
        valve: Real = project.tap_water.mixing_valve  # type: ignore[union-attr, assignment]  # it is fitted
        known = [valve] if highest is None else [valve, highest]
        return least_of(HIGHEST, "the mixing valve lets no hotter water pass", *known)
    if highest is None or fitted is None:
        return None
    return chosen(float(highest), HIGHEST, "no mixing valve", HEAT_BALANCE, highest)


def time_to_scald(outlet: Real) -> Real:
    """Time (s) to a scald at the tap; water too cool to burn within six hours counts as if it then did."""
    if float(outlet) < COOLEST:
        burning = q("θ", "K", "water on the skin")
        outlet = chosen(COOLEST, burning, "cooler water burns later still", SCALD_TIMES, outlet)
    return scald_time(outlet)
