"""The valve plan says how every valve stands in every mode of the file, whether or not it could be solved."""

import pytest

from dossier.rendering.sections import valve_plan
from dossier.rendering.sections.valve_plan import Stand


@pytest.fixture(scope="module")
def plan(draft):
    return valve_plan.valve_plan(draft("lantern_auk"))


def test_every_mode_of_the_file_has_its_column(plan):
    assert plan.modes == ("heating", "anchor night", "tap water only")


def test_every_valve_of_the_ring_has_its_row(plan):
    assert [row.tag for row in plan.rows] == ["V1", "V2", "V3", "V4", "V9"]
    assert all(len(row.positions) == len(plan.modes) for row in plan.rows)


def test_shut_and_opened_valves_stand_as_the_file_says(plan):
    rows = {row.tag: row.positions for row in plan.rows}
    assert [rows[tag][2].stand for tag in ("V1", "V2", "V3", "V4")] == [Stand.SHUT] * 4
    assert rows["V9"][2].stand is Stand.OPEN
    assert (rows["V9"][0].stand, rows["V9"][0].said) == (Stand.SET, "Kv 0.60")


def test_a_burner_that_a_mode_stops_has_a_row_of_its_own(draft):
    plan = valve_plan.valve_plan(draft("northern_quill"))
    burner = next(row for row in plan.rows if row.tag == "B1")
    assert [position.stand for position in burner.positions] == [
        Stand.RUNS,
        Stand.OFF,
        Stand.RUNS,
        Stand.RUNS,
    ]


def test_without_a_circuit_it_names_the_inputs(draft):
    assert valve_plan.valve_plan(draft("puddle_wren")).needs == ("circuit.ring",)
