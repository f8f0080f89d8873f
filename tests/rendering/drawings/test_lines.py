"""One-line and fuel line: everything told stands on the sheet once, and nothing stands on anything else."""

import pytest

from dossier.rendering.drawings.fuel_line import Fitting, FuelWay, fuel_sheet
from dossier.rendering.drawings.one_line import Feeder, Supply, one_line_sheets
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock

LONG = "starboard quarter berth and oilskin locker under the side deck"


def form(paper="A4"):
    return Form(TitleBlock(title="Lines", boat="Marsh Heron"), paper, ("Tags shown: B1, P1.",))


def feeder(name="burner", loads=("B1",), **more):
    told = {"fuse": "20 A", "fuse_note": "150 mm of cable before it", "cable": "6 mm² (10 AWG), 4.2 m"}
    told |= {"drop": "0.12 V lost running, 0.38 V starting", "said": ("starts at 13.9 A, runs at 4.5 A",)}
    return Feeder(name, **{**told, "loads": loads, **more})


def texts_of(drawing):
    seen = record(drawing)
    return {*seen.texts, *(sign.name for sign in seen.signs)}


def test_a_circuit_shows_fuse_cable_drop_and_consumers():
    (drawing,) = one_line_sheets(Supply(("24 V system", "300 Ah"), (feeder(isolator="Q1"),)), form())
    told = {"20 A", "6 mm² (10 AWG), 4.2 m", "B1", "Q1", "burner", "300 Ah", "battery"}
    assert told <= texts_of(drawing)


def test_a_circuit_without_a_fuse_has_no_sign_of_one():
    (drawing,) = one_line_sheets(Supply(("12 V",), (feeder(fuse="no fuse", has_fuse=False),)), form())
    assert "no fuse" in texts_of(drawing)
    assert not any(sign.name.startswith("fuse") for sign in record(drawing).signs)


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_many_circuits_with_long_names_take_several_sheets_and_keep_apart(paper):
    feeders = [
        feeder(f"{LONG} {n}", tuple(f"F{k}" for k in range(n + 1)), isolator=LONG, said=(LONG, LONG))
        for n in range(13)
    ]
    drawings = one_line_sheets(Supply((LONG, "300 Ah", "50 % usable"), tuple(feeders)), form(paper))
    assert len(drawings) > 1
    for drawing in drawings:
        assert misfits(drawing, Sheet(paper).frame.grown(8.0)) == ()


WAY = FuelWay(
    ("Fuel tank", "900 l", "85 % usable"),
    "B1",
    (Fitting("fuel_shut_off", "V20", "worked from wheelhouse"), Fitting("fuel_filter", "L1")),
    vent="vent, led to the coaming",
    top="top of the tank 0.40 m over the waterline",
    heating="heating picks up 120 mm over the bottom",
    engine="engine picks up 40 mm over the bottom",
    lift="0.50 m",
    is_over=True,
    before="1.00 m from tank to pump",
    after="3.40 m from pump to burner, bore 4 mm, copper",
)


def test_the_fuel_line_shows_every_part_and_the_lift():
    told = {"V20", "L1", "B1", "fuel pump", "0.50 m", "vent, led to the coaming", "lowest usable level"}
    assert told <= texts_of(fuel_sheet(WAY, form()))


@pytest.mark.parametrize("is_over", [True, False, None])
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_the_pump_stands_over_the_level_or_under_it_and_nothing_meets(is_over, paper):
    fittings = tuple(Fitting("fuel_shut_off", f"V{n}", f"worked from {LONG}") for n in range(5))
    way = FuelWay((LONG, LONG), LONG, fittings, LONG, LONG, LONG, LONG, "0.50 m", is_over, LONG, LONG)
    drawing = fuel_sheet(way, form(paper))
    assert misfits(drawing, Sheet(paper).frame.grown(8.0)) == ()
    seen = record(drawing)
    level = min(
        p.start[1]
        for p in seen.pieces
        if p.start[1] == p.end[1] and p.end[0] - p.start[0] > 100 and p.start[1] > 60
    )
    pump = seen.sign("fuel pump").box.middle[1]
    assert (pump > level) is (is_over is not False)
