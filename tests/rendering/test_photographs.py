"""Photographs: turned as they were held, nothing of the camera left, hostile ones refused undecoded."""

import io
import struct
import zlib

import pytest
from PIL import Image

from dossier.notation import PageFault
from dossier.rendering.photographs import photograph

UPRIGHT_FROM_LEFT = 6  # Exif 2.32, orientation: the camera was turned; rotate by 90° to the right to view
ORIENTATION, PLACE = 0x0112, 0x8825


def picture(size=(400, 300), form="JPEG", **exif):
    image = Image.new("RGB", size, "grey")
    marks = image.getexif()
    for tag, value in exif.get("marks", {}).items():
        marks[tag] = value
    out = io.BytesIO()
    image.save(out, form, exif=marks)
    return out.getvalue()


def png_that_claims(width, height):
    """A PNG of a few bytes whose head promises many pixels."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0"))
        + chunk(b"IEND", b"")
    )


def test_a_photograph_fills_the_room_in_its_own_proportion():
    drawn = photograph(picture((400, 300)), "a.jpg", 200, 200)
    assert (drawn.width, drawn.height) == (200, 150)


def test_a_photograph_is_turned_as_the_camera_was_held():
    turned = photograph(picture(marks={ORIENTATION: UPRIGHT_FROM_LEFT}), "a.jpg", 200, 200)
    assert (turned.width, turned.height) == (150, 200)


def test_nothing_of_camera_or_place_is_left():
    content = picture(marks={PLACE: {1: "N", 2: (54.0, 3.0, 2.0)}, 0x010F: "Maker of cameras"})
    assert b"Maker of cameras" in content
    printed = photograph(content, "a.jpg", 200, 200).picture
    assert b"Maker of cameras" not in printed
    assert not Image.open(io.BytesIO(printed)).getexif()


def test_a_large_photograph_is_brought_to_the_resolution_of_print():
    printed = Image.open(io.BytesIO(photograph(picture((3000, 2000)), "a.jpg", 144, 144).picture))
    assert printed.size == (400, 267)  # 2 in at 200 pixels per inch


def test_what_shines_through_stands_on_white():
    clear = io.BytesIO()
    Image.new("RGBA", (50, 50), (0, 0, 0, 0)).save(clear, "PNG")
    printed = Image.open(io.BytesIO(photograph(clear.getvalue(), "a.png", 36, 36).picture))
    assert printed.getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize(
    "content",
    [b"", b"\xff\xd8 rubbish", picture()[:900], b"GIF89a" + bytes(40), picture(form="TIFF"), b"<svg/>"],
    ids=["empty", "rubbish", "cut short", "gif", "tiff", "svg"],
)
def test_what_is_no_whole_picture_is_refused_by_name(content):
    with pytest.raises(PageFault, match=r"pictures/a\.jpg is no whole JPEG or PNG picture"):
        photograph(content, "pictures/a.jpg", 200, 200)


@pytest.mark.parametrize("size", [(60_000, 60_000), (1, 1_000_000), (6_000, 6_000)])
def test_a_picture_with_too_many_pixels_is_refused_unread(size):
    with pytest.raises(PageFault, match="pixels, more than"):
        photograph(png_that_claims(*size), "a.png", 200, 200)
