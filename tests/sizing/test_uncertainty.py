"""How sure the answers are: samples pass through the single number's formulas, and closed forms agree."""

import hashlib
import json
import re
from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from dossier.assessment import as_plain
from dossier.checking.guesses import guesses
from dossier.notation import Basis, NotAssessed, lines_behind, named_results, origin_of
from dossier.physics.sensitivity import latin_hypercube, percentiles
from dossier.project import load
from dossier.sizing import uncertainty_solutions
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.study import asked_again, study
from dossier.sizing.uncertainty import SAMPLES, uncertainty
from dossier.sizing.uncertainty_inputs import unknowns_behind
from dossier.sizing.uncertainty_workings import SampledWorkings
from tests.demonstrations import assessed, read, studied

PROJECTS = Path(__file__).parents[2] / "projects"
CUTTER = PROJECTS / "lantern_auk" / "lantern_auk.yaml"
BOX = """
format: 1
defaults: {{basis: measured}}
conditions: {{outside_air: -10 degC}}
zones:
  - {{id: saloon, target: 20 degC, volume: 20 m3, air_changes: {changes}, people: 0,
     sections: [{{name: Shell, u_value: {sides}, area: {area}, faces: air}}]}}
"""
SHELL = "{is: 2 W/m2K, basis: assumed, spread: [1.6 W/m2K, 2.8 W/m2K]}"


def boat(folder, text):
    """The project of a file with this text."""
    (folder / "boat.yaml").write_text(text, encoding="utf-8")
    return load(folder / "boat.yaml")


def box(folder, sides="2 W/m2K", area="30 m2", changes="1 1/h"):
    return boat(folder, BOX.format(sides=sides, area=area, changes=changes))


def spread_of(project, name="heat_loss.total"):
    found = uncertainty(project, (heat_loss(project),))
    return found.spreads[name]


@pytest.fixture(scope="module")
def guessed_cutter(tmp_path_factory):
    """The cutter with every figure assumed, and beside each other two lockers that nobody heats."""
    folder = tmp_path_factory.mktemp("cutter")
    text = CUTTER.read_text(encoding="utf-8").replace("{basis: drawing}", "{basis: assumed}")
    text = text.replace(
        "- {name: Fore bulkhead, build_up: bulkhead, area: 3.0 m2, faces: {zone: forepeak}}",
        "- {name: Fore bulkhead, build_up: bulkhead, area: 3.0 m2, faces: {zone: forepeak}}\n"
        "      - {name: Aft bulkhead, build_up: bulkhead, area: 2.0 m2, faces: {zone: locker}}",
    ).replace(
        "components:\n",
        "  - {id: locker, floats: true, volume: 2 m3, air_changes: 1 1/h, sections: [\n"
        "      {name: Shell, u_value: 3 W/m2K, area: 4 m2, faces: air},\n"
        "      {name: Side, u_value: 3 W/m2K, area: 2 m2, faces: {zone: engine_room}},\n"
        "      {name: Front, u_value: 3 W/m2K, area: 2 m2, faces: {zone: forepeak}}]}\ncomponents:\n",
        1,
    )
    (folder / "months.csv").write_bytes((CUTTER.parent / "months.csv").read_bytes())
    return boat(folder, text)


def test_samples_through_the_workings_are_those_of_the_calculation_itself(guessed_cutter):
    """All stated figures of the file as arrays: zones, sections, layers, frames, air, floating zones."""
    loss = heat_loss(guessed_cutter)
    unknowns = unknowns_behind(guessed_cutter, [loss.total])
    graph = SampledWorkings({"load": loss.total}, unknowns.places.get)
    drawn = unknowns.drawn(1, 40)
    stated = {}
    for place, figure in enumerate(unknowns.figures):
        if figure.line.line is None:
            drawn[place] = np.full(40, figure.value)
        else:
            stated[figure.line.key] = drawn[place]
    assert len(stated) > 80
    ours = graph.of_result("load", drawn, graph.run(drawn))
    theirs = heat_loss(guessed_cutter.with_numbers(stated)).total
    assert ours == pytest.approx(theirs, rel=1e-12)
    assert np.ptp(ours) > 100


