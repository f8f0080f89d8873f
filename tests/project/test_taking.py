"""What was filled in on sheets goes into the file's text, and nothing else in it changes."""

import pytest

from dossier.notation import ProjectFaults
from dossier.project import load
from dossier.project.editing import CannotEdit, FileText, quoted
from dossier.project.filled_values import Filled
from dossier.project.taking import take

BOAT = """# My boat, kept by hand.
format: 1

vessel: {name: Marsh Heron, length: 12.0 m, heel_angles: [10 deg,   20 deg]}   # two spaces, kept
exhaust:
  length: {is: 2.0 m, basis: drawing, note: "from the plan"}  # to be measured

  # the hull fitting is not known yet
zones:
  - id: saloon                 # where we live
    target: 20 degC
    sections:
      - {name: Deck, u_value: 1.2 W/m2K, area: 9 m2, faces: air}
      - name: Side no. 2
        u_value: 1.0 W/m2K
        area: 6 m2
components:
  B1: {kind: burner, output: {max: 5 kW}, wetted: [copper]}
  P1:
    kind: pump    # plate unreadable
circuit:
  ring: [P1, B1, "hose 22, 1.6 m, 2 bends", {pipe: {id: H4, size: hose 22, length: 2 m}}]
tap_water: none
fuel: {tank: 120 l}"""


@pytest.fixture
def boat(tmp_path):
    def write(text=BOAT, newline="\n", mark=""):
        file = tmp_path / "boat.yaml"
        file.write_bytes((mark + text.replace("\n", newline)).encode("utf-8"))
        return file

    return write


def changed(file, taken):
    """Lines that differ, old and new."""
    old, new = file.read_bytes().decode("utf-8"), taken.content.decode("utf-8")
    before, after = old.splitlines(), new.splitlines()
    return [line for line in before if line not in after], [line for line in after if line not in before]


def test_a_new_value_stands_where_the_old_one_stood(boat):
    file = boat()
    taken = take(file, {"exhaust.length.is": Filled("2.35", "m")})
    old, new = changed(file, taken)
    assert old == ['  length: {is: 2.0 m, basis: drawing, note: "from the plan"}  # to be measured']
    assert new == ["  length: {is: 2.35 m, basis: measured}  # to be measured"]
    (change,) = taken.changes
    assert change.before == '{is: 2.0 m, basis: drawing, note: "from the plan"}'
    assert taken.refused == ()


def test_the_file_as_taken_reads_as_what_was_filled_in(boat):
    fields = {
        "vessel.length.is": Filled("39 ft 4 in"),
        "vessel.beam.is": Filled("3.9", "m"),
        "vessel.beam.basis.drawing": Filled("yes"),
        "zones.saloon.volume.is": Filled("24 m³", "m³"),
        "zones.saloon.sections.Deck.area.is": Filled("8.5", "m²"),
        "zones.saloon.sections.Side no. 2.area.is": Filled("7", "m²"),
        "components.B1.overheat_stat.is": Filled("98", "°C"),
        "components.B1.wetted.is": Filled("copper, steel"),
        "components.P1.mass.is": Filled("2", "kg"),
        "circuit.ring.H4.length.is": Filled("2.2", "m"),
        "circuit.ring.H4.route.is": Filled(""),
        "commissioning.tightness.pressure": Filled("3.3", "bar"),
        "commissioning.tightness.held": Filled("30", "min"),
        "commissioning.heights.loading": Filled("fuel 80 %, water 60 %"),
        "commissioning.tags_seen": Filled("B1, P1"),
        "clearances.burner.is": Filled("150", "mm"),
        "fuel.lift.is": Filled("0.6", "m"),
        "inspection.date": Filled("2026-11-30"),
    }
    fields = {name: filled for name, filled in fields.items() if filled.text}
    file = boat()
    taken = take(file, fields)
    assert taken.refused == ()
    file.write_bytes(taken.content)
    project = load(file)
    numbers = {key: (float(number), str(number.origin.basis)) for key, number in project.numbers().items()}
    assert numbers["vessel.length"] == (pytest.approx(11.9888), "measured")
    assert numbers["vessel.beam"] == (3.9, "drawing")
    assert numbers["zones.saloon.volume"] == (24.0, "measured")
    assert numbers["zones.saloon.sections.Side no. 2.area"] == (7.0, "measured")
    assert numbers["components.B1.overheat_stat"][0] == pytest.approx(371.15)
    assert numbers["commissioning.tightness.pressure"][0] == pytest.approx(330000.0)
    assert numbers["commissioning.tightness.held"][0] == 1800.0
    assert numbers["clearances.burner"] == (0.15, "measured")
    assert project.components["B1"].wetted == ("copper", "steel")
    assert project.commissioning.heights.loading == "fuel 80 %, water 60 %"
    assert project.commissioning.tags_seen == ("B1", "P1")
    kept = BOAT.splitlines()
    new = taken.content.decode("utf-8").splitlines()
    comments = [line.partition("#")[2] for line in kept if "#" in line]
    assert [line.partition("#")[2] for line in new if "#" in line] == comments


