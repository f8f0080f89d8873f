"""Short forms are written out to the long form and read as that; areas by plane geometry, worked by hand."""

from math import hypot

import pytest

from dossier.notation import Basis
from dossier.project.model import Group, Pipe, Unit

ROOM = """
zones:
  - id: saloon
    target: 20 degC
    room: {long: 4.4 m, wide: [3.9 m, 3.6 m, 3.0 m], high: 1.95 m, under_water: 0.6 m}
    aft: engine_room
    hull: topsides
    below_water: bottom
    deck: deck
    sole: bottom
    bulkhead: side
    windows: ["6 x 500 mm x 300 mm double 6 mm"]
    air: ordinary
  - {id: engine_room, floats: true}
build_ups:
  topsides: {plate: steel 6 mm, insulation: mineral_wool 50 mm, frames: every 500 mm, lining: plywood 9 mm}
  deck: {like: topsides, insulation: mineral_wool 80 mm}
  bottom: {layers: [{material: steel, thickness: 6 mm}]}
  side: {layers: [{material: plywood, thickness: 12 mm}]}
"""


def room(desk, text=ROOM):
    zone = desk.read(text).zones[0]
    return zone, {section.name: section for section in zone.sections}


def test_a_room_gives_sides_sole_deck_end_and_volume(desk):
    zone, sections = room(desk)
    side = hypot(2.2, 0.15) + hypot(2.2, 0.3)
    floor = 2.2 * (3.9 + 3.6) / 2 + 2.2 * (3.6 + 3.0) / 2
    assert sections["Sides above water"].area == pytest.approx(2 * side * 1.35 - 0.9, rel=1e-5)
    assert sections["Sides below water"].area == pytest.approx(2 * side * 0.6, rel=1e-5)
    assert sections["Sole"].area == pytest.approx(floor, rel=1e-5)
    assert sections["Deck"].area == pytest.approx(floor, rel=1e-5)
    assert sections["Aft end"].area == pytest.approx(3.9 * 1.95, rel=1e-5)
    assert zone.volume == pytest.approx(floor * 1.95, rel=1e-5)
    assert "Fore end" not in sections


def test_the_parts_of_a_room_face_what_is_said_and_have_their_build_up(desk):
    _, sections = room(desk)
    assert (sections["Sides above water"].faces, sections["Sides above water"].build_up) == (
        "air",
        "topsides",
    )
    assert (sections["Sides below water"].faces, sections["Sides below water"].build_up) == ("sea", "bottom")
    assert (sections["Sole"].faces, sections["Sole"].heat_flow) == ("sea", "down")
    assert (sections["Deck"].faces, sections["Deck"].heat_flow, sections["Deck"].build_up) == (
        "air",
        "up",
        "deck",
    )
    assert (sections["Aft end"].faces.zone, sections["Aft end"].build_up) == ("engine_room", "side")


def test_what_a_room_gives_is_assumed_with_its_spread_unless_it_is_measured(desk):
    zone, sections = room(desk)
    area = sections["Deck"].area
    assert area.origin.basis is Basis.ASSUMED
    assert area.origin.spread == pytest.approx((0.85 * area, 1.15 * area))
    assert area.origin.note == "from room: 4.4 m x 3.525 m"
    assert area.origin.line == 5
    _, measured = room(desk, ROOM.replace("{long: 4.4 m,", "{basis: measured, long: 4.4 m,"))
    assert measured["Deck"].area.origin.basis is Basis.MEASURED
    assert zone.room.long == 4.4


def test_a_straight_room_with_one_width(desk):
    _, sections = room(
        desk,
        ROOM.replace("[3.9 m, 3.6 m, 3.0 m]", "3.0 m").replace(
            "    windows", "    port: engine_room\n    windows"
        ),
    )
    assert sections["Sole"].area == pytest.approx(13.2)
    assert sections["Starboard side above water"].area == pytest.approx(4.4 * 1.35 - 0.9)
    assert (sections["Port side"].area, sections["Port side"].faces.zone) == (
        pytest.approx(4.4 * 1.95),
        "engine_room",
    )


def test_windows_are_glazed_and_taken_out_of_the_sides(desk):
    _, sections = room(desk)
    windows = sections["Windows"]
    assert windows.area == pytest.approx(0.9)
    assert (windows.glazing.panes, windows.glazing.thickness, windows.glazing.material) == (
        "double",
        0.006,
        None,
    )
    assert windows.area.origin.text == "6 x 500 mm x 300 mm"


