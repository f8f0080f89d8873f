"""Rooms are drawn to scale, where they are, and their lettering keeps apart."""

from dossier.rendering.drawings.rooms import HullDrawn, RoomDrawn, rooms_drawn
from dossier.rendering.drawings.shapes import Rect, Text

ROOMS = (
    RoomDrawn("1", "Saloon", 4.0, 3.0, (2.0, -1.5)),
    RoomDrawn("2", "Engine room", 4.0, 3.0, (2.0, -1.5)),
    RoomDrawn("3", "Heads", 1.2, 1.2),
)


def outlines(drawing):
    return [
        shape for shape in drawing.shapes if isinstance(shape, Rect) and shape.pen and shape.pen.width == 0.5
    ]


def test_a_metre_is_a_metre_at_the_scale_that_is_told():
    drawing = rooms_drawn(ROOMS, HullDrawn(8.0, 3.2), 175.0, "FWD")
    assert drawing.title == "1 : 50"
    loose, placed, _ = outlines(drawing)
    assert (round(placed.width, 6), round(placed.height, 6)) == (80.0, 60.0)
    assert round(loose.width, 6) == 24.0


def test_a_long_boat_takes_a_smaller_scale_and_stays_on_the_sheet():
    drawing = rooms_drawn(ROOMS, HullDrawn(30.0, 5.0), 175.0, "FWD")
    assert drawing.title == "1 : 200"
    assert all(0 <= shape.x <= 175 - shape.width for shape in outlines(drawing))


def test_rooms_over_one_another_bear_their_names_apart():
    words = [shape for shape in rooms_drawn(ROOMS, None, 175.0, "FWD").shapes if isinstance(shape, Text)]
    saloon = next(word for word in words if "Saloon" in word.text)
    engine_room = next(word for word in words if "Engine room" in word.text)
    assert not saloon.box.meets(engine_room.box)
