"""Demonstration boats, assessed once a session, as drafts in any edition; their blocks and pages."""

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest

from dossier.assessment import Assessment, assess
from dossier.project import load
from dossier.rendering import render
from dossier.rendering.blocks import Block, FormSheet, Gathered, Pair, Side, Together, TwoColumns
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.editions import extents
from dossier.rendering.numbers import Numbers, System
from dossier.rendering.pages import render_pdf
from dossier.rendering.words import Words
from tests import demonstrations

KINDS = {
    "cutter": "lantern_auk",
    "yacht": "northern_quill",
    "barge": "barley_moth_a",
    "mended barge": "barley_moth_b",
    "ten numbers": "puddle_wren",
}


def _draft(
    assessment: Assessment,
    edition: str = "survey",
    only: Sequence[str] = (),
    units: str = "metric",
    paper: str = "A4",
) -> Draft:
    known = extents(edition)
    kept = {name: extent if not only or name in only else Extent.NONE for name, extent in known.items()}
    return Draft(assessment, Words("en"), Numbers(System(units)), edition, paper, kept)


@pytest.fixture(scope="session")
def assessed() -> Callable[[str], Assessment]:
    """Assessment of a demonstration project, by its name or the kind of boat it is; each is made once."""
    return lambda boat: demonstrations.assessed(KINDS.get(boat, boat))


@pytest.fixture(params=sorted(demonstrations.BOATS))
def each_boat(request: Any) -> Assessment:
    """Every demonstration project in turn."""
    return demonstrations.assessed(request.param)


@pytest.fixture(scope="session")
def draft_of() -> Callable[..., Draft]:
    """A draft of an assessment in an edition; ``only`` names the sections that count as printed."""
    return _draft


@pytest.fixture(scope="session")
def draft() -> Callable[..., Draft]:
    """A draft of a demonstration project in an edition."""

    def made(boat: str, edition: str = "full", units: str = "metric", paper: str = "A4") -> Draft:
        return _draft(demonstrations.assessed(KINDS.get(boat, boat)), edition, units=units, paper=paper)

    return made


@pytest.fixture
def project_of(tmp_path: Path) -> Callable[[str], Assessment]:
    """The assessment of a project written in a test; one that names no other file is made once."""

    def written(text: str, name: str = "boat.yaml") -> Assessment:
        alone = not any(tmp_path.iterdir())
        if alone and (text, name) in _ASSESSED:
            return _ASSESSED[text, name]
        file = tmp_path / name
        file.write_text(text, encoding="utf-8")
        made = assess(load(file))
        if alone:
            _ASSESSED[text, name] = made
        return made

    return written


_ASSESSED: dict[tuple[str, str], Assessment] = {}


@pytest.fixture(scope="session")
def changed() -> Callable[..., Draft]:
    """Draft of a project written out in a test, in an edition."""

    def made(text: str, folder: Path, edition: str = "full") -> Draft:
        file = folder / "boat.yaml"
        file.write_text(text, encoding="utf-8")
        return _draft(assess(load(file)), edition)

    return made


_MADE: dict[tuple[str, int, str], tuple[Assessment, tuple[Block, ...]]] = {}


@pytest.fixture(scope="session")
def blocks_of() -> Callable[..., tuple[Block, ...]]:
    """The blocks of one section of an edition, made once for each boat."""

    def made(module: Any, assessment: Assessment, edition: str = "survey") -> tuple[Block, ...]:
        key = (module.__name__, id(assessment), edition)
        if key not in _MADE or _MADE[key][0] is not assessment:
            _MADE[key] = (assessment, tuple(module.section(_draft(assessment, edition))))
        return _MADE[key][1]

    return made


def _walk(blocks: Any) -> Iterator[Block]:
    for block in blocks:
        yield block
        if isinstance(block, Gathered | Side | Together | TwoColumns):
            yield from _walk(block.blocks)
        elif isinstance(block, Pair):
            yield from _walk((*block.left, *block.right))
        elif isinstance(block, FormSheet):
            yield block.table


@pytest.fixture(scope="session")
def walk() -> Callable[[Any], Iterator[Block]]:
    """All blocks, those within others too."""
    return _walk


@pytest.fixture
def pages_of(read: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Any]:
    """The pages of some sections of a draft, read back."""

    def print_them(draft: Draft, *sections: Callable[[Draft], Iterator[Block]]) -> Any:
        out = tmp_path / "sections.pdf"
        blocks = [block for section in sections for block in section(draft)]
        with monkeypatch.context() as patch:  # files that go with the document stand on no page
            patch.setattr(render, "attachments", lambda _: ())
            bare = render.imprint(draft)
        render_pdf(blocks, bare, out, paper=draft.paper, words=draft.words)
        return read(out)

    return print_them
