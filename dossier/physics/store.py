"""How long the burner runs and rests: closed forms for a store that is heated and drawn between two marks.

    Δθ_s = band, with the sensor in store or return; outlet_swing(...) with the sensor at the burner outlet
    t_on = running_time(C, Δθ_s, surplus)          t_off = pause(C, Δθ_s, load)
    t_off' = pause_with_restart(t_off, …)          t_on' = running_time_after(load, t_off', surplus)
    n = starts_per_hour(t_on, t_off)

Δθ_s is the swing of the store, not of the sensor: at the outlet the burner's own rise stops it early, and if
that rise fills the band one passage of the ring is the whole run, however large the store.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import BURNER_CYCLES
from dossier.notation import Real, formula, q

HEAT_CAPACITY = q("C", "J/K", "heat capacity that moves", low=1, high=1e9)
BAND = q("Δθ", "K", "switching band", low=0.5, high=60)
SWING = q("Δθ_s", "K", "swing of the store", low=-200, high=100)
OUTPUT = q("Φ_on", "W", "output of the burner", low=1, high=1e6)
LOAD = q("Φ_L", "W", "load", low=0.01, high=1e6)
SURPLUS = q("Φ_Δ", "W", "output over the load", low=0.01, high=1e6)
PAUSE = q("t_off", "s", "pause", low=0, high=1e9)
WAIT = q("t_w", "s", "least pause: after-run and start time", low=0, high=1e5)


@formula("C_i = m · c", BURNER_CYCLES)
def heat_capacity(
    mass: Annotated[Real, q("m", "kg", "mass", low=0, high=1e5)],
    specific_heat: Annotated[Real, q("c", "J/kgK", "specific heat", low=100, high=5000)],
) -> Annotated[Real, q("C_i", "J/K", "heat capacity of a part", low=0)]:
    """Heat capacity of metal or fluid by its mass."""
    return mass * specific_heat


@formula("C_i = V · x · ρ · c_p", BURNER_CYCLES)
def fluid_heat_capacity(
    volume: Annotated[Real, q("V", "m3", "volume of fluid", low=0, high=100)],
    density: Annotated[Real, q("ρ", "kg/m3", "density of the fluid", low=700, high=1200)],
    specific_heat: Annotated[Real, q("c_p", "J/kgK", "specific heat of the fluid", low=1500, high=4500)],
    share: Annotated[Real, q("x", "1", "share that mixes", low=0, high=1)] = 1.0,
) -> Annotated[Real, q("C_i", "J/K", "heat capacity of a part", low=0)]:
    """Heat capacity of fluid by its volume; of a store the share that mixes."""
    return volume * share * density * specific_heat


@formula("C = ΣC_i", BURNER_CYCLES)
def total_heat_capacity(
    *parts: Annotated[Real, q("C_i", "J/K", "heat capacity of a part", low=0, high=1e9)],
) -> Annotated[Real, q("C", "J/K", "heat capacity that moves", low=0)]:
    """Heat capacity of all fluid and metal that move in a mode."""
    total: Real = 0.0
    for part in parts:
        total = total + part
    return total


@formula("Δθ_s = Δθ − Φ_on/Ċ", BURNER_CYCLES)
def outlet_swing(
    band: Annotated[Real, BAND],
    output: Annotated[Real, OUTPUT],
    rate: Annotated[Real, q("Ċ", "W/K", "capacity rate through the burner", low=1, high=1e5)],
) -> Annotated[Real, q("Δθ_s", "K", "swing of the store")]:
    """Swing of the store where the sensor sits at the burner outlet; 0 or less: the rise fills the band."""
    return band - output / rate


@formula("Φ_Δ = Φ_on − Φ_L", BURNER_CYCLES)
def surplus(
    output: Annotated[Real, OUTPUT],
    load: Annotated[Real, q("Φ_L", "W", "load", low=0, high=1e6)],
) -> Annotated[Real, q("Φ_Δ", "W", "output over the load")]:
    """Output over the load; where it is not positive the burner never stops."""
    return output - load


@formula("t_on = C · max(Δθ_s, 0)/Φ_Δ", BURNER_CYCLES)
def running_time(
    capacity: Annotated[Real, HEAT_CAPACITY],
    swing: Annotated[Real, SWING],
    surplus: Annotated[Real, SURPLUS],
) -> Annotated[Real, q("t_on", "s", "burner run", low=0)]:
    """Time from start to stop; the shortest run has the whole output as surplus."""
    return capacity * np.maximum(swing, 0.0) / surplus


@formula("t_V = V/q_V", BURNER_CYCLES)
def passage_time(
    volume: Annotated[Real, q("V", "m3", "volume of the ring", low=0, high=100)],
    flow: Annotated[Real, q("q_V", "m3/s", "flow round the ring", low=1e-7, high=1)],
) -> Annotated[Real, q("t_V", "s", "passage of the ring", low=0)]:
    """Time the water takes once round."""
    return volume / flow


@formula("t_on = t_s + t_V", BURNER_CYCLES)
def run_with_passage(
    store_run: Annotated[Real, q("t_s", "s", "run until the store has swung", low=0, high=1e9)],
    passage: Annotated[Real, q("t_V", "s", "passage of the ring", low=0, high=1e6)],
) -> Annotated[Real, q("t_on", "s", "burner run", low=0)]:
    """Burner run with the sensor at its outlet: one passage longer."""
    return store_run + passage


@formula("t_off = C · max(Δθ_s, 0)/Φ_L", BURNER_CYCLES)
def pause(
    capacity: Annotated[Real, HEAT_CAPACITY],
    swing: Annotated[Real, SWING],
    load: Annotated[Real, LOAD],
) -> Annotated[Real, q("t_off", "s", "pause", low=0)]:
    """Time from stop to the wish to start again."""
    return capacity * np.maximum(swing, 0.0) / load


@formula("t_w = t_n + t_a", BURNER_CYCLES)
def restart_wait(
    after_run: Annotated[Real, q("t_n", "s", "after-run", low=0, high=3600)],
    start_time: Annotated[Real, q("t_a", "s", "start time", low=0, high=3600)],
) -> Annotated[Real, q("t_w", "s", "least pause: after-run and start time", low=0)]:
    """Least time from stop to flame, where a restart does not break into the after-run."""
    return after_run + start_time


@formula("t_off = max(t_0, t_w)", BURNER_CYCLES)
def pause_with_restart(
    plain: Annotated[Real, q("t_0", "s", "pause of the band alone", low=0, high=1e9)],
    wait: Annotated[Real, WAIT],
) -> Annotated[Real, q("t_off", "s", "pause", low=0)]:
    """Pause once the burner's own restart time is counted: the ring may cool further than the band."""
    return np.maximum(plain, wait)


