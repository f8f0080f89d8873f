"""One number over another, where a limit is a share."""

from typing import Annotated

from dossier.notation import ARITHMETIC, Real, formula, q


@formula("r = q_1/q_2", ARITHMETIC)
def flow_ratio(
    one: Annotated[Real, q("q_1", "m3/s", "flow", low=-10, high=10)],
    other: Annotated[Real, q("q_2", "m3/s", "flow it is compared with", low=1e-12, high=10)],
) -> Annotated[Real, q("r", "1", "one over the other")]:
    """One flow over another."""
    return one / other


@formula("d = q_1/q_2 − 1", ARITHMETIC)
def flow_deviation(
    one: Annotated[Real, q("q_1", "m3/s", "flow measured", low=0, high=10)],
    other: Annotated[Real, q("q_2", "m3/s", "flow expected", low=1e-12, high=10)],
) -> Annotated[Real, q("d", "1", "deviation")]:
    """How far a measured flow lies over the expected one; negative where it lies under it."""
    return one / other - 1


@formula("r = K_v/K_vs", ARITHMETIC)
def kv_ratio(
    preset: Annotated[Real, q("K_v", "m3/h", "preset", low=0, high=1000)],
    full: Annotated[Real, q("K_vs", "m3/h", "fully open", low=1e-9, high=1000)],
) -> Annotated[Real, q("r", "1", "share of the full flow factor")]:
    """Preset over the full flow factor."""
    return preset / full


@formula("r = Δp_1/Δp_2", ARITHMETIC)
def pressure_ratio(
    one: Annotated[Real, q("Δp_1", "Pa", "pressure", low=-1e7, high=1e7)],
    other: Annotated[Real, q("Δp_2", "Pa", "pressure it is compared with", low=1e-6, high=1e7)],
) -> Annotated[Real, q("r", "1", "one over the other")]:
    """One pressure over another."""
    return one / other


@formula("r = V_1/V_2", ARITHMETIC)
def volume_ratio(
    one: Annotated[Real, q("V_1", "m3", "volume", low=0, high=100)],
    other: Annotated[Real, q("V_2", "m3", "volume it is compared with", low=1e-12, high=100)],
) -> Annotated[Real, q("r", "1", "one over the other")]:
    """One volume over another."""
    return one / other


@formula("r = Φ_1/Φ_2", ARITHMETIC)
def heat_ratio(
    one: Annotated[Real, q("Φ_1", "W", "heat", low=-1e7, high=1e7)],
    other: Annotated[Real, q("Φ_2", "W", "heat it is compared with", low=1e-6, high=1e7)],
) -> Annotated[Real, q("r", "1", "one over the other")]:
    """One heat flow over another."""
    return one / other


@formula("q_p = q_V/N", ARITHMETIC)
def air_for_each(
    flow: Annotated[Real, q("q_V", "m3/s", "outside air", low=0, high=50)],
    people: Annotated[Real, q("N", "1", "people", low=1, high=500)],
) -> Annotated[Real, q("q_p", "m3/s", "outside air for one person")]:
    """Outside air for each person."""
    return flow / people