def test_each_sample_is_what_the_calculation_finds_for_it_alone(guessed_cutter):
    loss = heat_loss(guessed_cutter)
    unknowns = unknowns_behind(guessed_cutter, [loss.total])
    drawn = unknowns.drawn(2, 3)
    stated = {f.line.key: x for f, x in zip(unknowns.figures, drawn, strict=True) if f.line.line is not None}
    together = heat_loss(guessed_cutter.with_numbers(stated)).total
    for place in range(3):
        alone = guessed_cutter.with_numbers({key: float(x[place]) for key, x in stated.items()})
        assert together[place] == pytest.approx(heat_loss(alone).total, rel=1e-12)


def test_percentiles_of_a_load_with_one_unknown_in_closed_form(tmp_path):
    """Triangular U between 1.6 and 2.8 W/m²K, likeliest 2, at 30 m² and 30 K; air 0.34 · 20 m³ · 30 K."""
    found = spread_of(box(tmp_path, SHELL))
    of_u = stats.triang(0.4 / 1.2, 1.6, 1.2).ppf([0.1, 0.5, 0.9])
    air = 0.34 * 20 * 30
    assert [found.p10, found.p50, found.p90] == pytest.approx((30 * 30 * of_u + air).tolist(), rel=1e-4)
    (index,) = found.indices
    assert (index.key, found.outside) == ("zones.saloon.sections.Shell.u_value", 0)
    assert index.total == pytest.approx(1, abs=0.07)  # a mean of 2,000 squares
    assert (index.at_low, index.at_high) == pytest.approx((1.6 * 900 + air, 2.8 * 900 + air))


def test_indices_of_a_load_with_three_unknowns_in_closed_form(tmp_path):
    """U·A varies as a product, the air is added: shares of the variance by the moments of the triangles."""
    project = box(
        tmp_path,
        SHELL,
        "{is: 30 m2, basis: assumed, spread: 6 m2}",
        "{is: 1 1/h, basis: assumed, spread: [0.5 1/h, 4 1/h]}",
    )
    u, a = stats.triang(0.4 / 1.2, 1.6, 1.2), stats.triang(0.5, 24, 12)
    n = stats.triang(0.5 / 3.5, 0.5, 3.5)
    air = (0.34 * 20) ** 2 * n.var()
    of_u, of_a, both = u.var() * a.mean() ** 2, a.var() * u.mean() ** 2, u.var() * a.var()
    whole = of_u + of_a + both + air
    expected = {
        "zones.saloon.sections.Shell.u_value": ((of_u + both) / whole, of_u / whole),
        "zones.saloon.sections.Shell.area": ((of_a + both) / whole, of_a / whole),
        "zones.saloon.air_changes": (air / whole, air / whole),
    }
    found = {index.key: index for index in spread_of(project).indices}
    assert found.keys() == expected.keys()
    for key, (total, alone) in expected.items():
        assert found[key].total == pytest.approx(total, abs=0.05)
        assert found[key].alone == pytest.approx(alone, abs=0.05)
    strongest = max(expected, key=lambda key: expected[key][0])
    assert spread_of(project).indices[0].key == strongest


def test_only_what_is_assumed_is_sampled(tmp_path):
    measured = SHELL.replace("assumed", "measured")
    found = spread_of(box(tmp_path, measured))
    assert found.indices == ()
    assert found.p10 == pytest.approx(float(found.value))
    assert found.p90 == pytest.approx(float(found.value))


def test_a_figure_without_a_spread_takes_the_usual_one_of_its_kind_and_a_choice_none(tmp_path):
    text = BOX.format(sides="2 W/m2K", area="30 m2", changes="1 1/h").replace("measured", "assumed")
    found = uncertainty(project := boat(tmp_path, text), (heat_loss(project),))
    ends = {unknown.key: (unknown.first.low, unknown.first.high) for unknown in found.unknowns}
    assert ends["zones.saloon.sections.Shell.u_value"] == pytest.approx((1.5, 2.5))
    assert ends["zones.saloon.sections.Shell.area"] == pytest.approx((27, 33))
    assert not any("target" in key or key.startswith("conditions.outside") for key in ends)
    assert all(unknown.usual for unknown in found.unknowns if not unknown.convention)


def test_a_convention_that_stands_in_at_several_places_is_one_unknown():
    found = uncertainty(project := load(CUTTER), (heat_loss(project),))
    (air,) = [unknown for unknown in found.unknowns if unknown.key == "zones.air_per_person"]
    assert air.convention
    assert len(air.figures) == 6
    assert "zones.air_per_person" not in {each.unknown.key for each in found.measure_next}


