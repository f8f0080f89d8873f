"""Photographs stand beside their check, the others with the view of the installation."""

import shutil
from pathlib import Path

import pytest
from PIL import Image

from dossier.notation import PageFault
from dossier.rendering.blocks import Figure, Pair, Together
from dossier.rendering.sections.photographs import photographs

STARTER = Path(__file__).parents[3] / "projects" / "starter"


@pytest.fixture
def pictured(tmp_path, changed):
    shutil.copytree(STARTER, tmp_path, dirs_exist_ok=True)
    Image.new("RGB", (80, 60)).save(tmp_path / "outlet.jpg")
    Image.new("RGB", (80, 60)).save(tmp_path / "bench.png")
    (tmp_path / "bad.jpg").write_bytes(b"\xff\xd8 rubbish")
    text = (STARTER / "boat.yaml").read_text(encoding="utf-8")

    def made(pictures):
        return changed(f"{text}\npictures: [{pictures}]\n", tmp_path)

    return made


def figures(blocks):
    for block in blocks:
        if isinstance(block, Figure):
            yield block
        elif isinstance(block, Together):
            yield from figures(block.blocks)
        elif isinstance(block, Pair):
            yield from figures([*block.left, *block.right])


def test_each_photograph_stands_once_with_what_it_shows(pictured):
    draft = pictured(
        "{file: outlet.jpg, check: exhaust.outlet_height, caption: Outlet from the quay,"
        " looking: aft, date: 2026-10-02}, {file: bench.png, caption: Bench & burner}"
    )
    (of_check,) = figures(photographs(draft, {"exhaust.outlet_height", "exhaust.length"}))
    assert str(of_check.caption) == "Outlet from the quay (looking aft, 2026-10-02)"
    (other,) = figures(photographs(draft, None))
    assert str(other.caption) == "Bench & burner"
    assert list(photographs(draft, {"fuel.shut_off"})) == []


def test_a_damaged_photograph_is_told_with_its_line(pictured):
    draft = pictured("{file: bad.jpg, caption: Torn}")
    with pytest.raises(PageFault, match=r"boat\.yaml:\d+:\d+: bad\.jpg is no whole JPEG or PNG picture"):
        list(photographs(draft, None))
