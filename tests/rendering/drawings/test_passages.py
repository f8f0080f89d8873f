"""A passage in section: hole, lagging and bulkhead to scale, the gap told, nothing on anything else."""

from dataclasses import replace

import pytest

from dossier.rendering.drawings.hatching import METAL, WOOD
from dossier.rendering.drawings.passage_section import Passage, passage_section, passage_sheets
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock

LONG = "starboard quarter berth and oilskin locker under the side deck"
LOCKER = Passage(
    "Locker side", 0.18, 0.012, 0.038, 0.121, WOOD, ("180", "hole"), ("121", "lagging"), "12", "gap 30",
    "plywood, 12", "sleeve", "mineral packing", "Edge of the hole: 45 °C, at most 80 °C.",
)  # fmt: skip
HULL = replace(LOCKER, name="Hull side", hole=0.07, thickness=0.008, outside=0.041, pattern=METAL, edge="")


@pytest.mark.parametrize("ratio", [(1, 1), (1, 2), (1, 5)])
def test_hole_and_bulkhead_are_to_scale(ratio):
    seen = record(passage_section(LOCKER, ratio))
    thin = [box for box in seen.patterns if box.width < 0.0121 * 1000 * ratio[0] / ratio[1]]
    lower, upper = sorted(thin, key=lambda box: box.bottom)
    assert upper.bottom - lower.top == pytest.approx(0.18 * 1000 * ratio[0] / ratio[1])
    assert lower.width == pytest.approx(0.012 * 1000 * ratio[0] / ratio[1])


def test_it_tells_gap_hole_sleeve_and_edge():
    texts = " ".join(record(passage_section(LOCKER, (1, 2))).texts)
    for told in ("gap 30, mineral packing", "180", "hole", "121", "sleeve", "plywood, 12", "at most 80 °C."):
        assert told in texts


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_all_passages_stand_at_one_scale_on_as_many_sheets_as_they_need(paper):
    many = [replace(LOCKER, name=f"{LONG} {n}", closing=LONG, material=LONG) for n in range(5)]
    form = Form(TitleBlock(title="Exhaust"), paper)
    sheets = passage_sheets((*many, HULL), form, "Passages, in section")
    assert len({sheet.scale for sheet in sheets}) == 1
    assert sum("180" in record(sheet).texts for sheet in sheets) == len(sheets) > 1
    for sheet in sheets:
        assert misfits(sheet, Sheet(paper).frame.grown(8.0)) == ()
