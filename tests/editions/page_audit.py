"""Reads a finished PDF back and lists what no page may show.

Text over text, text beyond the sheet's edge, letters without a glyph, fonts left outside the file, markup or
``nan`` left on a page, empty pages, a heading alone at the foot, wrong numbers in the contents, dead links.
``python tests/editions/page_audit.py FILE.pdf…`` prints the faults; exit status 1 if there are any.
"""

import ctypes
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pypdf
import pypdfium2
import pypdfium2.raw as pdfium

MM = 72 / 25.4
EDGE = 5.0 * MM
COVERED = 0.25  # share of the smaller letter
HEADING = 12.0  # points; headings are set in a strong face of at least this size
MARGIN = 10 * MM  # within which a heading starts
FOOT_BAND = 0.16  # of the height of the sheet
LEFTOVERS = re.compile(
    r"\bnan\b|\bNone\b(?! [a-z])|(?<![\w.])[-−]0\.0*(?![\d.])|\{\{|\{%|</\w+>"
    r"|<(?:b|i|sub|sup|super|para|font|br)\b|&(?:amp|lt|gt|quot|#\d+);|Markup\(|\bTraced\(|\bat 0x|\?\?"
)
STRANGE = re.compile("[\ufffd\ue000-\uf8ff]")


@dataclass(frozen=True)
class Letters:
    """The visible letters of a page: code points (n), boxes (n, 4: left, bottom, right, top), sizes (n)."""

    codes: np.ndarray
    boxes: np.ndarray
    sizes: np.ndarray
    strong: np.ndarray


def _letters(raw: Any) -> Letters:
    count = pdfium.FPDFText_CountChars(raw)
    codes, sizes = np.empty(count, int), np.empty(count)
    strong, boxes = np.zeros(count, bool), np.empty((count, 4))
    sides = [ctypes.c_double() for _ in range(4)]
    pointers = [ctypes.byref(side) for side in sides]
    kept = 0
    for index in range(count):
        code = pdfium.FPDFText_GetUnicode(raw, index)
        if code <= 32 or code in {0xA0, 0xFFFE, 0x2007, 0x202F, 0x2009}:
            continue
        pdfium.FPDFText_GetCharBox(raw, index, *pointers)
        codes[kept], sizes[kept] = code, pdfium.FPDFText_GetFontSize(raw, index)
        strong[kept] = pdfium.FPDFText_GetFontWeight(raw, index) >= 600
        boxes[kept] = sides[0].value, sides[2].value, sides[1].value, sides[3].value
        kept += 1
    return Letters(codes[:kept], boxes[:kept], sizes[:kept], strong[:kept])


def _covered(letters: Letters) -> list[tuple[int, int]]:
    """Pairs of letters of which one covers a good part of the other."""
    order = np.argsort(letters.boxes[:, 0], kind="stable")
    left, bottom, right, top = letters.boxes[order].T
    area = (right - left) * (top - bottom)
    pairs = []
    for step in range(1, len(order)):
        wide = np.minimum(right[:-step], right[step:]) - left[step:]
        if not (wide > 0).any():
            break
        high = np.minimum(top[:-step], top[step:]) - np.maximum(bottom[:-step], bottom[step:])
        smaller = np.minimum(area[:-step], area[step:])
        over = (wide > 0.3) & (high > 0.3) & (wide * high > COVERED * smaller)
        narrow = np.minimum(right[:-step] - left[:-step], right[step:] - left[step:])
        follows = abs(order[:-step] - order[step:]) == 1  # a sloped letter leans over the next: no fault
        over &= ~(follows & ((wide < 0.6 * narrow) | (wide * high < 0.5 * smaller)))
        pairs += [(int(order[at]), int(order[at + step])) for at in np.flatnonzero(over)]
    return pairs


def _around(letters: Letters, index: int) -> str:
    """A few letters of the line round one letter, so that a reader finds it."""
    box = letters.boxes[index]
    middle = (letters.boxes[:, 1] + letters.boxes[:, 3]) / 2
    near = np.flatnonzero(
        (middle > box[1] - 1) & (middle < box[3] + 1) & (abs(letters.boxes[:, 0] - box[0]) < 60)
    )
    return "".join(chr(letters.codes[at]) for at in near[np.argsort(letters.boxes[near, 0])])


def _of_page(letters: Letters, text: str, size: tuple[float, float]) -> Iterator[str]:
    width, height = size
    if len(letters.codes) < 40:
        yield f"almost empty: {len(letters.codes)} letters"
        if not len(letters.codes):
            return
    left, bottom, right, top = letters.boxes.T
    outside = (left < EDGE) | (bottom < EDGE) | (right > width - EDGE) | (top > height - EDGE)
    for index in np.flatnonzero(outside)[:3]:
        yield f"text within 5 mm of the edge or beyond: {_around(letters, index)!r}"
    for one, other in _covered(letters)[:3]:
        yield f"text over text: {_around(letters, one)!r} and {_around(letters, other)!r}"
    for found in list(STRANGE.finditer(text))[:3]:
        yield f"a letter without a glyph: {text[max(0, found.start() - 20) : found.end() + 20]!r}"
    for found in list(LEFTOVERS.finditer(text))[:3]:
        yield f"left on the page: {text[max(0, found.start() - 20) : found.end() + 20]!r}"
    yield from _heading_at_foot(letters, height)