@pytest.mark.parametrize(("newline", "mark"), [("\r\n", ""), ("\n", "\ufeff"), ("\r\n", "\ufeff")])
def test_line_ends_and_byte_order_mark_stay(boat, newline, mark):
    file = boat(newline=newline, mark=mark)
    taken = take(file, {"vessel.beam.is": Filled("3.9 m"), "inspection.date": Filled("2026-11-30")})
    new = taken.content.decode("utf-8")
    assert new.startswith(mark + "# My boat")
    assert new.count("\n") == new.count(newline)
    expected = (
        file.read_bytes().decode("utf-8").replace("20 deg]}", "20 deg], beam: {is: 3.9 m, basis: measured}}")
    )
    assert new.startswith(expected)


@pytest.mark.parametrize(
    ("name", "text", "why"),
    [
        ("vessel.length.is", "12,5", "12.5"),
        ("vessel.length.is", "12 kW", "length"),
        ("vessel.lenght.is", "12 m", "no such key"),
        ("tap_water.tank.is", "200 l", "tap_water: none"),
        ("layout.openings.is", "fore hatch", "more than a box"),
        ("components.B1.output.max.is", "90000 kW", "possible"),
        ("zones.saloon.target.is", "68 degF }", "figure"),
        ("components.B1.where.is", "here\u202e", "invisible mark"),
        ("circuit.ring.ring_1.length.is", "1.7 m", "short form"),
    ],
)  # fmt: skip
def test_what_cannot_be_taken_is_told_and_nothing_is_changed(boat, name, text, why):
    file = boat()
    taken = take(file, {name: Filled(text)})
    assert taken.content == file.read_bytes()
    assert taken.changes == ()
    (refused,) = taken.refused
    assert why in refused.why
    assert refused.text == text


def test_what_is_odd_is_taken_and_told(boat):
    taken = take(boat(), {"components.B1.output.max.is": Filled("900", "kW")})
    assert len(taken.changes) == 1
    assert "unusual" in str(taken.doubts[0])


def test_one_bad_field_does_not_stop_the_others(boat):
    fields = {
        "fuel.lift.is": Filled("0,6", "m"),
        "fuel.usable.is": Filled("80", "%"),
        "vessel.beam.is": Filled("4 m"),
    }
    taken = take(boat(), fields)
    assert {change.key for change in taken.changes} == {"fuel.usable", "vessel.beam"}
    assert [refused.key for refused in taken.refused] == ["fuel.lift"]


def test_a_basis_alone_confirms_what_the_file_says(boat):
    taken = take(boat(), {"fuel.tank.basis.plate": Filled("yes")})
    (change,) = taken.changes
    assert (change.before, change.after) == ("120 l", "{is: 120 l, basis: plate}")
    both = take(boat(), {"fuel.tank.basis.plate": Filled("yes"), "fuel.tank.basis.measured": Filled("yes")})
    assert "more than one basis" in both.refused[0].why


def test_what_the_file_says_already_is_no_change(boat):
    file = boat()
    file.write_bytes(take(file, {"vessel.length.is": Filled("12 m")}).content)
    again = take(file, {"vessel.length.is": Filled("12 m")})
    assert (again.changes, again.refused) == ((), ())
    assert again.content == file.read_bytes()


def test_a_value_in_a_table_is_entered_there(tmp_path):
    file = tmp_path / "boat.yaml"
    file.write_text("format: 1\nzones: {from: zones.csv}\n", encoding="utf-8")
    (tmp_path / "zones.csv").write_text("id,target [degC],volume [m3]\nsaloon,20,24\n", encoding="utf-8")
    (refused,) = take(file, {"zones.saloon.volume.is": Filled("25", "m³")}).refused
    assert refused.why == "it stands in zones.csv, line 2: enter it there"


def test_a_contradiction_is_found_though_it_is_told_elsewhere(boat):
    fields = {"zones.saloon.floats": Filled("true"), "vessel.beam.is": Filled("4 m")}
    taken = take(boat(), fields)
    assert [change.key for change in taken.changes] == ["vessel.beam"]
    assert "target and floats" in taken.refused[0].why


def test_faults_of_the_file_itself_come_first(boat):
    with pytest.raises(ProjectFaults, match="lenght"):
        take(boat("format: 1\nvessel: {lenght: 12 m}\n"), {"vessel.beam.is": Filled("4 m")})


@pytest.mark.parametrize("text", ["a: {}\nb: 1", "a: {}  # none\nb: 1\n", "a: {\n  }\nb: 1\n"])
def test_an_empty_mapping_is_filled(text):
    file = FileText(text.encode())
    (node, *_) = [held for _, held in file.root.value]
    new = file.with_edits([file.added(node, {"c": "2"})])
    assert "c: 2}" in new
    assert new.replace("c: 2", "") == text


def test_a_block_of_text_keeps_its_lines():
    text = "a:\n  b: |\n    one\n    two\n\n  # more\nc: 1\n"
    file = FileText(text.encode())
    new = file.with_edits([file.added(file.root.value[0][1], {"d": "2"})])
    assert new == "a:\n  b: |\n    one\n    two\n  d: 2\n\n  # more\nc: 1\n"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("38 mm", "38 mm"),
        ("−6 °C", "−6 °C"),
        ("a: b", '"a: b"'),
        ("# no", '"# no"'),
        ("", '""'),
        ("none", "none"),
    ],
)
def test_texts_are_quoted_where_they_would_mean_more(text, written):
    assert quoted(text) == written


def test_controls_have_no_place():
    with pytest.raises(CannotEdit):
        quoted("a\x07b")
