"""`explain` leads from a result to the lines of the file, and from a slip to what is meant."""

import re

import pytest

from dossier.notation import Line, Row, Working, origin_of
from dossier.rendering.explanation import explanation


def test_load_of_the_smallest_boat_is_led_back_to_its_lines(run, smallest):
    # By hand: 26 m2 · 1.8 W/m2K · (18 + 6) K = 1123.2 W; 2.4 m2 · 5.8 W/m2K · 24 K = 334.1 W.
    done = run("explain", smallest, "heat_loss.total")
    assert done.status == 0
    assert "= 1,123 W" in done.out
    assert "= 334.1 W" in done.out
    lines = smallest.read_text(encoding="utf-8").splitlines()
    for key, written in (("zones.cabin.sections.Shell.area", "26 m2"), ("conditions.outside_air", "-6 degC")):
        (number,) = set(re.findall(rf"puddle_wren\.yaml:(\d+)  {re.escape(key)}: {written}", done.out))
        assert written in lines[int(number) - 1]


def test_every_step_that_is_pointed_to_is_told(run, smallest):
    out = run("explain", smallest, "heat_loss.total").out
    told = set(re.findall(r"^(\d+)\. ", out, re.MULTILINE))
    assert set(re.findall(r"; step (\d+)$", out, re.MULTILINE)) <= told
    assert "further down" not in out


def test_depth_says_how_many_steps_are_left_out(run, smallest):
    out = run("explain", smallest, "heat_loss.total", "--depth", "1").out
    assert "\n2. " not in out
    assert re.search(r"\d+ steps further down", out)


def test_a_percentile_is_told_with_its_samples(run, smallest):
    out = run("explain", smallest, "uncertainty.heat_loss.total.p90").out
    assert "10000 samples of" in out
    assert "Monte Carlo" in out


def test_a_result_of_an_alternative_is_explained_in_it(run, tmp_path):
    # By hand: 4 m2 · 2 W/m2K · 20 K; insulated, 4 m2 · 0.5 W/m2K · 20 K = 40 W.
    zone = (
        "zones: [{id: cabin, target: 20 degC, volume: 5 m3, air_changes: 1 1/h, people: 0,"
        " sections: [{name: Deck, u_value: %s, area: 4 m2, faces: air}]}]"
    )
    file = tmp_path / "boat.yaml"
    stands, better = zone % "2 W/m2K", zone % "0.5 W/m2K"
    file.write_text(
        f"format: 1\nconditions: {{outside_air: 0 degC}}\n{stands}\n"
        f"alternatives: {{insulated: {{{better}}}}}\n",
        encoding="utf-8",
    )
    assert "= 160 W" in run("explain", file, "heat_loss.section.cabin.Deck").out
    assert "= 40 W" in run("explain", file, "alternative.insulated.heat_loss.section.cabin.Deck").out


def test_a_check_is_told_with_limit_and_source(run, smallest):
    out = run("explain", smallest, "heat.source_reserve").out
    assert re.search(r"^check \d+, heat\.source_reserve: ", out, re.MULTILINE)
    assert re.search(r"^limit  +\S", out, re.MULTILINE)


@pytest.mark.parametrize(
    ("slip", "meant"),
    [
        ("heatloss.total", "heat_loss.total"),
        ("heat_loss.zone.cabine", "heat_loss.zone.cabin"),
        ("exhaust.lenght", "exhaust.length"),
        ("zones.cabin.volum", "zones.cabin.volume"),
        ("total", "heat_loss.total"),
    ],
)
def test_a_slip_is_answered_with_the_nearest_names(run, smallest, slip, meant):
    done = run("explain", smallest, slip)
    assert done.status == 2
    assert done.out == ""
    assert meant in done.err
    assert done.err.count("\n") == 1


def test_a_key_shows_what_a_short_form_was_written_out_to(run, tmp_path):
    file = tmp_path / "boat.yaml"
    file.write_text(
        "format: 1\n"
        "zones: [{id: saloon, target: 20 degC, "
        "room: {long: 4 m, wide: 3 m, high: 2 m}, hull: skin, deck: skin, sole: skin}]\n"
        "build_ups: {skin: {plate: steel 6 mm, insulation: mineral_wool 50 mm}}\n",
        encoding="utf-8",
    )
    out = run("explain", file, "saloon").out
    assert re.search(r"^ *sections\.\S.*\.area +\S", out, re.MULTILINE)
    assert re.search(r"^volume +\S.* boat\.yaml:2  assumed", out, re.MULTILINE)


def test_nothing_in_a_file_steers_the_terminal(run, tmp_path):
    file = tmp_path / "boat.yaml"
    file.write_text('format: 1\nvessel: {name: "Red\\u009b31m Boat\\e[0m"}\n', encoding="utf-8")
    done = run("explain", file, "vessel")
    assert "\x1b" not in done.out + done.err
    assert "\x9b" not in done.out + done.err


def test_every_result_of_a_whole_boat_can_be_explained(cutter_assessed):
    for name, result in cutter_assessed.results.items():
        assert result.value == 0 or isinstance(origin_of(result.value), Working | Line | Row), name
        first = explanation(cutter_assessed, name, depth=1).splitlines()[0]
        assert first.startswith(f"{name}: "), name
