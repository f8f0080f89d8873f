"""Where the folders that are shipped with the package stand: ``templates`` and ``projects``."""

from functools import cache
from pathlib import Path

_PACKAGE = Path(__file__).parents[1]


@cache
def shipped(folder: str) -> Path:
    """Path of a shipped folder: inside an installed package, else at the top of the checkout.

    Raises FileNotFoundError if the package was installed without it.
    """
    for place in (_PACKAGE / "shipped" / folder, _PACKAGE.parent / folder):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"the folder {folder!r} did not come with the package")
