"""What the drawn parts of the sheets are: the tree of headings, paragraphs, tables and figures for readers.

Every stretch of drawing belongs to an element of the tree or is an artifact (rules, running heads). The tree
follows the order in which the document was written.
"""

from dataclasses import dataclass, field


@dataclass(slots=True, eq=False)
class Element:
    """One node: its role in the terms of ISO 32000-1, what it holds, and its spoken text."""

    role: str
    parent: "Element | None" = None
    alt: str = ""
    scope: str = ""
    parts: "list[Element | Content | Linked]" = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Content:
    """A stretch of drawing on a page (pages count from 0)."""

    page: int
    number: int


@dataclass(frozen=True, slots=True)
class Linked:
    """An annotation that belongs to an element: its name in the file and its place in the parent tree."""

    page: int
    name: str
    number: int


class Structure:
    """The tree, and whose each stretch of drawing is."""

    def __init__(self) -> None:
        self.root = Element("Document")
        self.owners: list[list[Element]] = []
        self.linked: list[Element] = []

    def new_page(self) -> None:
        """Count stretches anew."""
        self.owners.append([])

    def content(self, element: Element) -> int:
        """Number of a new stretch of the element on the page in work."""
        owners = self.owners[-1]
        owners.append(element)
        element.parts.append(Content(len(self.owners) - 1, len(owners) - 1))
        return len(owners) - 1

    def annotation(self, element: Element, name: str) -> int:
        """Number of an annotation of the element; it is set once all pages are counted."""
        self.linked.append(element)
        element.parts.append(Linked(len(self.owners) - 1, name, len(self.linked) - 1))
        return len(self.linked) - 1