def test_the_points_of_a_pump_curve_move_together():
    project = read("barley_moth_a")
    ring = asked_again(project)[1]
    unknowns = unknowns_behind(project, [ring.design.heat.zones["saloon"].margin])
    (curve,) = [unknown for unknown in unknowns.each if unknown.key == "components.P1.curve"]
    assert len(curve.figures) >= 3
    drawn = unknowns.drawn(1, 500)
    rows = [drawn[unknowns.places[figure.line]] for figure in curve.figures]
    assert np.all(np.diff(np.array(rows), axis=0) < 0)  # falling from point to point in every sample


def test_samples_outside_the_range_of_a_formula_are_counted_never_clipped(tmp_path):
    """Air changes mean something up to 72 an hour; the triangle from 0.5 over 1 to 100 leaves 7.9 % above."""
    project = box(tmp_path, changes="{is: 1 1/h, basis: assumed, spread: [0.5 1/h, 100 1/h]}")
    found = spread_of(project)
    changes = stats.triang(0.5 / 99.5, 0.5, 99.5)
    assert found.outside == pytest.approx(SAMPLES * changes.sf(72), abs=1)
    inside = changes.cdf(72)
    expected = [900 * 2 + 0.34 * 20 * 30 * changes.ppf(share * inside) for share in (0.1, 0.5, 0.9)]
    assert [found.p10, found.p50, found.p90] == pytest.approx(expected, rel=2e-3)
    assert f"{found.outside} of them outside the range" in origin_of(found.p90).statement.text


def test_the_same_content_gives_the_same_samples_and_other_content_others(tmp_path):
    first, again = (spread_of(box(tmp_path, SHELL)) for _ in range(2))
    (tmp_path / "other").mkdir()
    other = spread_of(
        boat(tmp_path / "other", BOX.format(sides=SHELL, area="30 m2", changes="1 1/h") + "#\n")
    )
    assert (first.p10, first.p90, first.indices[0].total) == (again.p10, again.p90, again.indices[0].total)
    assert first.indices[0].total != other.indices[0].total
    assert first.p90 == pytest.approx(other.p90, rel=1e-3)


def test_results_bear_the_full_names_of_result_and_key(tmp_path):
    project = box(tmp_path, changes="{is: 1 1/h, basis: assumed, spread: 40 %}")
    found = {r.name: r for r in named_results(uncertainty(project, (heat_loss(project),)))}
    assert list(found) == [
        *(f"uncertainty.heat_loss.total.{p}" for p in ("p10", "p50", "p90")),
        "uncertainty.heat_loss.total.index.zones.saloon.air_changes",
    ]
    assert found["uncertainty.heat_loss.total.p90"].quantity.unit == "W"
    assert found["uncertainty.heat_loss.total.index.zones.saloon.air_changes"].quantity.unit == "1"
    for result in found.values():
        assert "zones.saloon.target" in {line.key for line in lines_behind(result.value)}


def test_the_spread_of_a_demonstration_stands_in_the_plain_results():
    assessment = assessed("puddle_wren")
    plain = as_plain(assessment)
    json.dumps(plain, allow_nan=False)
    results = plain["results"]
    assert results["uncertainty.heat_loss.total.p90"]["unit"] == "W"
    assert results["uncertainty.heat_loss.total.p90"]["basis"] == str(Basis.ASSUMED)
    assert results["uncertainty.fuel.per_day.p10"]["unit"] == "m3"
    p10, p50, p90 = (results[f"uncertainty.heat_loss.total.{p}"]["value"] for p in ("p10", "p50", "p90"))
    assert p10 < p50 < p90
    indices = [name for name in results if name.startswith("uncertainty.heat_loss.total.index.")]
    assert indices[0].endswith("zones.cabin.sections.Shell.u_value")
    assert all(re.fullmatch(r"[\w.]+", name) for name in indices)


def test_what_to_measure_next_is_led_by_what_moves_a_result_most():
    """Puddle Wren's load is U·A of the shell first: its U-value is known worst of all."""
    found = studied("puddle_wren").uncertainty
    first = found.measure_next[0]
    assert first.unknown.key == "zones.cabin.sections.Shell.u_value"
    assert first.line.line is not None
    effects = [each.effect for each in found.measure_next]
    assert effects == sorted(effects, reverse=True)
    load_spread = found.spreads["heat_loss.total"]
    wide = (float(load_spread.p90) - float(load_spread.p10)) / 2 / float(load_spread.value)
    assert 0.7 * wide < first.effect < 1.2 * wide