def _heading_at_foot(letters: Letters, height: float) -> Iterator[str]:
    """A line all in large strong letters, at the margin, with nothing below it."""
    left, bottom, _, top = letters.boxes.T
    heads = letters.strong & (letters.sizes >= HEADING - 0.01) & (top < FOOT_BAND * height)
    for index in np.flatnonzero(heads)[:1]:
        on_line = (bottom < top[index]) & (top > bottom[index])
        if left[on_line].min() > left.min() + MARGIN:
            continue  # a cell of a table
        if (letters.sizes[on_line] < HEADING - 0.01).any() or not letters.strong[on_line].all():
            continue  # a sign, a number or a word in a box beside a text
        below = (top < bottom[index] - 2) & (bottom > 0.055 * height)
        if not below.any():
            yield f"heading at the foot: {_around(letters, index)!r}"


def _resources(reader: pypdf.PdfReader) -> Iterator[Any]:
    """The resources of the pages, of the forms drawn on them, and of the fields."""
    waiting = [page["/Resources"] for page in reader.pages if "/Resources" in page]
    fields = reader.trailer["/Root"].get("/AcroForm")
    if fields is not None and "/DR" in fields.get_object():
        waiting.append(fields.get_object()["/DR"])
    seen: set[int] = set()
    while waiting:
        resources = waiting.pop().get_object()
        if id(resources) in seen:
            continue
        seen.add(id(resources))
        yield resources
        waiting += [form["/Resources"] for form in _entries(resources, "/XObject") if "/Resources" in form]


def _entries(resources: Any, kind: str) -> list[Any]:
    return (
        [entry.get_object() for entry in resources.get(kind, {}).get_object().values()]
        if kind in resources
        else []
    )


def _fonts(reader: pypdf.PdfReader) -> Iterator[str]:
    """Names of fonts that the file does not carry."""
    for resources in _resources(reader):
        for font in _entries(resources, "/Font"):
            inner = (
                font["/DescendantFonts"].get_object()[0].get_object() if "/DescendantFonts" in font else font
            )
            described = inner.get("/FontDescriptor")
            if described is None or not any(
                f"/FontFile{n}" in described.get_object() for n in ("", "2", "3")
            ):
                yield str(font.get("/BaseFont"))


def _links(reader: pypdf.PdfReader) -> Iterator[str]:
    named = reader.named_destinations
    for number, page in enumerate(reader.pages, 1):
        notes = [note.get_object() for note in page.get("/Annots") or []]
        for note in notes:
            if note.get("/Subtype") != "/Link":
                continue
            action = note["/A"].get_object() if "/A" in note else {}
            goal = note.get("/Dest", action.get("/D"))
            goal = goal.get_object() if hasattr(goal, "get_object") else goal
            if goal is None and "/URI" not in action:
                yield f"page {number}: a link leads nowhere"
            elif isinstance(goal, str) and goal not in named:
                yield f"page {number}: a link leads to {goal}, which is nowhere"


def _outline(reader: pypdf.PdfReader) -> Iterator[tuple[str, int]]:
    def walk(entries: list[Any]) -> Iterator[tuple[str, int]]:
        for entry in entries:
            if isinstance(entry, list):
                yield from walk(entry)
            else:
                number = reader.get_destination_page_number(entry)
                yield str(entry.title), -1 if number is None else number + 1

    yield from walk(reader.outline)


def _plain(words: str) -> str:
    return re.sub(r"\W+", "", words).lower()


def _contents(reader: pypdf.PdfReader, texts: list[str]) -> Iterator[str]:
    """Entries of the contents whose number is not that of the page the bookmark of the same name leads to."""
    places: dict[str, set[int]] = {}
    for title, number in _outline(reader):
        page = _plain(texts[number - 1]) if number > 0 else ""
        runs = "sheetof" in re.sub(r"\d", "", page)  # drawings and cards have a title of their own
        if number < 0 or (
            runs
            and not title.startswith("Drawing")
            and not all(_plain(word) in page for word in title.split())
        ):
            yield f"the bookmark {title!r} leads to page {number}, which does not bear it"
        places.setdefault(_plain(title), set()).add(number)
    listed = [text for text in texts[:6] if re.search(r"^Contents|^Inhalt|^Sommaire", text, re.MULTILINE)]
    for text in listed:
        for found in re.finditer(r"^(.{4,}?)[ .]+(\d+)\r?$", text, re.MULTILINE):
            name = _plain(found[1])
            if name in places and int(found[2]) not in places[name]:
                yield f"the contents give page {found[2]} for {found[1]!r}, not {sorted(places[name])}"


def faults(path: Path) -> list[str]:
    """What is wrong with the pages of a PDF, each with its page."""
    found: list[str] = []
    document = pypdfium2.PdfDocument(str(path))
    texts = []
    try:
        for number in range(len(document)):
            page = document[number]
            read = page.get_textpage()
            texts.append(read.get_text_range())
            found += [
                f"page {number + 1}: {fault}"
                for fault in _of_page(_letters(read.raw), texts[-1], page.get_size())
            ]
    finally:
        document.close()
    reader = pypdf.PdfReader(path)
    found += [f"the font {name} is not embedded" for name in sorted(set(_fonts(reader)))]
    found += _links(reader)
    found += _contents(reader, texts)
    return found


if __name__ == "__main__":
    bad = [f"{name}: {fault}" for name in sys.argv[1:] for fault in faults(Path(name))]
    sys.exit("\n".join(bad) if bad else 0)
