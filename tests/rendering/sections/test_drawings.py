"""Section 7: which drawings an edition has, and that each names what it lacks."""

from dossier.rendering.blocks import DrawingSheet, Note
from dossier.rendering.sections import drawings


def kinds(draft):
    """Numbers and kinds of the drawings."""
    sheets = (block for block in drawings.section(draft) if isinstance(block, DrawingSheet))
    return [str(sheet.kind) for sheet in sheets]


def test_the_whole_section_has_schematic_and_exhaust(draft):
    found = kinds(draft("lantern_auk"))
    assert "Drawing 1, schematic" in found
    assert "Drawing 3, exhaust" in found


def test_the_crew_gets_schematic_arrangement_and_valve_plan_only(draft):
    found = kinds(draft("lantern_auk", "aboard"))
    assert set(found) == {"Drawing 1, schematic", "Drawing 2, arrangement", "Drawing 8, valve plan"}


def test_a_boat_of_which_little_is_known_gets_tags_and_a_line_for_each_drawing_that_cannot_be_made(draft):
    blocks = list(drawings.section(draft("puddle_wren")))
    assert kinds(draft("puddle_wren")) == ["Drawing 9, tags"]
    said = [str(block.text) for block in blocks if isinstance(block, Note)]
    assert any("circuit" in line for line in said)
    assert any("exhaust.route" in line for line in said)
