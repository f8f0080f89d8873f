"""The line kinds of the drawings, each told apart by width and pattern; the ink is only an extra.

Widths of the series 0.25 … 0.7 mm (ISO 128-2:2020, from memory); nothing is thinner than 0.25 mm.
"""

from dossier.rendering.drawings.shapes import Pen

SUPPLY_INK = "B5431C"
RETURN_INK = "1F5F99"

FRAME = Pen(0.7)
WIDE = Pen(0.5)
OUTLINE = Pen(0.5)
MIDDLE = Pen(0.35)
NARROW = Pen(0.25)
HIDDEN = Pen(0.25, (3.0, 0.75))
AXIS = Pen(0.25, (6.0, 0.9, 0.6, 0.9))

SUPPLY = Pen(0.7, ink=SUPPLY_INK)
RETURN = Pen(0.5, (5.0, 1.5), ink=RETURN_INK)
STILL = Pen(0.25)
EXHAUST = Pen(0.35, double=1.6)
FUEL = Pen(0.35, (4.2, 0.9, 0.6, 0.9))
TAP = Pen(0.25)
HEADER = Pen(0.35)
ENGINE = Pen(0.35, (8.4, 1.6))
ELECTRIC = Pen(0.35, (0.5, 1.0))
LINK = Pen(0.5)
