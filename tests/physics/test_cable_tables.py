"""Cable tables at their edges: never beyond the table, always the safer row."""

import pytest

from dossier.data.cables import (
    fuse_sizes,
    resistance_per_metre,
    sections,
    tabled_current,
)
from dossier.notation import Line, OutOfRange, Row, Traced, lines_behind, origins_behind
from dossier.physics.cable import ampacity, smallest_section

KELVIN = 273.15


def test_section_between_two_rows_counts_as_the_thinner():
    assert tabled_current(3.3e-6, 105 + KELVIN) == tabled_current(2.5e-6, 105 + KELVIN)


def test_insulation_between_two_rows_counts_as_the_cooler():
    assert tabled_current(2.5e-6, 80 + KELVIN) == tabled_current(2.5e-6, 70 + KELVIN)


def test_section_from_a_product_of_lengths_still_finds_its_row():
    assert tabled_current(2.5e-6 * (1 - 1e-9), 105 + KELVIN) == 35


@pytest.mark.parametrize("table", ["iso", "us"])
def test_below_the_table_is_a_fault_that_names_its_line(table):
    section = Traced(0.5e-6, Line("electrics.circuits.fans.section", "0.5 mm2", line=140))
    with pytest.raises(
        OutOfRange, match=r"ampacity table .* electrics\.circuits\.fans\.section \(line 140\)"
    ):
        tabled_current(section, 105 + KELVIN, table)
    with pytest.raises(OutOfRange, match="rating of the insulation"):
        tabled_current(2.5e-6, 50 + KELVIN, table)


def test_unknown_table_is_our_own_fault():
    with pytest.raises(KeyError):
        tabled_current(2.5e-6, 105 + KELVIN, "none such")


def test_ampacity_names_its_rows():
    found = ampacity(2.5e-6, 105 + KELVIN, engine_space=True, bundled=3)
    assert found == pytest.approx(35 * 0.86 * 0.7)
    rows = [origin for origin in origins_behind(found) if isinstance(origin, Row)]
    assert {row.table for row in rows} == {"ampacity", "ampacity_factors"}


@pytest.mark.parametrize("table", ["iso", "us"])
@pytest.mark.parametrize("rating", [60, 75, 90, 105])
def test_thicker_cables_carry_more(table, rating):
    currents = [tabled_current(area, rating + KELVIN, table) for area in sections().values() if area > 0.9e-6]
    assert currents == sorted(currents)


def test_smallest_section_rests_on_drop_and_current():
    needed = Traced(3.1e-6, Line("electrics.circuits.fans.length", "9 m"))
    found = smallest_section(10.0, needed, 105 + KELVIN, engine_space=False)
    assert found == pytest.approx(4e-6)
    assert "electrics.circuits.fans.length" in {line.key for line in lines_behind(found)}


def test_odd_section_has_no_tabled_resistance():
    assert resistance_per_metre(3.0e-6) is None


def test_fuses_come_in_rising_sizes():
    assert list(fuse_sizes()) == sorted(fuse_sizes())
    assert {7.5, 10, 20, 30} <= set(fuse_sizes())
