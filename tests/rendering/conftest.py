"""Reads finished pages back as words with boxes, and gives the sample document in every paper."""

import ctypes
import importlib.util
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from types import ModuleType
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from dossier.rendering.blocks import Block, Imprint
from dossier.rendering.pages import render_pdf

MM = 72 / 25.4


@dataclass(frozen=True)
class Word:
    """Letters between two blanks: what they say, their box in points from the lower left, their size."""

    text: str
    left: float
    bottom: float
    right: float
    top: float
    size: float

    def overlaps(self, other: "Word") -> bool:
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.top, other.top) - max(self.bottom, other.bottom)
        return wide > 0.8 and high > 0.8


@dataclass(frozen=True)
class ReadPage:
    """A page read back; its words are looked for when they are asked for."""

    width: float
    height: float
    text: str
    page: Any

    @cached_property
    def words(self) -> tuple[Word, ...]:
        return tuple(_words(self.page))

    def lines(self) -> list[str]:
        return self.text.split("\r\n")


def _words(page: Any) -> Iterator[Word]:
    text_page = page.get_textpage()
    raw, letters, box, size = text_page.raw, [], None, 0.0
    sides = [ctypes.c_double() for _ in range(4)]
    places = [ctypes.byref(side) for side in sides]
    for index in range(pdfium.FPDFText_CountChars(raw)):
        letter = chr(pdfium.FPDFText_GetUnicode(raw, index))
        if letter.isspace() or letter in "\ufffe\u0000":
            if box:
                yield Word("".join(letters), *box, size)
            letters, box = [], None
            continue
        pdfium.FPDFText_GetCharBox(raw, index, *places)
        left, right, bottom, top = [side.value for side in sides]
        far = box is not None and (left - box[2] > 6 or left < box[0] - 1 or abs(bottom - box[1]) > 8)
        if far:
            yield Word("".join(letters), *box, size)
            letters, box = [], None
        letters.append(letter)
        if box is None:
            box = (left, bottom, right, top)
            size = pdfium.FPDFText_GetFontSize(raw, index)
        else:
            box = (min(box[0], left), min(box[1], bottom), max(box[2], right), max(box[3], top))
    if box:
        yield Word("".join(letters), *box, size)


def read_pages(path: Path) -> list[ReadPage]:
    document = pypdfium2.PdfDocument(path.read_bytes())
    return [
        ReadPage(*page.get_size(), page.get_textpage().get_text_range(), page)
        for page in (document[number] for number in range(len(document)))
    ]


@pytest.fixture(scope="session")
def read() -> Callable[[Path], list[ReadPage]]:
    return read_pages


def _sample() -> ModuleType:
    file = Path(__file__).parent / "sample_document.py"
    spec = importlib.util.spec_from_file_location("sample_document", file)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def sample() -> ModuleType:
    return _sample()


@pytest.fixture(scope="session", params=["A4", "letter", "A5"])
def paper(request) -> str:
    return request.param


@pytest.fixture(scope="session")
def sample_pdf(sample, paper, tmp_path_factory) -> Path:
    out = tmp_path_factory.mktemp("pages") / f"{paper}.pdf"
    render_pdf(sample.document(paper), sample.imprint(paper), out, paper=paper)
    return out


@pytest.fixture(scope="session")
def sample_pages(sample_pdf) -> list[ReadPage]:
    return read_pages(sample_pdf)


@pytest.fixture(scope="session")
def a4_pdf(sample, tmp_path_factory) -> Path:
    out = tmp_path_factory.mktemp("a4") / "a4.pdf"
    render_pdf(sample.document(), sample.imprint(), out)
    return out


@pytest.fixture
def imprint(sample) -> Imprint:
    return sample.IMPRINT


Printed = Callable[..., list[ReadPage]]


@pytest.fixture
def printed(imprint, tmp_path) -> Printed:
    """Sets some blocks and reads their pages back."""

    def print_them(*blocks: Block, paper: str = "A4", with_imprint: Imprint = imprint) -> list[ReadPage]:
        out = tmp_path / "printed.pdf"
        render_pdf(blocks, with_imprint, out, paper=paper)
        return read_pages(out)

    return print_them


@pytest.fixture
def written(imprint, tmp_path) -> Callable[..., Path]:
    """Sets some blocks and gives the file."""

    def write(*blocks: Block, paper: str = "A4", with_imprint: Imprint = imprint) -> Path:
        out = tmp_path / "written.pdf"
        render_pdf(blocks, with_imprint, out, paper=paper)
        return out

    return write
