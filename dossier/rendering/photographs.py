"""Reads the owner's photographs, bounded before they are decoded, and makes them fit for paper.

They are turned by their orientation mark, brought to the resolution of print and written anew, so that
nothing of the camera, the place or the time is left in them.
"""

import io
import warnings
from dataclasses import dataclass
from typing import Any

from PIL import Image, ImageOps
from reportlab.lib.utils import ImageReader

from dossier.notation import PageFault

RESOLUTION = 200 / 72  # pixels in a point
MOST_PIXELS = 60_000_000
MOST_PIXELS_UNSCALED = 25_000_000  # of a picture that cannot be decoded smaller than it is
LONGEST_SIDE = 20_000
QUALITY = 82


@dataclass(frozen=True)
class Photograph:
    """A photograph to be drawn at its own size; lengths in points."""

    picture: bytes
    width: float
    height: float

    def draw(self, canvas: Any, x: float, y: float) -> None:
        """Draw on a reportlab canvas, the lower left corner at (x, y)."""
        canvas.drawImage(ImageReader(io.BytesIO(self.picture)), x, y, self.width, self.height)


def photograph(content: bytes, name: str, width: float, height: float) -> Photograph:
    """The photograph in the bytes of a file, as large as fits ``width`` × ``height`` points.

    Raises PageFault where it is no JPEG or PNG picture, is damaged, or has more pixels than a camera makes.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image: Any = Image.open(io.BytesIO(content), formats=("JPEG", "PNG"))
            _bounded(image, name)
            if image.format != "PNG":
                image.draft("RGB", (int(max(width, height) * RESOLUTION),) * 2)
            image.load()
    except PageFault:
        raise
    except Image.DecompressionBombError as error:
        raise PageFault(
            f"{name} has far too many pixels, more than a camera makes: save it smaller"
        ) from error
    except Exception as error:  # a damaged picture fails in as many ways as there are libraries below
        raise PageFault(
            f"{name} is no whole JPEG or PNG picture: save it anew from a picture program"
        ) from error
    image = ImageOps.exif_transpose(image)
    share = min(width / image.width, height / image.height)
    size = (image.width * share, image.height * share)
    pixels = tuple(
        max(1, min(have, round(side * RESOLUTION))) for have, side in zip(image.size, size, strict=True)
    )
    return Photograph(_written_anew(image, pixels), *size)


def _bounded(image: Any, name: str) -> None:
    most = MOST_PIXELS if image.format != "PNG" else MOST_PIXELS_UNSCALED
    if image.width * image.height > most or max(image.size) > LONGEST_SIDE:
        raise PageFault(
            f"{name} has {image.width} × {image.height} pixels, more than the {most // 1_000_000} million "
            "that are read: save it smaller"
        )


def _written_anew(image: Any, pixels: tuple[int, ...]) -> bytes:
    if image.mode in {"RGBA", "LA", "PA", "P"}:
        image = image.convert("RGBA")
        white = Image.new("RGBA", image.size, "white")
        image = Image.alpha_composite(white, image)
    small = image.convert("RGB").resize(pixels, Image.Resampling.LANCZOS)
    out = io.BytesIO()
    small.save(out, "JPEG", quality=QUALITY, subsampling=0)
    return out.getvalue()