def test_air_in_a_word_is_assumed_with_its_ends(desk):
    zone, _ = room(desk)
    assert zone.air_changes == pytest.approx(1 / 3600)
    assert zone.air_changes.origin.basis is Basis.ASSUMED
    assert zone.air_changes.origin.spread == pytest.approx((0.5 / 3600, 2 / 3600), rel=1e-3)
    assert "common practice, no source" in zone.air_changes.origin.note


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("    bulkhead: side\n", "", "the room names no build-up for its bulkhead; write bulkhead:"),
        ("    sole: bottom\n", "", "the room names no build-up for its sole; write sole:"),
        (
            "wide: [3.9 m, 3.6 m, 3.0 m]",
            "wide: [3.9 m, 3.6, 3.0 m]",
            "wide needs a unit, found '3.6'; write 3.6 m",
        ),
        ("long: 4.4 m, ", "", "room has no long"),
        ("double 6 mm", "dubble 6 mm", "windows cannot be '6 x 500 mm x 300 mm dubble 6 mm'"),
        ("6 x 500 mm x 300 mm", "6 x 500 mm", "windows cannot be '6 x 500 mm double 6 mm'"),
        ("air: ordinary", "air: stuffy", "air cannot be 'stuffy'; write one of: tight, ordinary, draughty"),
        ("air: ordinary", "air: tight\n    air_changes: 1 1/h", "air and air_changes are both given"),
        ("aft: engine_room", "aft: engineroom", "aft: no zone is called 'engineroom'; write engine_room"),
        ("hull: topsides", "hull: topside", "hull: no build-up is called 'topside'; write topsides"),
        (
            "frames: every 500 mm",
            "frames: at 500 mm",
            "frames cannot be 'at 500 mm'; write frames: every 500 mm",
        ),
        (
            "plate: steel 6 mm",
            "plate: oak 40 mm",
            "frames given by their spacing alone are of the plate's metal",
        ),
        (
            "plate: steel 6 mm",
            "plate: steel",
            "plate is a material and its thickness, found 'steel'; write steel 6 mm",
        ),
        ("like: topsides", "like: topside", "like: no build-up is called 'topside'; write topsides"),
        ("plate: steel 6 mm", "plate: stel 6 mm", "material: no material is called 'stel'; write steel"),
    ],
)
def test_faults_of_a_short_form(desk, old, new, said):
    faults = desk.faults(ROOM.replace(old, new))
    texts = [f"{fault.what}; {fault.instead}" for fault in faults]
    assert any(text.startswith(said) for text in texts), texts
    assert len(texts) <= 2, texts


def test_a_build_up_by_its_parts(desk):
    build_up = desk.read(ROOM).build_ups["topsides"]
    assert [(layer.material, layer.thickness) for layer in build_up.layers] == [
        ("steel", 0.006),
        ("mineral_wool", 0.05),
        ("plywood", 0.009),
    ]
    frames = build_up.frames
    assert (frames.material, frames.spacing, frames.depth) == ("steel", 0.5, 0.05)
    assert frames.web.origin.basis is Basis.ASSUMED
    assert frames.flange.origin.spread == pytest.approx((0.03, 0.08))
    assert [layer.material for layer in frames.covered_by] == ["plywood"]


def test_a_build_up_like_another_differs_in_what_is_written(desk):
    layers = desk.read(ROOM).build_ups["deck"].layers
    assert [layer.thickness for layer in layers] == [0.006, 0.08, 0.009]


def test_a_build_up_that_is_like_itself(desk):
    text = "build_ups: {a: {like: b, lining: plywood 9 mm}, b: {like: a, lining: plywood 9 mm}}\n"
    assert all("is like itself" in fault.what for fault in desk.faults(text))


@pytest.mark.parametrize(
    ("written", "panes", "material", "thickness"),
    [
        ("single 8 mm", "single", None, 0.008),
        ("double acrylic 6 mm", "double", "acrylic", 0.006),
        ("Triple", "triple", None, None),
        ("{panes: double, material: acrylic, thickness: 6 mm, gap: 12 mm}", "double", "acrylic", 0.006),
    ],
)
def test_glazing_in_words(desk, written, panes, material, thickness):
    section = f"{{name: W, glazing: {written}, area: 1 m2, faces: air}}"
    glazing = (
        desk.read(f"zones: [{{id: a, floats: true, sections: [{section}]}}]\n").zones[0].sections[0].glazing
    )
    assert (glazing.panes, glazing.material, glazing.thickness) == (panes, material, thickness)


def test_a_typical_part_is_assumed_until_its_plate_is_read(desk):
    project = desk.read(
        """
        zones: [{id: saloon, floats: true}]
        components:
          F1: {typical: fan coil 4 kW, zone: saloon, power: {is: 28 W, basis: plate}}
        """
    )
    coil = project.components["F1"]
    assert (coil.kind, coil.zone, coil.output, coil.power) == ("fan_coil", "saloon", 4000, 28)
    assert coil.output.origin.basis is Basis.ASSUMED
    assert coil.output.origin.spread == pytest.approx((3200, 4800))
    assert coil.power.origin.basis is Basis.PLATE
    assert coil.at.water_in == pytest.approx(353.15)


