"""Renews the fluid tables beside this script from CoolProp; run by hand, never by the program.

    python -m dossier.data.fluids.generate_fluid_tables [FOLDER]

For each row of ``sets.csv`` it writes ``KEY.csv``: density, specific heat, conductivity and viscosity of the
liquid on a grid of 2.5 % in share and 5 K in temperature; and for a mix ``KEY_freezing.csv``: freezing point
and the same properties along the freezing line, at each share of the grid and wherever the line crosses a
temperature of the grid. With both, a reader interpolates right down to the freezing line and never beyond it.
"""

import csv
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import numpy as np

from dossier.data.fluid_tables import ON_THE_LINE
from dossier.data.tables import rows

SHARE_STEP = 0.025
TEMPERATURE_STEP = 5.0
BESIDE_FREEZING = 1e-6
"""Distance kept from the freezing line, at and below which the library refuses (K)."""
ATMOSPHERE = 101325.0
TRIPLE_POINT = 273.16
MIX_PRESSURE = 3e5
"""Without meaning: the library holds its mixes incompressible, and only wants a liquid."""

PROPERTIES = ("density", "specific_heat", "conductivity", "viscosity")


class LibraryFluid:
    """One fluid of the library, at one pressure rule."""

    def __init__(self, name: str) -> None:
        from CoolProp import CoolProp as library  # noqa: N813, PLC0415 - only this script needs the library

        backend, fluid = name.split("::")
        self.is_mix = backend == "INCOMP"
        self.version = f"CoolProp {library.get_global_param_string('version')}"
        self._library: Any = library
        self._state: Any = library.AbstractState(backend, fluid)

    def hold(self, share: float) -> None:
        """Set the share of a mix; each fluid counts by mass or by volume, and the library knows which."""
        if self.is_mix:
            try:
                self._state.set_mass_fractions([share])
            except ValueError:
                self._state.set_volu_fractions([share])

    def freezing_point(self, share: float) -> float:
        """Temperature at which the first ice appears (K)."""
        self.hold(share)
        return float(self._state.keyed_output(self._library.iT_freeze))

    def properties(self, share: float, temperature: float) -> tuple[float, ...]:
        """Density, specific heat, conductivity and viscosity of the liquid."""
        state, library = self._state, self._library
        if self.is_mix:
            self.hold(share)
            state.update(library.PT_INPUTS, MIX_PRESSURE, temperature)
        else:
            state.update(library.QT_INPUTS, 0, max(temperature, TRIPLE_POINT))
            if state.p() < ATMOSPHERE:
                # At 101.325 kPa water melts 2.5 mK above 0 °C; the library would refuse 0 °C itself.
                library.set_config_bool(library.DONT_CHECK_PROPERTY_LIMITS, temperature < TRIPLE_POINT)
                state.update(library.PT_INPUTS, ATMOSPHERE, temperature)
                library.set_config_bool(library.DONT_CHECK_PROPERTY_LIMITS, False)  # noqa: FBT003 - no keyword
        return state.rhomass(), state.cpmass(), state.conductivity(), state.viscosity()


def _steps(low: float, high: float, step: float) -> list[float]:
    return [round(low + i * step, 10) for i in range(round((high - low) / step) + 1)]


def freezing_shares(fluid: LibraryFluid, row: Mapping[str, str]) -> list[float]:
    """Shares of the freezing line: those of the grid, and where the line crosses its temperatures."""
    low, high = float(row["share_low"]), float(row["share_high"])
    coldest = float(row["temperature_low"])
    fine = np.linspace(low, high, 2001)
    line = np.array([fluid.freezing_point(share) for share in fine])
    if (np.diff(line) >= 0).any():
        raise ValueError(f"the freezing line of {row['key']} does not fall with the share")
    crossed = [t for t in _steps(coldest, 273.15, TEMPERATURE_STEP) if line[-1] <= t <= line[0]]
    crossings = [round(float(np.interp(-t, -line, fine)), 7) for t in crossed]
    return sorted({*_steps(low, high, SHARE_STEP), *crossings})


def grid(fluid: LibraryFluid, row: Mapping[str, str]) -> Iterator[tuple[float, float, tuple[float, ...]]]:
    """Share, temperature and properties wherever the mix is liquid."""
    shares = _steps(float(row["share_low"]), float(row["share_high"]), SHARE_STEP)
    temperatures = _steps(float(row["temperature_low"]), float(row["temperature_high"]), TEMPERATURE_STEP)
    for share in shares:
        freezing = fluid.freezing_point(share) if fluid.is_mix else 0.0
        for temperature in temperatures:
            if temperature > freezing + BESIDE_FREEZING:
                yield share, temperature, fluid.properties(share, temperature)


def _written(numbers: tuple[float, ...]) -> list[str]:
    return [f"{number:.7g}" for number in numbers]


def write(row: Mapping[str, str], folder: Path) -> None:
    """Write the tables of one data set into a folder."""
    fluid = LibraryFluid(row["library"])
    source = f"{row['source'].split(' as carried')[0]}, {fluid.version} {row['library']}"
    with (folder / f"{row['key']}.csv").open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(["share", "temperature", *PROPERTIES, "source"])
        for share, temperature, found in grid(fluid, row):
            table.writerow([f"{share:g}", f"{temperature:g}", *_written(found), source])
    if not fluid.is_mix:
        return
    with (folder / f"{row['key']}_freezing.csv").open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(["share", "freezing_point", *PROPERTIES, "source"])
        for share in freezing_shares(fluid, row):
            freezing = fluid.freezing_point(share)
            # The set may end above its freezing line: there only the freezing point is known.
            coldest = float(row["temperature_low"])
            beside = None
            if freezing >= coldest - ON_THE_LINE:
                beside = fluid.properties(share, max(freezing, coldest) + BESIDE_FREEZING)
            texts = _written(beside) if beside else [""] * len(PROPERTIES)
            table.writerow([f"{share:.7g}", f"{freezing:.7g}", *texts, source])


if __name__ == "__main__":
    for one_set in rows("fluids/sets"):
        write(one_set, Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent)
