"""A fault shows its line and marks the place, so that nobody has to count columns."""

import pytest

from dossier.notation import (
    ARITHMETIC,
    Basis,
    Fault,
    Line,
    OutOfRange,
    ProjectFaults,
    Traced,
    lines_behind,
    q,
)
from dossier.project import load
from dossier.project.pointing import pointed


def marked(told):
    """What stands over the mark, to the end of its line."""
    line, mark = told.splitlines()[-2:]
    assert mark.strip() == "^"
    return line[mark.index("^") :]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("format: 1\nvessel: {lenght: 12 m}\n", "lenght: 12 m}"),
        ("format: 1\r\nvessel: {length: 12}\r\n", "12}"),
        ("format: 1\nvessel: {name: Schöne Gös, length: 12 kW}\n", "12 kW}"),
        ("format: 1\nvessel: {name: " + "x" * 200 + ", length: 12}\n", "12}"),
        ("format: 1\nvessel: {length: 12, name: " + "x" * 200 + "}\n", "12, name: xxxx"),
    ],
)
def test_the_mark_stands_under_the_place(tmp_path, text, place):
    file = tmp_path / "boat.yaml"
    file.write_bytes(text.encode("utf-8"))
    with pytest.raises(ProjectFaults) as stopped:
        load(file)
    told = pointed(stopped.value, tmp_path)
    assert told.splitlines()[0].startswith("boat.yaml:2:")
    assert marked(told).startswith(place)
    assert all(len(line) < 130 for line in told.splitlines()[1:])


def test_a_number_that_leaves_a_formulas_range_is_marked_where_it_was_written(tmp_path):
    """What a field may hold can still be too much for a table further on."""
    (tmp_path / "boat.yaml").write_text("format: 1\nconditions: {wind: 60 m/s}\n", encoding="utf-8")
    written = Traced(60.0, Line("conditions.wind", "60 m/s", Basis.ASSUMED, "boat.yaml", 2, 20))
    beyond = OutOfRange(
        "a table", "speed", q("v", "m/s", "wind", high=50.0), written, ARITHMETIC, lines_behind(written)
    )
    told = pointed(beyond, tmp_path)
    assert told.startswith("boat.yaml:2:20: wind v = 60 m/s lies outside -inf … 50 m/s of a table")
    assert marked(told) == "60 m/s}"


def test_a_number_that_rests_on_no_line_has_no_place():
    beyond = OutOfRange("a table", "share", q("x", "1", "share", low=0, high=1), 2.0, ARITHMETIC)
    assert beyond.faults == ()
    assert str(beyond).startswith("share x = 2 lies outside 0 … 1 of a table")


def test_a_table_shows_its_line(tmp_path):
    (tmp_path / "boat.yaml").write_text("format: 1\nzones: {from: zones.csv}\n", encoding="utf-8")
    (tmp_path / "zones.csv").write_text("id;target [degC];volume [m3]\ncabin;200;16\n", encoding="utf-8")
    with pytest.raises(ProjectFaults) as stopped:
        load(tmp_path / "boat.yaml")
    assert "    cabin;200;16" in pointed(stopped.value, tmp_path).splitlines()


def test_many_faults_do_not_flood_the_terminal(tmp_path):
    (tmp_path / "boat.yaml").write_text("a: 1\n" * 40, encoding="utf-8")
    faults = ProjectFaults([Fault("wrong", "", "boat.yaml", n, 1) for n in range(1, 41)])
    lines = pointed(faults, tmp_path).splitlines()
    assert len(lines) == 40 + 2 * 12


def test_a_file_that_is_gone_leaves_the_message(tmp_path):
    faults = ProjectFaults([Fault("there is no such file", "", "boat.yaml", 3, 1)])
    assert pointed(faults, tmp_path) == "boat.yaml:3:1: there is no such file"