def test_the_check_of_guesses_and_the_study_agree_on_what_moves_the_load():
    found = studied("puddle_wren")
    spread = found.uncertainty.spreads["heat_loss.total"]
    shell = next(g for g in guesses(found) if g.key == "zones.cabin.sections.Shell.u_value")
    assert shell.result == "heat_loss.total"
    assert shell.effect == pytest.approx(0.25 * 1.8 * 26 * 24 / float(spread.value), rel=1e-9)
    assert shell.effect == pytest.approx(spread.moves[shell.key] / float(spread.value))


def test_the_solved_ring_is_held_where_it_adds_little_and_that_is_told():
    project = read("starter")
    found = uncertainty(project, asked_again(project), asked_again)
    margins = [spread for name, spread in found.spreads.items() if name.startswith("zone_margin")]
    assert found.solutions == uncertainty_solutions.POINTS
    assert margins
    assert all(0 < spread.held <= uncertainty_solutions.COUNTS for spread in margins)
    assert not any(spread.linear for spread in margins)


def test_a_ring_that_counts_is_added_in_a_straight_line(monkeypatch):
    """All figures behind the ring moved at once: the line meets the full solution within a tenth."""
    monkeypatch.setattr(uncertainty_solutions, "COUNTS", 0.0)
    project = read("starter")
    parts = asked_again(project)
    named = {r.name: r.value for r in named_results(parts)}
    margins = {name: value for name, value in named.items() if name.startswith("zone_margin.heating")}
    unknowns = unknowns_behind(project, margins.values())
    graph = SampledWorkings(margins, unknowns.places.get)
    drawn = unknowns.drawn(5, 500)
    values = graph.run(drawn)
    deviations = {name: float(np.std(graph.of_result(name, drawn, values))) for name in margins}
    found = uncertainty_solutions.solutions(project, margins, graph, unknowns, deviations, asked_again)
    assert found.slopes.keys() == margins.keys()
    behind = frozenset().union(*graph.held.values())
    point = [np.array([f.value]) for f in unknowns.figures]
    for place in sorted(behind):
        figure = unknowns.figures[place]
        point[place] = np.array([figure.value + 0.4 * (figure.high - figure.value)])
    moved = {unknowns.figures[place].line.key: float(point[place][0]) for place in behind}
    full = {r.name: float(r.value) for r in named_results(asked_again(project.with_numbers(moved)))}
    for name, value in margins.items():
        ours = graph.of_result(name, point, graph.run(point)) + found.added(name, unknowns, point)
        change = full[name] - float(value)
        assert float(ours[0]) - float(value) == pytest.approx(change, abs=0.1 * abs(change) + 0.5)


def test_without_a_load_nothing_is_studied(tmp_path):
    project = boat(tmp_path, "format: 1\nvessel: {name: Bare}\n")
    found = study(project).uncertainty
    assert isinstance(found, NotAssessed)
    assert "zones" in found.needs


def test_the_load_is_as_sure_for_the_checks_as_on_the_page():
    """The checks sample few results: page and check show the same figures."""
    boat = studied("starter")
    alone, among = boat.watched.spreads["heat_loss.total"], boat.uncertainty.spreads["heat_loss.total"]
    assert len(boat.watched.unknowns) < len(boat.uncertainty.unknowns)
    assert (float(alone.p10), float(alone.p90)) == (float(among.p10), float(among.p90))
    assert alone.moves == among.moves


def test_the_seed_is_that_of_the_files(tmp_path):
    """Percentiles again from the samples that SHA-256 of the file's own checksum, and a key, lead to."""
    project = box(tmp_path, SHELL)
    content = hashlib.sha256((tmp_path / "boat.yaml").read_bytes()).hexdigest()
    seed = int.from_bytes(hashlib.sha256(content.encode()).digest()[:8], "big")
    text = f"{seed} zones.saloon.sections.Shell.u_value"
    own = int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big")
    found = uncertainty(project, (heat_loss(project),))
    row = latin_hypercube(own, SAMPLES, 1)[0]
    u = stats.triang(0.4 / 1.2, 1.6, 1.2).ppf(row)
    expected = percentiles(900 * u + 0.34 * 20 * 30, (0.9,))[0]
    assert found.spreads["heat_loss.total"].p90 == pytest.approx(expected, rel=1e-9)
