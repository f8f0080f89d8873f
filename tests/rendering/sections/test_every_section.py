"""Every section of a rich boat and of poor ones speaks in words: no page shows what is the program's own.

Without paper: the blocks that a section yields are read, which is quick, in both systems of units.
"""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from importlib import import_module

import pytest

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Heading, Table
from dossier.rendering.editions import extents
from dossier.rendering.text import Markup

STRAY = ("None", "nan", "NotAssessed", "Traced(", "{{", "{%", "Status.", "<dossier", "-0.0", "float64")
SECTIONS = [name for name, extent in extents("full").items() if extent.value not in {"–", "-", ""}]

BOATS = [("yacht", "metric"), ("yacht", "imperial"), ("barge", "metric"), ("starter", "metric")]
"""The richest boat; one with dangers; one of which little is known."""


def texts(held, seen=None) -> Iterator[str]:
    """All words within blocks, whatever holds them; drawings are looked at by their own tests."""
    seen = set() if seen is None else seen
    if id(held) in seen:
        return
    seen.add(id(held))
    if isinstance(held, str | Markup):
        yield str(held)
    elif isinstance(held, Mapping):
        for part in held.values():
            yield from texts(part, seen)
    elif isinstance(held, list | tuple):
        for part in held:
            yield from texts(part, seen)
    elif is_dataclass(held) and type(held).__module__ == "dossier.rendering.blocks":
        for field in fields(held):
            yield from texts(getattr(held, field.name), seen)


@pytest.mark.parametrize(("boat", "units"), BOATS)
@pytest.mark.parametrize("name", SECTIONS)
def test_a_section_says_nothing_of_the_programs_own(draft, name, boat, units):
    blocks = list(import_module(f"dossier.rendering.sections.{name}").section(draft(boat, "full", units)))
    words = list(texts(blocks))
    for text in words:
        assert not [stray for stray in STRAY if stray in text], text
    for block in blocks:
        if isinstance(block, Table):
            assert all(len(row) == len(block.columns) for row in block.rows), block.key
        if isinstance(block, Heading):
            assert str(block.text)


def test_the_yacht_has_what_other_boats_lack(assessed):
    """Heat from an engine, moisture, a store: so that no section above is skipped for want of figures."""
    study = assessed("yacht").study
    for part in ("recovery", "moisture", "store", "tap_water", "season", "ring"):
        assert not isinstance(getattr(study, part), NotAssessed), part