def test_an_unknown_typical_part_leads_to_the_nearest(desk):
    text = "components: {F1: {typical: fan coil 4kW, power: 3 W}}\n"
    assert desk.fault(text) == "no typical part is called 'fan coil 4kW'; write fan coil 4 kW"


RING = """
components: {P1: {kind: pump}, B1: {kind: burner}, X1: {kind: tap_exchanger}, M1: {kind: manifold},
             M2: {kind: manifold}, V1: {kind: balancing_valve}, V9: {kind: bypass_valve}}
circuit:
  ring: [P1, B1, "hose 22, 1.6 m, 2 bends", X1, "M1 to M2", "hose 22, 2 m, 3 bends"]
  branches: {saloon: [V1, "pex 16x2.0, 4 m"], bypass: [V9]}
"""


def test_a_ring_in_short(desk):
    project = desk.read(RING)
    ring = project.circuit.ring
    assert [type(item) for item in ring] == [Unit, Unit, Pipe, Unit, Group, Pipe]
    assert (ring[2].id, ring[2].size, ring[2].length, ring[2].bends) == ("ring_1", "hose 22", 1.6, 2)
    assert project.branches()["saloon"][1].length == 4
    assert project.circuit.branches is None


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("X1, ", "X9, ", "unit: no component is called 'X9'"),
        ("1.6 m, 2 bends", "1.6, 2 bends", "length needs a unit, found '1.6'; write 1.6 m"),
        ("1.6 m, 2 bends", "1.6 m, 2 m", "the pipe 'hose 22, 1.6 m, 2 m' has its length twice"),
        ('"M1 to M2", ', "", "branches stand beside the ring and no group of it is written 'M1 to M2'"),
        ("hose 22, 2 m", "hoze 22, 2 m", "size: no size of pipe is called 'hoze 22'; write hose 22"),
    ],
)
def test_faults_of_a_ring_in_short(desk, old, new, said):
    assert desk.fault(RING.replace(old, new)).startswith(said)


MARKS = "marks: {main_bulkhead: {along: 6.6 m}, sole: {up: -0.55 m}}\n"


@pytest.mark.parametrize(
    ("written", "point"),
    [
        ("1.3 m aft of main_bulkhead, 1.55 m starboard, 0.65 m above sole", (5.3, -1.55, 0.1)),
        ("1 m forward of main_bulkhead, 0.4 m port, 1 m above waterline", (7.6, 0.4, 1.0)),
        ("at main_bulkhead, on the centreline, 20 cm below the sole", (6.6, 0.0, -0.75)),
        ("at main_bulkhead, 2 ft to port, at sole", (6.6, 0.6096, -0.55)),
    ],
)
def test_places_from_marks(desk, written, point):
    place = desk.read(f'{MARKS}layout: {{places: {{B1: {{at: "{written}"}}}}}}\n').layout.places["B1"]
    assert place.at == pytest.approx(point)
    assert place.at.x.origin.text == written
    assert place.at.x.origin.key == "layout.places.B1.at.x"


@pytest.mark.parametrize(
    ("written", "said"),
    [
        (
            "1.3 m aft of bulkhead, 1.55 m starboard, 0.65 m above sole",
            "at: no mark is called 'bulkhead'; write main_bulkhead",
        ),
        ("1.3 aft of main_bulkhead, 1.55 m starboard, 0.65 m above sole", "at needs a unit, found '1.3'"),
        (
            "1.3 m aft of main_bulkhead, 1.55 m starboard",
            "'1.3 m aft of main_bulkhead, 1.55 m starboard' does not give z",
        ),
        ("1 m aft of sole, 1 m port, 1 m above sole", "the mark sole says nothing along"),
        (
            "1 m aft of main_bulkhead, 1 m port, 1 m port",
            "'1 m aft of main_bulkhead, 1 m port, 1 m port' gives y twice",
        ),
        ("somewhere aft", "'somewhere aft' gives no place"),
    ],
)
def test_places_that_cannot_be_found(desk, written, said):
    text = f'{MARKS}layout: {{places: {{B1: {{at: "{written}"}}}}}}\n'
    assert desk.fault(text).startswith(said)


def test_a_size_in_words(desk):
    place = desk.read(
        "layout: {places: {B1: {at: [1 m, 1 m, 1 m], size: 0.5 m x 0.3 m x 340 mm}}}\n"
    ).layout.places["B1"]
    assert place.size == (0.5, 0.3, 0.34)
