"""Alternatives side by side, each assessed in full.

Starts, charge and the planted lesson of the cutter (a store cures the burner's short runs, and its coolant is
too much for the header) are those of the independent calculation made for the demonstration projects, ± 15 %.
"""

import pytest

import dossier.alternatives as module
from dossier.alternatives import BASE, Alternative, Counts, alternatives, as_plain
from dossier.assessment import assess
from dossier.notation import NotAssessed, NotConverged
from dossier.project import load
from tests import demonstrations


@pytest.fixture(scope="module")
def cutter():
    return alternatives(demonstrations.assessed("lantern_auk"))


@pytest.fixture(scope="module")
def rows(cutter):
    return {row.name: row for row in cutter.rows}


def test_the_project_as_it_stands_comes_first(cutter):
    assert [row.name for row in cutter.rows] == [BASE, "buffer_60", "buffer_120", "buffer_60_wide_band"]
    assert cutter.base.differs == frozenset()


@pytest.mark.parametrize(
    ("name", "starts"),
    [(BASE, 11.2), ("buffer_60", 3.1), ("buffer_120", 1.1), ("buffer_60_wide_band", 1.85)],
)
def test_starts_at_the_worst_load(rows, name, starts):
    assert rows[name].starts_per_hour == pytest.approx(starts, rel=0.15)


@pytest.mark.parametrize(("name", "ampere_hours"), [(BASE, 164), ("buffer_120", 122)])
def test_charge_of_a_design_day(rows, name, ampere_hours):
    assert rows[name].charge_per_day / 3600 == pytest.approx(ampere_hours, rel=0.15)


def test_a_large_store_clears_what_short_runs_cause_and_overfills_the_header(rows):
    large = rows["buffer_120"]
    assert {"store.run_time", "store.starts_hour", "electrics.battery_day"} <= set(large.cleared)
    assert "tap_water.source_covers" in large.cleared
    assert "expansion.capacity" in large.broken
    assert "expansion.capacity" not in rows["buffer_60"].broken


@pytest.mark.parametrize(("name", "kilograms"), [("buffer_60", 60 * 1.02 + 18), ("buffer_120", 160)])
def test_a_store_weighs_its_metal_and_its_coolant(rows, name, kilograms):
    """A litre of warm mix weighs a little over a kilogram; the larger store as calculated independently."""
    assert rows[name].mass_added == pytest.approx(kilograms, rel=0.03 if name == "buffer_60" else 0.15)
    assert "mass_added" in rows[name].differs


def test_differences_are_marked_and_what_stays_is_not(rows):
    store = rows["buffer_60"]
    assert {"starts_per_hour", "running_time", "charge_per_day"} <= store.differs
    assert "load" not in store.differs
    assert store.added == ("T1 buffer 60 l",)
    assert (store.changed, store.left_out) == ((), ())


def test_the_recommendation_has_the_fewest_misses_and_says_why(cutter, rows):
    best = rows[cutter.recommended]
    assert all(best.counts.order <= row.counts.order for row in cutter.rows)
    assert str(best.counts) in cutter.reason
    assert str(cutter.base.counts) in cutter.reason
    assert all(check in cutter.reason for check in (*best.cleared, *best.broken))


def test_results_of_an_alternative_bear_its_name(cutter):
    assert cutter.results["alternative.buffer_120.store.starts_per_hour"].value == pytest.approx(
        1.1, rel=0.15
    )
    assert all(name.startswith("alternative.buffer_") for name in cutter.results)
    base = cutter.base.assessment.results
    assert {name.split(".", 2)[2] for name in cutter.results} >= set(base) - {"store.volume_needed"}


