"""Writes what pint reads of the list of units, so that a project file is read without it.

``python -m dossier.project.unit_table`` renews ``dossier/data/unit_sizes.csv`` after a change of
``dossier/data/units.txt``; a test fails until it has been run.
"""

import csv
import io
from fractions import Fraction

import pint

from dossier.data.tables import FOLDER

LIST, TABLE = FOLDER / "units.txt", FOLDER / "unit_sizes.csv"
HEAD = ("name", "scale", "offset", "dimension", "source")
REMARK = (
    "# SI value = figure * scale + offset, exactly; "
    "written by python -m dossier.project.unit_table, not by hand.\n"
)


def unit_table() -> str:
    """The table as text: one row for every name and symbol of ``units.txt``, in the order of the alphabet."""
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(LIST, non_int_type=Fraction)
    written = io.StringIO()
    written.write(REMARK)
    table = csv.writer(written, lineterminator="\n")
    table.writerow(HEAD)
    for name in sorted(name for name in registry if not name.startswith(("Δ", "delta_"))):
        one = registry.Quantity(Fraction(1), name).to_base_units()
        zero = Fraction(registry.Quantity(Fraction(0), name).to_base_units().magnitude)
        powers = sorted((str(base), int(power.real)) for base, power in one.dimensionality.items())
        dimension = " ".join(f"{base}^{power}" for base, power in powers)
        table.writerow([name, Fraction(one.magnitude) - zero, zero, dimension, f"{LIST.name}, read by pint"])
    return written.getvalue()


if __name__ == "__main__":
    TABLE.write_text(unit_table(), encoding="utf-8")
