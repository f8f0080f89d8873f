"""The aboard part: what the crew reads agrees with file and results, and names no part that is not aboard."""

import datetime as dt
import re

import pytest

from dossier.data.procedures import cautions_in, fault_trees
from dossier.data.procedures import procedures as all_procedures
from dossier.rendering.blocks import Heading, Panel, Steps, StopRule, Table
from dossier.rendering.sections import aboard, aboard_faults, aboard_maintenance, aboard_tonight
from dossier.rendering.text import Markup
from dossier.sizing.service_due import tasks_due


@pytest.fixture(scope="module")
def part(draft, walk):
    """All blocks of the aboard part of a boat, by boat and edition."""
    made = {}

    def blocks(boat, edition="aboard", paper="A4"):
        key = (boat, edition, paper)
        if key not in made:
            made[key] = list(walk(aboard.section(draft(boat, edition, paper=paper))))
        return made[key]

    return blocks


def table(blocks, key):
    return next(block for block in blocks if isinstance(block, Table) and block.key == key)


def row(blocks, key, head):
    return next([str(cell) for cell in r] for r in table(blocks, key).rows if str(r[0]).startswith(head))


def words(blocks):
    """Every word of the blocks."""

    def said(found):
        if isinstance(found, str | Markup):
            yield str(found)
        elif isinstance(found, list | tuple):
            for each in found:
                yield from said(each)

    for block in blocks:
        for name in getattr(block, "__slots__", ()):
            if name not in {"key", "field", "blocks"}:
                yield from said(getattr(block, name))


def test_supply_wanders_between_the_setpoint_and_its_band(part):
    # 78 °C and a band of 12 K stand in the file: 66 to 78 °C
    steady = row(part("lantern_auk"), "table_readings", "Supply temperature")[4]
    assert re.search(r"66\s°C.* to 78\s°C", steady)


def test_the_overheat_stat_of_the_file_is_the_stop_limit_of_the_supply(part):
    assert "98\u00a0°C (208\u00a0°F)" in row(part("lantern_auk"), "table_readings", "Supply temperature")[5]


def test_a_top_up_keeps_the_share(part):
    # 40 % by volume of two litres are 0.8 litres: arithmetic
    assert row(part("lantern_auk"), "table_top_up", "2.0") == ["2.0", "0.8", "1.2"]


def test_fuel_by_morning_is_that_of_the_calculation(part, assessed):
    fuel = float(assessed("lantern_auk").results["night.m5.fuel"].value)
    found = row(part("lantern_auk"), "table_tonight", "−5")
    assert float(found[1]) == pytest.approx(fuel * 1000, abs=0.051)


def test_days_left_are_never_rounded_up(part, assessed):
    for boat in ("lantern_auk", "northern_quill", "barley_moth_a"):
        for outside, name in (("5", "5"), ("0", "0"), ("−5", "m5"), ("−10", "m10"), ("−20", "m20")):
            days = float(assessed(boat).results[f"night.{name}.days_left"].value)
            assert int(row(part(boat), "table_tonight", outside)[3]) == int(days)


def test_a_cabin_that_is_not_held_is_named_with_what_it_keeps(part):
    held = row(part("barley_moth_a"), "table_tonight", "−20")[4]
    assert held.startswith("all but bathroom (")


def test_nights_without_a_circuit_do_not_claim_that_cabins_are_held(part):
    assert "not known" in row(part("puddle_wren"), "table_tonight", "0")[4]


def test_heating_and_tap_water_mode_stand_as_the_file_says(part):
    # modes of the file: V9 open, V1 to V4 shut in the mode "tap water only"
    positions = table(part("lantern_auk"), "table_valve_positions")
    modes = [str(column.label) for column in positions.columns]
    stand = {str(r[0]): str(r[modes.index("Tap water only")]) for r in positions.rows}
    assert {tag[:2]: said for tag, said in stand.items()} == {
        "V1": "SHUT", "V2": "SHUT", "V3": "SHUT", "V4": "SHUT", "V9": "open"
    }  # fmt: skip


def test_running_hours_that_come_first_move_the_service_forward(part, assessed):
    # 1,000 h at the hours of the file's season are run long before a year is out
    boat = assessed("northern_quill")
    service = next(t for t in tasks_due(boat.project, boat.study.season) if t.task.number == 21)
    assert service.due < dt.date(2027, 9, 28)
    listed = row(part("northern_quill"), "table_maintenance", "21")
    assert listed[4] == str(service.due)
    assert "here after" in listed[2]


def test_without_a_record_no_service_date_is_guessed(part):
    assert all(not str(r[4]) for r in table(part("lantern_auk"), "table_maintenance").rows)


def test_the_survey_has_the_maintenance_alone(part):
    titles = [str(b.text) for b in part("lantern_auk", "survey") if isinstance(b, Heading)]
    assert titles == ["Aboard", "Maintenance schedule"]