def test_plain_data_hold_the_table_and_every_result(cutter):
    plain = as_plain(cutter)
    assert set(plain["results"]) == set(cutter.results)
    result = plain["results"]["alternative.buffer_60.heat_loss.total"]
    assert result["value"] == pytest.approx(5130, rel=0.15)
    assert (result["unit"], result["basis"]) == ("W", "assumed")
    table = {row["name"]: row for row in plain["table"]}
    assert table[None]["not_met"]["danger"] == 0
    assert "expansion.capacity" in table["buffer_120"]["broken"]
    assert plain["recommended"] == cutter.recommended


WARM = """
format: 1
document: {number: T-1, revision: A, date: 2026-11-20}
conditions: {outside_air: -10 degC}
zones:
  - {id: cabin, target: 20 degC, volume: 20 m3,
     sections: [{name: Deck, u_value: 2 W/m2K, area: 40 m2, faces: air}]}
components:
  B1: {kind: burner, output: {max: 5 kW}}
  T2: {kind: header_tank, volume: 5 l}
"""


def small(folder, overlays=""):
    (folder / "boat.yaml").write_text(WARM + overlays, encoding="utf-8")
    return assess(load(folder / "boat.yaml"))


def test_insulation_against_a_larger_burner(tmp_path):
    overlays = """
alternatives:
  insulated:
    note: foam under the deck
    zones:
      - {id: cabin, target: 20 degC, volume: 20 m3,
         sections: [{name: Deck, u_value: 0.8 W/m2K, area: 40 m2, faces: air}]}
  larger: {components: {B1: {output: {max: 9 kW}}, T2: none, T3: {kind: header_tank, volume: 8 l}}}
"""
    found = alternatives(small(tmp_path, overlays))
    insulated, larger = found.others
    # 40 m2 · (2 − 0.8) W/m2K · 30 K
    assert float(found.base.load) - float(insulated.load) == pytest.approx(1440)
    assert insulated.fuel_per_day < found.base.fuel_per_day
    assert insulated.note == "foam under the deck"
    assert larger.changed == ("B1 burner 9 kW, was 5 kW",)
    assert (larger.added, larger.left_out) == (("T3 header tank 8 l",), ("T2 header tank 5 l",))
    assert larger.reserve == pytest.approx(9 / 5 * float(found.base.reserve))


def test_nothing_is_recommended_where_nothing_is_better(tmp_path):
    found = alternatives(small(tmp_path, "alternatives: {same: {note: nothing else}}"))
    assert found.recommended == BASE
    assert found.reason.startswith("nothing is better than the project as it stands")
    assert found.others[0].differs == frozenset()


def test_an_alternative_that_cannot_be_calculated_says_why_and_stops_no_other(tmp_path, monkeypatch):
    assessment = small(tmp_path, "alternatives: {odd: {note: a}, same: {note: b}}")
    odd = assessment.project.alternative("odd")

    def failing(project):
        if project is odd:
            raise NotConverged("the flows do not settle")
        return assess(project)

    monkeypatch.setattr(module, "assess", failing)
    first, second = alternatives(assessment).others
    assert (first.fault, first.assessment, first.counts) == ("the flows do not settle", None, None)
    assert second.fault == ""
    assert first.order > second.order
    plain = as_plain(alternatives(assessment))
    assert plain["table"][1]["fault"] == "the flows do not settle"


def test_without_alternatives_there_is_nothing_to_compare(tmp_path):
    found = alternatives(small(tmp_path))
    assert isinstance(found, NotAssessed)
    assert found.needs == ("alternatives",)


def test_dangers_weigh_before_faults_and_parts_before_mass():
    def row(*counts, added=(), mass=None):
        return Alternative("x", "", None, counts=Counts(*counts), added=added, mass=mass)

    worst_first = [
        row(1, 0, 0, 0),
        row(0, 1, 0, 0),
        row(0, 0, 1, 0),
        row(0, 0, 0, 1, added=("T1",)),
        row(0, 0, 0, 1),
        row(0, 0, 0, 1, mass=20.0),
    ]
    assert sorted(worst_first, key=lambda r: r.order, reverse=True) == worst_first
