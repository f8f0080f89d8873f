"""`parts` counts what must be bought; no cell of its table can become a formula."""

import csv
import io

import pytest

from dossier.cli import main, parts

NASTY = """
format: 1
components:
  B1: {kind: burner, output: {max: 5 kW}, where: "=HYPERLINK(0)"}
  P1: {kind: pump, where: "@SUM(A1)"}
  F1: {kind: fan_coil, output: 2 kW, where: "+1-1"}
  T1: {kind: buffer, volume: 20 l, where: "-2"}
"""


@pytest.fixture
def assessed_once(monkeypatch, cutter_assessed):
    """The cutter as it was assessed for all tests of this folder."""
    monkeypatch.setattr(parts, "assessed", lambda _name: cutter_assessed)


def table(text):
    return list(csv.reader(io.StringIO(text, newline="")))


@pytest.mark.usefixtures("assessed_once")
def test_table_holds_what_the_list_holds(run, cutter):
    rows = table(run("parts", cutter, "--csv").out)
    tags = {row[1] for row in rows[1:] if row[1]}
    printed = run("parts", cutter).out
    assert {"B1", "P1", "X1", "V20"} <= tags
    assert all(tag in printed for tag in tags)
    assert all(len(row) == len(rows[0]) for row in rows)


@pytest.mark.usefixtures("assessed_once")
def test_lengths_of_the_cut_list_add_up_to_the_parts_list(run, cutter):
    cuts = table(run("parts", cutter, "--cuts", "--csv").out)
    head = cuts[0]
    size, length = head.index("size"), head.index("length [m]")
    hoses = sum(float(row[length]) for row in cuts[1:] if row[size] == "hose 22")
    parts = table(run("parts", cutter, "--csv").out)
    (hose,) = [row for row in parts if row[2] == "hose" and row[3] == "hose 22"]
    assert abs(float(hose[parts[0].index("quantity")]) - hoses) < 0.002


def test_no_cell_becomes_a_formula(run, tmp_path):
    file = tmp_path / "boat.yaml"
    file.write_text(NASTY, encoding="utf-8")
    out = tmp_path / "parts.csv"
    done = run("parts", file, "--csv", "-o", out)
    assert done.out.strip() == str(out)
    cells = [cell for row in table(out.read_text(encoding="utf-8")) for cell in row]
    assert "'=HYPERLINK(0)" in cells
    assert not [cell for cell in cells if cell.lstrip().startswith(("=", "+", "-", "@"))]


def test_a_list_that_cannot_be_written_is_a_fault_in_one_line(smallest, tmp_path, capsys):
    (tmp_path / "taken").write_text("", encoding="utf-8")
    assert main(["parts", str(smallest), "-o", str(tmp_path / "taken" / "parts.csv")]) == 2
    assert capsys.readouterr().err.count("\n") == 1
