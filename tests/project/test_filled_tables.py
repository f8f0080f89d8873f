"""Lines of a table on a sheet become entries of the file: points, lists, places; named ones are changed."""

import pytest

from dossier.project import load
from dossier.project.filled_values import Filled
from dossier.project.taking import take

BOAT = """format: 1
vessel: {name: Marsh Heron}
exhaust: {length: 2.2 m}   # by eye
components:
  B1: {kind: burner, output: {max: 5 kW}}
  P1: {kind: pump}
layout:
  openings:      # all that can be opened
    - {name: Fore hatch, kind: hatch, at: [9 m, 0 m, 1.4 m]}   # leaks
  places:
    B1: {at: [1.6 m, -1.5 m, 0.1 m], size: [0.5 m, 0.3 m, 0.3 m]}
safety: {extinguishers: [{at: companionway, size: 2 kg}]}
"""


@pytest.fixture
def boat(tmp_path):
    file = tmp_path / "boat.yaml"
    file.write_text(BOAT, encoding="utf-8")
    return file


def line(key, number, unit="", **boxes):
    """Boxes of one line of a table."""
    return {
        f"{key}[{number}].{column.replace('__', '.')}": Filled(text, unit) for column, text in boxes.items()
    }


def taken_in(file, fields):
    """The file's text and the project after taking; all must be taken."""
    taken = take(file, fields)
    assert not taken.refused
    file.write_bytes(taken.content)
    return taken, taken.content.decode("utf-8"), load(file)


def test_points_of_the_exhaust_become_its_route(boat):
    fields = line("exhaust.route", 1, "mm", x="2100", y="-1200", z="550")
    fields |= line("exhaust.route", 2, "mm", x="2100", y="-1900", z="980")
    _, text, project = taken_in(boat, fields)
    assert [tuple(point) for point in project.exhaust.route] == [(2.1, -1.2, 0.55), (2.1, -1.9, 0.98)]
    assert "exhaust: {length: 2.2 m, route: {is: [[2100 mm, -1200 mm, 550 mm], " in text
    assert "   # by eye" in text
    assert project.where("exhaust.route.1").basis.value == "measured"


def test_new_openings_stand_behind_those_the_file_has(boat):
    point = {"at__x": "5200", "at__y": "1500", "at__z": "900"}
    fields = line("layout.openings", 1, "mm", name="Galley port", kind="opening port", **point)
    taken, text, project = taken_in(boat, fields)
    assert [opening.name for opening in project.layout.openings] == ["Fore hatch", "Galley port"]
    assert "   # leaks\n    - {name: Galley port, kind: opening port, at: [5200 mm, " in text
    assert taken.changes[0].key == "layout.openings[2]"
    assert not taken.changes[0].before


def test_a_line_that_names_an_entry_changes_it(boat):
    fields = line("layout.openings", 1, "mm", name="Fore hatch", at__x="9100", at__y="0", at__z="1450")
    taken, _, project = taken_in(boat, fields)
    (hatch,) = project.layout.openings
    assert tuple(hatch.at) == (9.1, 0.0, 1.45)
    assert hatch.kind == "hatch"
    assert taken.changes[0].before == "[9 m, 0 m, 1.4 m]"


def test_places_are_entered_by_their_tags(boat):
    fields = line("layout.places", "P1", "mm", at__x="3000", at__y="0", at__z="200", size__long="200",
                  size__wide="120", size__high="150")  # fmt: skip
    fields |= line("layout.places", "B1", "mm", at__x="1650", at__y="-1500", at__z="100")
    _, text, project = taken_in(boat, fields)
    assert project.layout.places["P1"].size == (0.2, 0.12, 0.15)
    assert project.layout.places["B1"].at.x == 1.65
    assert project.layout.places["B1"].size.long == 0.5
    assert "    P1: {at: [3000 mm, 0 mm, 200 mm], size: [200 mm, 120 mm, 150 mm], basis: measured}" in text


def test_an_entry_of_a_list_on_one_line_gets_a_neighbour(boat):
    fields = line("safety.extinguishers", 1, at="engine room", size="6 kg")
    _, text, project = taken_in(boat, fields)
    assert [each.at for each in project.safety.extinguishers] == ["companionway", "engine room"]
    assert "{at: companionway, size: 2 kg}, {at: engine room, size: 6 kg, basis: measured}]}" in text


def test_none_in_the_first_box_says_that_there_is_none(boat):
    _, text, project = taken_in(boat, line("safety.co_alarms", 1, at="none"))
    assert project.safety.co_alarms == ()
    assert "co_alarms: []" in text


def test_a_point_that_lacks_a_figure_is_refused_and_the_rest_taken(boat):
    fields = line("exhaust.route", 1, "mm", x="2100", z="550")
    fields |= line("safety.extinguishers", 1, at="engine room")
    taken = take(boat, fields)
    assert [(each.key, each.why) for each in taken.refused] == [
        ("exhaust.route", "y of a line is not filled in: all of x, y, z are needed")
    ]
    assert len(taken.changes) == 1


def test_a_line_that_cannot_be_read_is_refused_and_its_neighbour_taken(boat):
    fields = line("layout.openings", 1, "mm", name="Port", kind="porthole", at__x="1", at__y="2", at__z="3")
    fields |= line("safety.extinguishers", 1, at="engine room")
    taken = take(boat, fields)
    assert [each.key for each in taken.refused] == ["layout.openings[2]"]
    assert "porthole" in taken.refused[0].why
    assert [change.key for change in taken.changes] == ["safety.extinguishers[2]"]


def test_a_table_beside_the_file_is_left_to_the_owner(boat, tmp_path):
    (tmp_path / "openings.csv").write_text(
        'name,kind,at\nFore hatch,hatch,"[9 m, 0 m, 1 m]"\n', encoding="utf-8"
    )
    listed = BOAT[BOAT.index("  openings:") : BOAT.index("  places:")]
    text = BOAT.replace(listed, "  openings: {from: openings.csv}\n")
    boat.write_text(text, encoding="utf-8")
    taken = take(boat, line("layout.openings", 1, name="Port", kind="hatch"))
    assert not taken.changes
    assert "in a table of its own" in taken.refused[0].why


def test_a_name_cannot_tear_the_file(boat):
    before = load(boat)
    for name in ("a: {b", "]}, {", "x # y", "a.b", "  ", "{from: openings.csv}"):
        taken = take(boat, line("layout.compartments", 1, "m", name=name, **{"from": "0 0 0", "to": "1 1 1"}))
        boat.write_bytes(taken.content)
        after = load(boat)
        assert after.layout.openings == before.layout.openings
        assert (name in (after.layout.compartments or {})) == bool(taken.changes)


def test_points_in_one_box_are_parted_by_semicolons(boat):
    _, _, project = taken_in(boat, {"fuel.line.route.is": Filled("3 0.5 0; 2.2, -1.0, 0.1", "m")})
    assert [tuple(point) for point in project.fuel.line.route] == [(3.0, 0.5, 0.0), (2.2, -1.0, 0.1)]


def test_a_figure_an_hour_and_the_flow_of_a_valve_bear_the_unit_of_their_box(boat):
    boat.write_text(BOAT + "zones: [{id: saloon, floats: true, volume: 20 m3}]\n", encoding="utf-8")
    fields = {
        "zones.saloon.air_changes.is": Filled("0.8", "per h"),
        "commissioning.flows.B1": Filled("14.2", "l/min"),
    }
    _, text, project = taken_in(boat, fields)
    assert "air_changes: {is: 0.8 1/h, basis: measured}" in text
    assert project.commissioning.flows["B1"] == pytest.approx(14.2 / 60000)
