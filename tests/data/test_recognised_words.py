"""Free texts are understood by a table of words, or not at all."""

import pytest

from dossier.data.materials import material, materials
from dossier.data.recognised_words import says
from dossier.data.tables import rows


@pytest.mark.parametrize(
    ("topic", "text", "answer"),
    [
        ("packing", "mineral packing", True),
        ("packing", "stainless plate each side, mineral packing", True),
        ("packing", "stainless plate each side", None),
        ("non-combustible", "stainless plate each side", True),
        ("non-combustible", "expanding foam behind a steel plate", False),
        ("non-combustible", "something the yard left", None),
        ("metal", "stainless steel", True),
        ("metal", "glass-filled nylon", False),
        ("metal", "unknown", None),
        ("vapour", "gas oil", None),
        ("vapour", "diesel engine", None),
        ("vapour", "Petrol tank of the outboard", True),
        ("vapour", "two gas-bottles", True),
        ("vapour", "paints", True),
        ("engine", "diesel engines", True),
        ("engine", "engineer's bench", None),
        ("drained away", "overboard", True),
        ("drained away", "catch bottle in engine_room", True),
        ("drained away", "bottle under the cabin sole", False),
        ("drained away", "sealed bottle", None),
    ],
)
def test_a_text_says_what_its_words_say(topic, text, answer):
    assert says(topic, text) is answer


def test_an_unknown_topic_is_an_error():
    with pytest.raises(KeyError, match="weather"):
        says("weather", "rain")


def test_every_word_has_one_answer_in_its_topic_and_a_source():
    stated = [(row["topic"], row["words"]) for row in rows("recognised_words")]
    assert len(stated) == len(set(stated))
    assert {row["answer"] for row in rows("recognised_words")} == {"yes", "no"}
    assert all(
        row["source"] and row["words"] == row["words"].lower().strip() for row in rows("recognised_words")
    )


def test_metals_glass_and_mineral_fibres_do_not_burn_and_wood_plastics_and_foams_do():
    # EN 13501-1, materials taken as class A1 without test (Commission Decision 96/603/EC): metals, glass,
    # mineral wool, cellular glass, concrete, gypsum; from memory
    for name in (
        "steel",
        "aluminium",
        "copper",
        "glass",
        "stone_wool",
        "cellular_glass",
        "concrete",
        "gypsum",
    ):
        assert not material(name).combustible
    for name in (
        "oak",
        "pine",
        "plywood",
        "grp",
        "acrylic",
        "closed_cell_foam",
        "pir",
        "cork",
        "cement_board",
    ):
        assert material(name).combustible


def test_what_conducts_like_a_metal_does_not_burn():
    for known in materials().values():
        if known.conductivity > 10:
            assert not known.combustible
