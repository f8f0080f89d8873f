"""The fluid tables: sets by name, their ranges, and that the script beside them renews them."""

import csv
import subprocess
import sys

import pytest

from dossier.data.fluid_tables import PROPERTIES, fluid_set, fluid_sets, fluid_table, glycol, share_pairs
from dossier.data.fluids.generate_fluid_tables import write
from dossier.data.tables import rows

MIXES = [key for key, data_set in fluid_sets().items() if data_set.is_mix]


def test_inhibited_propylene_glycol_is_named_with_its_count_and_its_source():
    printed = "propylene glycol, inhibited, by volume (ASHRAE Fundamentals 2001 as carried in CoolProp APG)"
    assert str(fluid_set("propylene glycol")) == printed


def test_pure_glycol_is_counted_by_mass_and_inhibited_by_volume():
    assert {(s.inhibited, s.by) for s in fluid_sets().values() if s.is_mix} == {
        (True, "volume"),
        (False, "mass"),
    }


def test_water_is_water_whether_inhibited_or_not():
    assert fluid_set("water", inhibited=True) is fluid_set("water", inhibited=False)


def test_an_unknown_base_is_answered_with_the_known_ones():
    with pytest.raises(ValueError, match="water, ethylene glycol, propylene glycol"):
        fluid_set("methanol")


@pytest.mark.parametrize("key", MIXES)
def test_isotherms_begin_on_the_freezing_line_and_end_at_the_largest_share(key):
    table, data_set = fluid_table(key), fluid_sets()[key]
    for isotherm in table.isotherms:
        assert (isotherm.nodes[1:] > isotherm.nodes[:-1]).all()
        assert isotherm.nodes[-1] == data_set.shares[1]
        crosses = table.freezing_points[0] > isotherm.temperature >= table.freezing_points[-1]
        assert (isotherm.nodes[0] > data_set.shares[0]) == crosses
    assert table.line.shape[0] == len(PROPERTIES)


@pytest.mark.parametrize("key", MIXES)
def test_more_glycol_freezes_later(key):
    table = fluid_table(key)
    assert (table.freezing_points[1:] < table.freezing_points[:-1]).all()


@pytest.mark.parametrize("base", ["ethylene glycol", "propylene glycol"])
def test_pairs_of_shares_rise_together(base):
    by_mass, by_volume = share_pairs(base)
    assert (by_mass[1:] > by_mass[:-1]).all()
    assert (by_volume[1:] > by_volume[:-1]).all()


def test_figures_of_an_unknown_glycol_are_refused():
    with pytest.raises(ValueError, match="methanol"):
        glycol("methanol")


@pytest.mark.parametrize("key", ["water", "propylene_glycol_inhibited"])
def test_the_script_beside_the_tables_renews_them(key, tmp_path):
    """Against CoolProp at test time; another version of it may move the last digits."""
    (row,) = (row for row in rows("fluids/sets") if row["key"] == key)
    write(row, tmp_path)
    for written in tmp_path.iterdir():
        with written.open(encoding="utf-8", newline="") as file:
            renewed = list(csv.DictReader(file))
        kept = rows(f"fluids/{written.stem}")
        assert len(kept) == len(renewed)
        for old, new in zip(kept, renewed, strict=True):
            for name in ("share", "temperature", "freezing_point", *PROPERTIES):
                if old.get(name):
                    assert float(new[name]) == pytest.approx(float(old[name]), rel=1e-4)


def test_the_tables_are_read_without_the_library_they_came_from():
    program = (
        "import sys; from dossier.physics.fluid import coolant;"
        "coolant('propylene glycol', 0.4).density(300.0);"
        "raise SystemExit('CoolProp' in sys.modules or 'scipy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
