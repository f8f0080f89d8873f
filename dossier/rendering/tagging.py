"""Writes the structure tree: which parts of the pages are headings, paragraphs, tables, figures, links."""

from collections.abc import Iterator
from typing import Any

from reportlab.pdfbase import pdfdoc

from dossier.rendering.layout.structure import Content, Element, Linked, Structure

KEPT_EMPTY = ("TD", "TH")  # a table without its empty cells would lose its columns


class Written(pdfdoc.PDFObject):  # type: ignore[misc]  # the library has no types
    """An object whose bytes are written already."""

    __RefOnly__ = 1

    def __init__(self, written: bytes = b"") -> None:
        self.written = written

    def format(self, document: Any) -> bytes:
        """Those bytes."""
        del document
        return self.written


def _pruned(element: Element) -> None:
    """Drop elements that hold nothing."""
    kept: list[Element | Content | Linked] = []
    for part in element.parts:
        if isinstance(part, Element):
            _pruned(part)
            if not part.parts and part.role not in KEPT_EMPTY:
                continue
        kept.append(part)
    element.parts = kept


def _walk(element: Element) -> Iterator[Element]:
    yield element
    for part in element.parts:
        if isinstance(part, Element):
            yield from _walk(part)


def _hex(words: str) -> str:
    return "<feff" + words.encode("utf-16-be", "replace").hex() + ">"


def write_structure(structure: Structure, canvas: Any) -> None:
    """Put the tree into the document's catalogue, and each page's key into the page."""
    document = canvas.document
    _pruned(structure.root)
    elements = list(_walk(structure.root))
    objects = [Written() for _ in elements]
    numbers: dict[int, int] = {}

    def registered(kept: Any, name: str) -> int:
        document.Reference(kept, name)
        number: int = document.idToObjectNumberAndVersion[name][0]
        return number

    tree, parents = Written(), Written()
    tree_number = registered(tree, "structure")
    parents_number = registered(parents, "parent tree")
    for place, (element, kept) in enumerate(zip(elements, objects, strict=True)):
        numbers[id(element)] = registered(kept, f"element {place}")
    page_numbers = [document.idToObjectNumberAndVersion[f"Page{n + 1}"][0] for n in range(len(canvas.pages))]
    for element, kept in zip(elements, objects, strict=True):
        parent = numbers[id(element.parent)] if element.parent is not None else tree_number
        kept.written = _element(element, parent, numbers, page_numbers, document)
    links = len(structure.linked)
    keys = [f"{n} {numbers[id(owner)]} 0 R" for n, owner in enumerate(structure.linked)]
    for page, owners in enumerate(structure.owners):
        canvas.pages[page].StructParents = links + page
        references = " ".join(f"{numbers[id(owner)]} 0 R" for owner in owners)
        keys.append(f"{links + page} [{references}]")
    parents.written = f"<</Nums [{' '.join(keys)}]>>".encode("ascii")
    root = numbers[id(structure.root)]
    following = links + len(structure.owners)
    tree.written = (
        f"<</Type/StructTreeRoot/K {root} 0 R/ParentTree {parents_number} 0 R/ParentTreeNextKey {following}>>"
    ).encode("ascii")
    document.Catalog.StructTreeRoot = pdfdoc.PDFObjectReference("structure")


def _element(
    element: Element, parent: int, numbers: dict[int, int], pages: list[int], document: Any
) -> bytes:
    """Bytes of one element."""
    first = next((part.page for part in element.parts if not isinstance(part, Element)), None)
    kids: list[str] = []
    for part in element.parts:
        if isinstance(part, Element):
            kids.append(f"{numbers[id(part)]} 0 R")
        elif isinstance(part, Content):
            if part.page == first:
                kids.append(str(part.number))
            else:
                kids.append(f"<</Type/MCR/Pg {pages[part.page]} 0 R/MCID {part.number}>>")
        else:
            annotation = document.idToObjectNumberAndVersion[f"Annot.{part.name}"][0]
            kids.append(f"<</Type/OBJR/Obj {annotation} 0 R/Pg {pages[part.page]} 0 R>>")
    page = f"/Pg {pages[first]} 0 R" if first is not None else ""
    alt = f"/Alt {_hex(element.alt)}" if element.alt else ""
    scope = f"/A<</O/Table/Scope/{element.scope}>>" if element.scope else ""
    held = kids[0] if len(kids) == 1 else f"[{' '.join(kids)}]"
    written = f"<</Type/StructElem/S/{element.role}/P {parent} 0 R{page}{alt}{scope}/K {held}>>"
    return written.encode("ascii")