@pytest.mark.parametrize(
    ("boat", "absent"),
    [
        (
            "puddle_wren",
            ["header", "fan coil", "mixing valve", "bypass", "strainer", "zinc", "anodes", "shower"],
        ),
        ("starter", ["mixing valve", "exchanger for tap water", "shower", "glycol is poison"]),
        ("lantern_auk", ["safety valve", "engine-side", "Ethylene", "pre-charge", "the engine's coolant"]),
        ("barley_moth_a", ["engine-side", "V20"]),
    ],
)
def test_nothing_is_said_of_a_part_that_is_not_aboard(part, boat, absent):
    said = " ".join(words(part(boat)))
    assert not [word for word in absent if word in said]


def test_every_caution_meant_for_the_crew_stands_before_something(part):
    named = {step.caution for procedure in all_procedures().values() for step in procedure.steps}
    named |= {name for names in aboard_faults.PANELS.values() for name in names}
    named |= {*aboard_maintenance.PANELS, *aboard_tonight.PANELS, "bunkering"}
    assert {caution.id for caution in cautions_in("aboard")} <= named
    hazards = {str(b.hazard) for b in part("northern_quill") if isinstance(b, Panel)}
    assert any("Fuel vapour at the filler" in hazard for hazard in hazards)


def test_a_panel_stands_right_before_its_step(part):
    blocks = part("lantern_auk")
    at = next(n for n, b in enumerate(blocks) if isinstance(b, Heading) and b.key == "procedure_start")
    panel = next(n for n in range(at, len(blocks)) if isinstance(blocks[n], Panel))
    after = blocks[panel + 1]
    assert isinstance(after, Steps)
    assert "carbon monoxide alarm" in str(after.items[0])
    assert after.start == 1 + len(blocks[panel - 1].items)


def test_a_burner_with_dangers_is_not_started_from_a_page_that_hides_them(part):
    start = part("barley_moth_a")
    assert any("grade danger" in str(b.hazard) for b in start if isinstance(b, Panel))
    assert not any("grade danger" in str(b.hazard) for b in part("northern_quill") if isinstance(b, Panel))


def test_nobody_is_told_to_fit_a_fuse_that_does_not_protect_its_cable(part):
    # 30 A stand in the file before a cable that is found too thin for it
    said = " ".join(words(part("barley_moth_a")))
    assert "fuse of 30 A" not in said.replace("\u00a0", " ")
    assert "fit one fuse of 20 A" in " ".join(words(part("lantern_auk"))).replace("\u00a0", " ")


def test_without_alarms_the_page_for_the_start_says_no_heating(part):
    stops = [str(b.text) for b in part("barley_moth_a") if isinstance(b, StopRule)]
    assert any(text.startswith("No alarm, no heating") for text in stops)


def test_each_fault_that_can_occur_has_a_first_look_exits_and_a_stop_rule(part):
    for boat in ("lantern_auk", "northern_quill", "puddle_wren"):
        blocks = part(boat)
        listed = [str(r[0]) for r in table(blocks, "table_symptoms").rows]
        heads = [str(b.text) for b in blocks if isinstance(b, Heading) and b.key.startswith("fault_")]
        assert [head.split("  ")[0] for head in heads] == listed
        at = next(n for n, b in enumerate(blocks) if isinstance(b, Heading) and b.key == "faults")
        end = next(n for n, b in enumerate(blocks) if isinstance(b, Heading) and b.key == "maintenance")
        assert len(listed) == sum(isinstance(b, StopRule) for b in blocks[at:end])
    assert len(table(part("northern_quill"), "table_symptoms").rows) == len(fault_trees())


def test_a_reading_whose_limit_the_calculation_misses_says_so(part, assessed):
    boat = assessed("lantern_auk")
    assert float(boat.results["store.starts_per_hour"].value) > 3  # limit of the catalogue, common practice
    hazards = [str(b.hazard) for b in part("lantern_auk") if isinstance(b, Panel)]
    assert any("Calculated: starts up to" in hazard for hazard in hazards)
    tap = next(
        str(b.hazard) for b in part("barley_moth_a") if isinstance(b, Panel) and "at the tap" in str(b.hazard)
    )
    found = next(f for f in assessed("barley_moth_a").findings if f.check == "tap_water.outlet_max").found
    assert int(re.search(r"(\d+)\s°C", tap)[1]) >= float(found) - 273.15  # never rounded to the better side
    quiet = [str(b.hazard) for b in part("northern_quill") if isinstance(b, Panel)]
    assert not any("Calculated: starts up to" in hazard for hazard in quiet)


def test_steps_of_the_controller_are_steps_of_the_page(changed, tmp_path):
    text = """
format: 1
document: {date: 2026-01-02}
components:
  B1: {kind: burner, output: {max: 5 kW, min: 5 kW}}
controls: {panel: console, to_start: ["Press start & hold 3 s", "<b>Wait</b>"], to_stop: ["Press stop"]}
"""
    made = list(aboard.section(changed(text, tmp_path, "aboard")))
    steps = [str(item) for b in made if isinstance(b, Steps) for item in b.items]
    assert "Press start & hold 3 s" in steps
    assert "<b>Wait</b>" in steps  # what a user writes is text
    assert "Stop by the controller, never by the isolator." not in steps
