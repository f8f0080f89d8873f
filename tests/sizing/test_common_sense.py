"""Totals are summed as a person would, and a slip of ten is seen."""

import pytest

from dossier.assessment import assess
from dossier.data.proof_totals import usual_totals
from dossier.project import load
from dossier.sizing.common_sense import room_sizes, totals

BOAT = """
format: 1
vessel: {length: 10 m, beam: 3 m, draught: 1 m}
conditions: {outside_air: -5 degC, sea: 4 degC}
zones:
  - id: cabin
    target: 20 degC
    volume: %(volume)s
    sections:
      - {name: Sides, u_value: 1 W/m2K, area: 20 m2, faces: air}
      - {name: Bottom, u_value: 1 W/m2K, area: 15 m2, faces: sea}
      - {name: Windows, glazing: single 6 mm, area: 2 m2, faces: air}
      - {name: Bulkhead, u_value: 2 W/m2K, area: 4 m2, faces: {zone: engine_room}}
  - {id: engine_room, floats: true, volume: 8 m3,
     sections: [{name: Plate, u_value: 3 W/m2K, area: 13 m2, faces: air}]}
components:
  B1: {kind: burner, output: {max: 5 kW, min: 5 kW}}
exhaust: {length: %(exhaust)s}
layout: {compartments: {cabin: {from: [2 m, -1.5 m, -0.5 m], to: [6 m, 1.5 m, 1.5 m]}}}
"""


def made(folder, volume="24 m3", exhaust="1.5 m"):
    file = folder / "boat.yaml"
    file.write_text(BOAT % {"volume": volume, "exhaust": exhaust}, encoding="utf-8")
    return assess(load(file)).study


@pytest.fixture(scope="module")
def study(tmp_path_factory):
    return made(tmp_path_factory.mktemp("boat"))


def by_name(study):
    return {total.row.name: total for total in totals(study)}


def test_sums_are_those_of_a_person_with_a_pencil(study):
    found = by_name(study)
    # 20 + 15 + 2 + 13 m² to air and sea; 10 m × 2 (3 + 1 + 1) m of girth
    assert found["shell"].amount == pytest.approx(50.0)
    assert found["shell"].against == pytest.approx(100.0)
    # 24 + 8 m³ in 10 m × 3 m × 2 m; 24 m³ of it heated
    assert found["rooms"].ratio == pytest.approx(32 / 60)
    assert found["load"].against == pytest.approx(24.0)
    assert found["windows"].ratio == pytest.approx(2 / 50)
    assert found["exhaust"].ratio == pytest.approx(0.5)


def test_a_slip_of_ten_asks_for_a_second_look(tmp_path):
    found = by_name(made(tmp_path, volume="240 m3", exhaust="15 m"))
    assert found["rooms"].is_usual is False
    assert found["exhaust"].is_usual is False
    assert found["shell"].is_usual is True


def test_what_is_not_in_the_file_is_not_known(study):
    found = by_name(study)
    assert found["cables"].ratio is None
    assert found["cables"].is_usual is None


def test_a_room_knows_its_neighbours_and_its_box(study):
    cabin, engine_room = room_sizes(study.project)
    assert cabin.neighbours == (("engine_room", 4.0),)
    assert cabin.box_volume == pytest.approx(4 * 3 * 2)
    assert engine_room.box_volume is None


def test_every_total_has_a_range_and_a_source():
    for row in usual_totals().values():
        assert 0 < row.low < row.high
        assert row.source
