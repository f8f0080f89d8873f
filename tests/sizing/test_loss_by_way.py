"""Ways of the heat: what a section counts as, and that the ways add up to the load."""

import pytest

from dossier.project import load
from dossier.sizing.loss_by_way import Way
from dossier.sizing.study import study

BOAT = """
format: 1
conditions: {outside_air: -10 degC, sea: 2 degC}
build_ups:
  side: {layers: [{material: pine, thickness: 30 mm}]}
  roof: {heat_flow: up, layers: [{material: pine, thickness: 30 mm}]}
zones:
  - id: cabin
    target: 20 degC
    volume: 10 m3
    air_changes: 1.0 1/h
    people: 0
    sections:
      - {name: Sides, build_up: side, area: 6 m2, faces: air}
      - {name: Roof, build_up: roof, area: 5 m2, faces: air}
      - {name: Bottom, build_up: side, area: 5 m2, faces: sea}
      - {name: Windows, glazing: single 5 mm, area: 1 m2, faces: air}
      - {name: Back door, u_value: 3 W/m2K, area: 1.5 m2, faces: air}
      - {name: Bulkhead, build_up: side, area: 2 m2, faces: {zone: locker}}
      - {name: Wet locker, u_value: 2 W/m2K, area: 1 m2, faces: {temperature: 5 degC}}
  - {id: berth, target: 24 degC, volume: 5 m3, air_changes: 1.0 1/h, people: 0, sections: [
      {name: Partition, build_up: side, area: 3 m2, faces: {zone: cabin}}]}
  - {id: locker, floats: true, volume: 2 m3, air_changes: 1.0 1/h, sections: [
      {name: Sides, build_up: side, area: 4 m2, faces: air}]}
"""


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    path = tmp_path_factory.mktemp("ways") / "boat.yaml"
    path.write_text(BOAT, encoding="utf-8")
    return study(load(path))


def zone(found, name):
    return next(each for each in found.loss_by_way.zones if each.zone == name)


def test_each_section_counts_where_a_surveyor_would_put_it(found):
    cabin = zone(found, "cabin").ways
    losses = {loss.name: float(loss.loss) for loss in found.heat_loss.zones["cabin"].sections}
    assert float(cabin[Way.GLASS]) == pytest.approx(losses["Windows"] + losses["Back door"])
    assert float(cabin[Way.SIDES]) == pytest.approx(losses["Sides"])
    assert float(cabin[Way.DECK]) == pytest.approx(losses["Roof"])
    assert float(cabin[Way.WATER]) == pytest.approx(losses["Bottom"])
    assert float(cabin[Way.NEIGHBOURS]) == pytest.approx(losses["Bulkhead"])
    assert float(cabin[Way.ELSEWHERE]) == pytest.approx(2.0 * 1.0 * 15.0)


def test_ways_less_gains_are_the_load(found):
    for each in found.loss_by_way.zones:
        assert sum(map(float, each.ways.values())) + float(each.gained) == pytest.approx(float(each.load))
    both = found.loss_by_way
    assert float(both.gone) + float(both.gained) == pytest.approx(float(found.heat_loss.total))


def test_a_warmer_neighbour_is_a_gain_and_no_way_out(found):
    assert float(zone(found, "cabin").gained) < 0
    assert float(zone(found, "berth").gained) == 0


def test_temperatures_fall_by_the_resistances_in_turn(found):
    """Steady heat through layers in series falls in each as its resistance: R_si 0.13, pine 0.030/0.13."""
    wall = found.wall_temperatures["side"]
    film = float(wall.worth.films.outside)
    through = film + 0.030 / 0.13 + 0.13
    assert wall.between[0] == pytest.approx(263.15)
    assert wall.between[1] == pytest.approx(263.15 + 30 * film / through)
    assert wall.surface == pytest.approx(293.15 - 30 * 0.13 / through)
    assert wall.between[-1] == pytest.approx(293.15)
    assert wall.surface_over_frame is None
