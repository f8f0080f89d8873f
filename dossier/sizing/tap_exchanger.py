"""What can an exchanger give the tap? Plates and coils by their rated points.

The rated point holds for water on both sides; the conductance found from it is kept at all flows.
"""

from typing import Annotated, Any

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotAssessed, Real, q, solved
from dossier.notation.records import dataclass
from dossier.physics import tap_exchanger as forms
from dossier.physics.exchanger import Arrangement, capacity_rate
from dossier.physics.fluid import water
from dossier.physics.rated_point import rated_conductance

QUESTION = "What can the exchanger give the tap?"
FLOW = q("q_V", "m3/s", "flow at the wanted temperature")


@dataclass(frozen=True)
class TapExchanger:
    """An exchanger or coil by its rated point."""

    tag: str
    kind: str
    conductance: Annotated[Real, q("UA", "W/K", "conductance of the exchanger")]

    def held_flow(self, primary: Real, entering: Real, cold: Real, wanted: Real) -> Real:
        """Largest tap flow (m3/s) that plates hold at the wanted temperature.

        ``primary`` (W/K) is the capacity rate of the primary, which enters at ``entering`` (K).
        """
        if float(entering) <= float(wanted):
            given = [(forms.PRIMARY, entering), (q("θ_t", "K", "wanted at the tap"), wanted)]
            return solved(0.0, FLOW, "the primary is not warm enough", HEAT_BALANCE, given)
        reach, rise = forms.fall(entering, cold), forms.fall(wanted, cold)
        return forms.flow_of_plates(self.conductance, primary, reach, rise, heat_of_water(cold, wanted))

    def passed(self, primary: Real, tap: Real) -> Real:
        """Heat passed for each kelvin between primary and cold water (W/K) at two capacity rates."""
        if self.kind == "water_heater":
            return forms.passed_by_coil(self.conductance, primary)
        return forms.passed_by_plates(self.conductance, primary, tap)


def tap_exchanger(tag: str, unit: Any) -> TapExchanger | NotAssessed:
    """An exchanger from its rated point; raises ``ImpossibleRating`` where that asks for too much."""
    key, at = f"components.{tag}", unit.at
    needs = [] if unit.output is not None else [f"{key}.output"]
    needs += [
        f"{key}.at.{name}"
        for name in ("primary_in", "primary_flow", "tap_in", "tap_flow")
        if at is None or getattr(at, name) is None
    ]
    if needs:
        return NotAssessed(QUESTION, tuple(needs))
    liquid = water()
    primary = capacity_rate(
        at.primary_flow, liquid.density(at.primary_in), liquid.specific_heat(at.primary_in)
    )
    tap = capacity_rate(at.tap_flow, liquid.density(at.tap_in), liquid.specific_heat(at.tap_in))
    found = rated_conductance(Arrangement.COUNTERFLOW, unit.output, primary, tap, at.primary_in, at.tap_in)
    return TapExchanger(tag, unit.kind, found)


def heat_of_water(cold: Real, hot: Real) -> Real:
    """Heat capacity of a volume of tap water between two temperatures (J/m3K)."""
    liquid, mean = water(), forms.mean_temperature(cold, hot)
    return forms.volumetric_heat(liquid.density(mean), liquid.specific_heat(mean))
