"""Every kind of component has its sign, with ports on its outline."""

import pytest

from dossier.rendering.drawings.placing import Place
from dossier.rendering.drawings.record import chords
from dossier.rendering.drawings.shapes import Text
from dossier.rendering.drawings.signs import SIGNS, WORDS, sign

KINDS = [
    "burner",
    "pump",
    "fan_coil",
    "radiator",
    "towel_rail",
    "floor_loop",
    "tap_exchanger",
    "recovery_exchanger",
    "water_heater",
    "buffer",
    "header_tank",
    "membrane_vessel",
    "manifold",
    "balancing_valve",
    "bypass_valve",
    "shut_valve",
    "check_valve",
    "thermostatic_valve",
    "three_way_valve",
    "motor_valve",
    "air_separator",
    "safety_valve",
    "fuel_shut_off",
    "engine",
    "generator",
    "fuel_tank",
    "fuel_filter",
    "isolator",
    "battery",
]


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_a_sign_and_a_word_for_the_legend(kind):
    assert sign(kind).kind == kind
    assert WORDS[kind]


@pytest.mark.parametrize("kind", sorted(SIGNS))
def test_a_sign_stays_inside_its_box_and_its_ports_on_it(kind):
    box = SIGNS[kind].box.grown(0.45)
    for shape in SIGNS[kind].shapes:
        for part in shape.parts():
            if not isinstance(part, Text):
                assert all(
                    box.left <= x <= box.right and box.bottom <= y <= box.top
                    for a, b in chords(part)
                    for x, y in (a, b)
                )
    for _, (x, y) in SIGNS[kind].ports:
        assert box.left <= x <= box.right
        assert box.bottom <= y <= box.top


def test_no_two_signs_are_drawn_alike():
    looks = {tuple(part for shape in each.shapes for part in shape.parts()) for each in SIGNS.values()}
    assert len(looks) == len(SIGNS)


@pytest.mark.parametrize(
    ("quarters", "tip"), [(0, (13.75, 20)), (1, (10, 23.75)), (2, (6.25, 20)), (3, (10, 16.25))]
)
def test_a_pump_turned_by_quarters_points_where_it_pumps(quarters, tip):
    assert Place(10, 20, quarters).point(sign("pump").port("out")) == pytest.approx(tip)


def test_a_mirrored_sign_lets_in_from_the_right_and_its_letter_stays_readable():
    place = Place(0, 0, mirrored=True)
    assert place.point(sign("motor_valve").port("in"))[0] > 0
    letters = [part.text for part in sign("motor_valve").placed(place).parts() if isinstance(part, Text)]
    assert letters == ["M"]