@formula("t_on = Φ_L · t_off/Φ_Δ", BURNER_CYCLES)
def running_time_after(
    load: Annotated[Real, q("Φ_L", "W", "load", low=0, high=1e6)],
    pause: Annotated[Real, PAUSE],
    surplus: Annotated[Real, SURPLUS],
) -> Annotated[Real, q("t_on", "s", "burner run", low=0)]:
    """Burner run that makes up for what a pause has drawn."""
    return load * pause / surplus


@formula("Δθ_s = Φ_L · t_off/C", BURNER_CYCLES)
def swing_of_pause(
    load: Annotated[Real, q("Φ_L", "W", "load", low=0, high=1e6)],
    pause: Annotated[Real, PAUSE],
    capacity: Annotated[Real, HEAT_CAPACITY],
) -> Annotated[Real, q("Δθ_s", "K", "swing of the store", low=0)]:
    """How far the store cools in a pause."""
    return load * pause / capacity


@formula("n = 3600 · 1/(t_on + t_off)", BURNER_CYCLES)
def starts_per_hour(
    run: Annotated[Real, q("t_on", "s", "burner run", low=1e-3, high=1e9)],
    pause: Annotated[Real, PAUSE],
) -> Annotated[Real, q("n", "1/h", "starts per hour", low=0)]:
    """Burner starts per hour of steady cycling."""
    return 3600 / (run + pause)


@formula("Φ_w = min(Φ_on/2, C · Δθ_s/t_w)", BURNER_CYCLES)
def worst_load(
    capacity: Annotated[Real, HEAT_CAPACITY],
    swing: Annotated[Real, q("Δθ_s", "K", "swing of the store", low=0.01, high=100)],
    output: Annotated[Real, OUTPUT],
    wait: Annotated[Real, WAIT] = 0.0,
) -> Annotated[Real, q("Φ_w", "W", "load with the most starts", low=0)]:
    """Load at which the burner starts most often: half its output, less where a restart must wait."""
    return np.minimum(output / 2, capacity * swing / np.maximum(wait, 1e-9))


@formula("n = 3600/(C · Δθ_s/(Φ_on − Φ_w) + C · Δθ_s/Φ_w), Φ_w = min(Φ_on/2, C · Δθ_s/t_w)", BURNER_CYCLES)
def most_starts(
    capacity: Annotated[Real, HEAT_CAPACITY],
    swing: Annotated[Real, q("Δθ_s", "K", "swing of the store", low=0.01, high=100)],
    output: Annotated[Real, OUTPUT],
    wait: Annotated[Real, WAIT] = 0.0,
) -> Annotated[Real, q("n", "1/h", "starts per hour", low=0)]:
    """Starts per hour at the worst load: Φ_on/(4 · C · Δθ_s) in an hour where no restart waits."""
    worst = worst_load.function(capacity, swing, output, wait)
    return 3600 * worst * (output - worst) / (capacity * swing * output)


@formula("V = max(t · Φ_Δ/Δθ_s − C, 0)/(ρc · x)", BURNER_CYCLES)
def store_volume_needed(
    run: Annotated[Real, q("t", "s", "least running time", low=0, high=1e5)],
    surplus: Annotated[Real, SURPLUS],
    swing: Annotated[Real, q("Δθ_s", "K", "swing of the store", low=0.5, high=100)],
    volumetric: Annotated[Real, q("ρc", "J/m3K", "heat capacity of a volume of fluid", low=1e6, high=5e6)],
    present: Annotated[Real, q("C", "J/K", "heat capacity already there", low=0, high=1e9)] = 0.0,
    share: Annotated[Real, q("x", "1", "share of the store that mixes", low=0.1, high=1)] = 1.0,
) -> Annotated[Real, q("V", "m3", "volume of the store needed", low=0)]:
    """Volume of a store, beyond what moves already, that gives a least running time."""
    return np.maximum(run * surplus / swing - present, 0.0) / (volumetric * share)


@formula("Φ_m = Φ_on · t_on/(t_on + t_off)", BURNER_CYCLES)
def mean_output(
    output: Annotated[Real, OUTPUT],
    run: Annotated[Real, q("t_on", "s", "burner run", low=1e-3, high=1e9)],
    pause: Annotated[Real, PAUSE],
) -> Annotated[Real, q("Φ_m", "W", "mean output over a cycle", low=0)]:
    """Mean output of a burner that cycles: with a restart to wait for it may not carry the load."""
    return output * run / (run + pause)
