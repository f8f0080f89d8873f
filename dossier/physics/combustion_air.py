"""Air that the flame needs, and what the way to the burner takes from it.

Masses of air to burn a fuel completely come out between 14.42 and 14.6 kg/kg, by the form of "air" (oxygen
by mass, argon counted or not); 14.5 is the common figure.
"""

from typing import Annotated

from dossier.data.fuels import AIR_RATIO
from dossier.data.sources import COMBUSTION, DEFINITION, HEAT_BALANCE, ORIFICE
from dossier.notation import Real, formula, q

EXCESS = q("λ", "1", "air over the stoichiometric air", low=1, high=10)
FUEL_RATE = q("m_f", "kg/s", "fuel burnt", low=0, high=0.01)
AIR_DENSITY = q("ρ", "kg/m3", "density of the air", low=0.8, high=1.6)
AIR_FLOW = q("q_V", "m3/s", "air flow", low=0, high=10)
AREA = q("A", "m2", "free area of the opening", low=1e-6, high=5)
CARBON = q("C", "1", "carbon by mass", low=0.7, high=0.95)
HYDROGEN = q("H", "1", "hydrogen by mass", low=0, high=0.3)
SULPHUR = q("S", "1", "sulphur by mass", low=0, high=0.05)
OXYGEN = q("O", "1", "oxygen by mass", low=0, high=0.3)


@formula("L_0 = 11.53 · C + 34.34 · (H − O/8) + 4.32 · S", COMBUSTION)
def stoichiometric_air(
    carbon: Annotated[Real, CARBON],
    hydrogen: Annotated[Real, HYDROGEN],
    sulphur: Annotated[Real, SULPHUR],
    oxygen: Annotated[Real, OXYGEN] = 0.0,
) -> Annotated[Real, q("L_0", "1", "air needed for each kilogram of fuel")]:
    """Air that burns a kilogram of fuel completely, by mass."""
    return 11.53 * carbon + 34.34 * (hydrogen - oxygen / 8) + 4.32 * sulphur


@formula(
    "x = (C/12.011 + S/32.06)/(n_d + (λ − 1) · n_O/0.2095), n_O = C/12.011 + H/4.032 + S/32.06, "
    "n_d = C/12.011 + S/32.06 + 0.7905 · n_O/0.2095",
    COMBUSTION,
)
def carbon_dioxide_dry(
    carbon: Annotated[Real, CARBON],
    hydrogen: Annotated[Real, HYDROGEN],
    sulphur: Annotated[Real, SULPHUR],
    excess: Annotated[Real, EXCESS],
) -> Annotated[Real, q("x", "1", "carbon dioxide in the dry gas by volume", low=0, high=0.25)]:
    """Carbon dioxide (with sulphur dioxide) in dry combustion gas: what a gas analyser shows."""
    made = carbon / 12.011 + sulphur / 32.06
    oxygen = made + hydrogen / 4.032
    return made / (made + 0.7905 * oxygen / 0.2095 + (excess - 1) * oxygen / 0.2095)


@formula("q_V = m_f · L_0 · λ/ρ", COMBUSTION)
def combustion_air_flow(
    fuel_rate: Annotated[Real, FUEL_RATE],
    stoichiometric: Annotated[Real, AIR_RATIO],
    excess: Annotated[Real, EXCESS],
    density: Annotated[Real, AIR_DENSITY],
) -> Annotated[Real, AIR_FLOW]:
    """Air that the burner draws."""
    return fuel_rate * stoichiometric * excess / density


@formula("q_V = Φ/(ρ · c_p · Δθ)", HEAT_BALANCE)
def cooling_air_flow(
    heat: Annotated[Real, q("Φ", "W", "heat given to the space", low=0, high=5e4)],
    density: Annotated[Real, AIR_DENSITY],
    specific_heat: Annotated[Real, q("c_p", "J/kgK", "specific heat of the air", low=990, high=1030)],
    rise: Annotated[Real, q("Δθ", "K", "rise of the air on its way through", low=0.5, high=100)],
) -> Annotated[Real, q("q_V", "m3/s", "air flow that carries the heat off", low=0)]:
    """Air that carries the heat of burner and engine out of their space at a rise of its temperature."""
    return heat / (density * specific_heat * rise)


@formula("q_V = Σq_i", DEFINITION)
def air_need(
    *flows: Annotated[Real, q("q_i", "m3/s", "air of burner, engine or cooling", low=0, high=10)],
) -> Annotated[Real, q("q_V", "m3/s", "air flow needed", low=0)]:
    """Air that combustion, engine and cooling need together."""
    total: Real = 0.0
    for flow in flows:
        total = total + flow
    return total


@formula("v = q_V/A", DEFINITION)
def opening_velocity(
    flow: Annotated[Real, AIR_FLOW], area: Annotated[Real, AREA]
) -> Annotated[Real, q("v", "m/s", "velocity through the free opening", low=0)]:
    """Velocity of the air through its opening."""
    return flow / area


@formula("A = q_V/v", DEFINITION)
def opening_needed(
    flow: Annotated[Real, AIR_FLOW],
    velocity: Annotated[Real, q("v", "m/s", "highest velocity through the opening", low=0.1, high=20)],
) -> Annotated[Real, q("A", "m2", "free area needed", low=0)]:
    """Free area that keeps the velocity."""
    return flow / velocity


@formula("Δp = ρ/2 · (q_V/(C_d · A))²", ORIFICE)
def opening_suction(
    flow: Annotated[Real, AIR_FLOW],
    area: Annotated[Real, AREA],
    density: Annotated[Real, AIR_DENSITY],
    discharge: Annotated[Real, q("C_d", "1", "discharge coefficient", low=0.3, high=1)],
) -> Annotated[Real, q("Δp", "Pa", "depression behind the opening", low=0)]:
    """Depression of a space whose air all comes through one opening."""
    return density / 2 * (flow / (discharge * area)) ** 2


@formula("A = A_1 + A_2 + …", DEFINITION)
def openings_together(
    *areas: Annotated[Real, q("A_1", "m2", "free area of one opening", low=0, high=5)],
) -> Annotated[Real, q("A", "m2", "free area of all openings", low=0)]:
    """Free area of several openings to the outside."""
    total: Real = 0.0
    for area in areas:
        total = total + area
    return total
