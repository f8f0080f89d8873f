"""The pen: everything on a sheet is drawn through it, in points, the origin at the lower left.

It writes straight into the page's stream, several times faster than by the canvas's own methods, and marks
each stretch as an element of the structure or as an artifact.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from dossier.rendering import fonts
from dossier.rendering.layout.structure import Element, Structure

Colour = tuple[float, float, float]
BLACK: Colour = (0.0, 0.0, 0.0)
WHITE: Colour = (1.0, 1.0, 1.0)
_ARTIFACT = Element("Artifact")
PRINTED = range(32, 127)  # codes that stand for themselves in a string
_ROUND = 0.5523  # control points of a quarter circle


def colour(web: str) -> Colour:
    """A colour from its six hexadecimal digits.

    >>> colour("FF0000")
    (1.0, 0.0, 0.0)
    """
    return (int(web[0:2], 16) / 255, int(web[2:4], 16) / 255, int(web[4:6], 16) / 255)


def _number(length: float) -> str:
    return f"{length:.3f}".rstrip("0").rstrip(".") or "0"


@dataclass(frozen=True, slots=True)
class Field:
    """A field of the electronic form, on a page that counts from 0.

    ``label`` names its annotation in the file, ``number`` is its place in the parent tree of the structure,
    ``unit`` the one printed in its box.
    """

    page: int
    name: str
    area: tuple[float, float, float, float]
    label: str
    number: int
    tick: bool = False
    unit: str = ""


class Pen:
    """Draws on one canvas, page after page."""

    def __init__(self, canvas: Any, structure: Structure) -> None:
        self.canvas = canvas
        self.structure = structure
        self._stack: list[Element] = [structure.root]
        self._marked: Element | None = None
        self.fields: list[Field] = []
        self._artifacts = 0
        self._shared: dict[object, Element] = {}
        self._escaped: dict[tuple[str, str], list[tuple[str, str]]] = {}

    # what is drawn, and as what

    def new_page(self) -> None:
        """Get ready for the next page."""
        self.structure.new_page()
        self._marked = None

    def end_page(self) -> None:
        """Close what is open on the page."""
        self._unmark()

    def push(self, role: str, *, alt: str = "", scope: str = "", again: object = None) -> None:
        """Open an element inside the one that is open; ``again`` opens the one opened before for it."""
        if self._artifacts:  # nothing in it is an element
            self._stack.append(_ARTIFACT)
            return
        element = self._shared.get(again) if again is not None else None
        if element is None:
            parent = self._stack[-1]
            element = Element(role, parent, alt, scope)
            parent.parts.append(element)
            if again is not None:
                self._shared[again] = element
        self._stack.append(element)

    def pop(self) -> None:
        """Close the element opened last."""
        self._stack.pop()

    @contextmanager
    def element(self, role: str, *, alt: str = "", scope: str = "", again: object = None) -> Iterator[None]:
        """Draw something as an element: ``P``, ``H1``, ``Table``, ``Figure``, …

        What is broken over sheets is one element: each part gives the same ``again``.
        """
        self.push(role, alt=alt, scope=scope, again=again)
        try:
            yield
        finally:
            self.pop()

    @contextmanager
    def artifact(self) -> Iterator[None]:
        """Draw something that says nothing the text does not say."""
        self._artifacts += 1
        try:
            yield
        finally:
            self._artifacts -= 1

    def _unmark(self) -> None:
        if self._marked is not None:
            self.canvas._code.append("EMC")  # noqa: SLF001 - the stream has no public door
            self._marked = None

    def _mark(self, wanted: Element) -> list[str]:
        """Make the stretch that follows belong to an element; gives the stream."""
        code: list[str] = self.canvas._code  # noqa: SLF001 - the stream has no public door
        if self._artifacts or wanted is self.structure.root:
            wanted = _ARTIFACT
        if wanted is not self._marked:
            self._unmark()
            if wanted is _ARTIFACT:
                code.append("/Artifact BMC")
            else:
                code.append(f"/{wanted.role} <</MCID {self.structure.content(wanted)}>> BDC")
            self._marked = wanted
        return code

    # text

    def words(self, x: float, y: float, text: str, font: str, size: float) -> None:
        """Write a text that is known to be ``shown``, its baseline at y."""
        if not text:
            return
        code = self._mark(self._stack[-1])
        parts = self._escaped.get((font, text))
        if parts is None:
            parts = self._escaped[font, text] = self._encoded(text, font)
        shows = " ".join([f"{name} {_number(size)} Tf ({shown}) Tj" for name, shown in parts])
        code.append(f"BT 1 0 0 1 {x:.2f} {y:.2f} Tm {shows} ET")

    def _encoded(self, text: str, font: str) -> list[tuple[str, str]]:
        document, face = self.canvas._doc, fonts.font(font)  # noqa: SLF001 - subsets belong to the document
        return [
            (face.getSubsetInternalName(subset, document), _escape(codes))
            for subset, codes in face.splitString(text, document)
        ]

    # lines and areas

    def rule(  # noqa: PLR0913, PLR0917 - two points and how
        self, x1: float, y1: float, x2: float, y2: float, line: float, dash: str = ""
    ) -> None:
        """Draw a straight line; ``dash`` is a pattern such as ``2 1``."""
        code = self._mark(_ARTIFACT)
        drawn = f"{line:.3f} w {x1:.2f} {y1:.2f} m {x2:.2f} {y2:.2f} l S"
        code.append(f"[{dash}] 0 d {drawn} [] 0 d" if dash else drawn)

    def box(  # noqa: PLR0913 - a box has four sides and two ways to be seen
        self, x: float, y: float, width: float, height: float, *, line: float = 0.0, filled: bool = False
    ) -> None:
        """Draw a rectangle from its lower left corner."""
        painted = "B" if line and filled else "S" if line else "f"
        self._mark(_ARTIFACT).append(f"{line:.3f} w {x:.2f} {y:.2f} {width:.2f} {height:.2f} re {painted}")

    def frame(self, x: float, y: float, width: float, height: float, line: float) -> None:
        """Draw a rectangle whose line lies wholly inside the given size."""
        half = line / 2
        self.box(x + half, y + half, width - line, height - line, line=line)

    def polygon(self, points: Sequence[tuple[float, float]], *, line: float = 0.0, join: int = 0) -> None:
        """Fill a polygon, or draw its outline if ``line`` is given."""
        first, *rest = points
        path = f"{first[0]:.2f} {first[1]:.2f} m " + " ".join(f"{x:.2f} {y:.2f} l" for x, y in rest)
        painted = f"{line:.3f} w {join} j {path} s 0 j" if line else f"{path} f"
        self._mark(_ARTIFACT).append(painted)

    def path(self, points: Sequence[tuple[float, float]], line: float, *, cap: int = 0) -> None:
        """Draw an open line through points."""
        first, *rest = points
        path = f"{first[0]:.2f} {first[1]:.2f} m " + " ".join(f"{x:.2f} {y:.2f} l" for x, y in rest)
        self._mark(_ARTIFACT).append(f"{line:.3f} w {cap} J {path} S 0 J")

    def circle(  # noqa: PLR0913 - as box
        self, x: float, y: float, radius: float, *, line: float = 0.0, filled: bool = False, dash: str = ""
    ) -> None:
        """Draw a circle about a point."""
        r, k = radius, radius * _ROUND
        path = (
            f"{x + r:.3f} {y:.3f} m {x + r:.3f} {y + k:.3f} {x + k:.3f} {y + r:.3f} {x:.3f} {y + r:.3f} c "
            f"{x - k:.3f} {y + r:.3f} {x - r:.3f} {y + k:.3f} {x - r:.3f} {y:.3f} c "
            f"{x - r:.3f} {y - k:.3f} {x - k:.3f} {y - r:.3f} {x:.3f} {y - r:.3f} c "
            f"{x + k:.3f} {y - r:.3f} {x + r:.3f} {y - k:.3f} {x + r:.3f} {y:.3f} c h"
        )
        painted = "B" if line and filled else "S" if line else "f"
        dashes, solid = (f"[{dash}] 0 d ", " [] 0 d") if dash else ("", "")
        self._mark(_ARTIFACT).append(f"{dashes}{line:.3f} w {path} {painted}{solid}")

    @contextmanager
    def inked(self, ink: Colour) -> Iterator[None]:
        """Draw in another colour than black."""
        self._unmark()
        r, g, b = (_number(share) for share in ink)
        self.canvas._code.append(f"q {r} {g} {b} rg {r} {g} {b} RG")  # noqa: SLF001 - see _mark
        try:
            yield
        finally:
            self._unmark()
            self.canvas._code.append("Q")  # noqa: SLF001 - see _mark

    @contextmanager
    def clipped(self, outline: str) -> Iterator[None]:
        """Draw only inside a path, written as PDF operators and filled by the even-odd rule."""
        self._unmark()
        self.canvas._code.append(f"q {outline} W* n")  # noqa: SLF001 - see _mark
        try:
            yield
        finally:
            self._unmark()
            self.canvas._code.append("Q")  # noqa: SLF001 - see _mark

    def drawing(self, drawing: Any, x: float, y: float) -> None:
        """Let a drawing draw itself, its lower left corner at (x, y)."""
        self._mark(self._stack[-1])
        self.canvas.saveState()
        self.canvas.setLineWidth(0.5)
        drawing.draw(self.canvas, x, y)
        self.canvas.restoreState()

    def freely(self, drawn: Callable[[Any], None]) -> None:
        """Let something draw on the canvas itself that says nothing."""
        self._mark(_ARTIFACT)
        drawn(self.canvas)

    # places, links and fields

    def field(
        self, name: str, area: tuple[float, float, float, float], *, tick: bool = False, unit: str = ""
    ) -> None:
        """Lay a field of the electronic form over what is drawn: left, bottom, width, height."""
        if not name or self._artifacts:
            return
        label = f"field{len(self.structure.linked)}"
        with self.element("Form"):
            number = self.structure.annotation(self._stack[-1], label)
        self.canvas.note_annotation(label)
        self.fields.append(Field(len(self.structure.owners) - 1, name, area, label, number, tick, unit))

    def place(self, key: str, y: float) -> None:
        """Make a height on this page the place of a key."""
        self.canvas.bookmarkHorizontalAbsolute(key, y, left=0)

    def link(self, key: str, said: str, area: tuple[float, float, float, float]) -> None:
        """Lead from an area (left, bottom, right, top) to the place of a key; heads and feet lead nowhere."""
        if self._artifacts:
            return
        name = f"link{len(self.structure.linked)}"
        number = self.structure.annotation(self._stack[-1], name)
        self.canvas.add_link(key, said, area, name, number)


_ESCAPED = tuple(
    f"\\{chr(c)}" if c in b"()\\" else chr(c) if c in PRINTED else f"\\{c:03o}" for c in range(256)
)


def _escape(codes: bytes) -> str:
    return "".join([_ESCAPED[c] for c in codes])
