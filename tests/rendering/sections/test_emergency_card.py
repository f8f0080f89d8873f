"""The emergency card: six places or a box to write them in, nobody sent back in, letters of 14 points."""

import pytest

from dossier.rendering.blocks import Anchor, Card, CardBand, CardPlaces, CardSteps
from dossier.rendering.drawings.places import Mark, Room, places_plan
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.record import record
from dossier.rendering.pages import render_pdf
from dossier.rendering.render import imprint
from dossier.rendering.sections.emergency_card import RESTART, section
from dossier.rendering.sections.emergency_places import room_named

NO_STOP_FOR_GAS = "Never go back in"


@pytest.fixture(scope="module")
def card(draft):
    def made(boat: str) -> Card:
        (found,) = section(draft(boat, "aboard"))
        return found

    return made


def places(card: Card) -> dict[str, str]:
    (listed,) = (part for part in card.back.parts if isinstance(part, CardPlaces))
    return {number: str(where) for number, _, where in listed.places}


def steps(card: Card) -> list[list[str]]:
    return [[str(step) for step in part.items] for part in card.front.parts if isinstance(part, CardSteps)]


def test_gas_comes_before_fire_and_its_first_step_is_out(card):
    # dossier.md, maintenance: order of actions common practice, no source
    boat = card("lantern_auk")
    titles = [str(part.title) for part in boat.front.parts if isinstance(part, CardBand)]
    assert titles == ["CARBON MONOXIDE", "FIRE"]
    assert steps(boat)[0][0].startswith("Everybody out into open air.")


@pytest.mark.parametrize("boat", ["lantern_auk", "barley_moth_a", "puddle_wren"])
def test_nobody_is_sent_back_in_for_a_switch(card, boat):
    assert NO_STOP_FOR_GAS in steps(card(boat))[0][2]


def test_places_of_the_file_are_printed_and_what_it_is_silent_on_is_left_to_write(card):
    found = places(card("lantern_auk"))
    assert found["1"] == "wheelhouse console"
    assert found["2"] == "V20 (wheelhouse)"  # the valve stands at the tank and is worked from there
    assert not found["3"]
    assert found["6"] == "saloon, fore cabin"
    assert not any(places(card("puddle_wren")).values())


def test_alarms_that_the_file_says_are_not_there_are_not_a_box_to_fill(card):
    assert places(card("barley_moth_a"))["6"] == "none aboard"


def test_a_boat_without_a_fire_port_is_not_told_to_use_one(card):
    assert not any("fire port" in step for step in steps(card("barley_moth_a"))[1])
    assert any("fire port" in step for step in steps(card("barley_moth_b"))[1])


def test_channel_name_number_and_muster_stand_in_their_steps(changed, tmp_path):
    text = """
format: 1
document:
  date: 2026-01-02
  emergency: {channel: VHF 16, call_name: "Marsh & <b>Heron</b>", number: "112", muster: aft deck}
components:
  B1: {kind: burner, output: {max: 5 kW, min: 5 kW}}
"""
    (made,) = section(changed(text, tmp_path, "aboard"))
    gas, fire = steps(made)
    assert "Radio VHF 16, as Marsh & <b>Heron</b>. Telephone 112." in gas[3]  # what a user writes is text
    assert fire[0] == "Shout. Everybody to aft deck with lifejackets."
    assert "Mayday on VHF 16" in fire[3]


def test_a_boat_without_hot_tap_water_is_not_told_of_its_shower(card):
    said = " ".join(str(getattr(part, "title", "")) for part in card("starter").back.parts)
    assert "Shower" not in said


@pytest.mark.parametrize("paper", ["A4", "A5", "letter"])
@pytest.mark.parametrize("boat", ["lantern_auk", "northern_quill", "barley_moth_b"])
def test_the_card_is_one_leaf_that_is_read_at_arms_length(draft, read, tmp_path, boat, paper):
    # 14 points at arm's length: common practice, no source; smaller are the line that names the document
    # and the hint in a box to write on
    made = draft(boat, "aboard", paper=paper)
    out = tmp_path / "card.pdf"
    render_pdf([*section(made), Anchor(RESTART, "Restart")], imprint(made), out, paper=paper)
    pages = read(out)
    faces = pages[: 2 if paper == "A5" else 1]
    assert "CARBON MONOXIDE" in faces[0].text
    assert "Restart" in faces[-1].text
    small = {word.text for face in faces for word in face.words if word.size < 14}
    document = made.project.document
    allowed = f"write the place here · Emergency card {document.number} {document.revision} {made.boat}"
    assert small <= set(allowed.split())


def test_words_tell_the_room_with_the_longest_name():
    assert room_named("back-cabin step", ["cabin", "back cabin", "saloon"]) == "back cabin"
    assert room_named("deck", ["saloon"]) == ""


def test_every_number_stands_on_the_plan_and_in_its_room_where_that_has_room():
    rooms = [Room("saloon", Box(4, -2, 9, 2)), Room("heads", Box(9.0, 1, 9.6, 2))]
    marks = [Mark("1", room="saloon"), Mark("2", at=(5.0, 0.0)), Mark("6", room="heads")]
    drawn = record(places_plan(12.0, 4.0, rooms, marks, 120.0))
    at = {label.name: label.box.middle for label in drawn.labels}
    assert {"1", "2", "6", "saloon", "heads"} <= set(at)
    across = 120.0 / 12.0
    assert 4 * across < at["1"][0] < 9 * across
    assert at["2"][0] == pytest.approx(5 * across, abs=1.0)
    boxes = [label.box for label in drawn.labels]
    assert not any(a.meets(b) for n, a in enumerate(boxes) for b in boxes[n + 1 :])
