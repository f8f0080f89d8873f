"""Tells when files change, so that a check can be made again on every save."""

import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

PAUSE = 0.4
"""Seconds between two looks."""


def changes(
    watched: Callable[[], Iterable[Path]], pause: Callable[[float], None] = time.sleep
) -> Iterator[tuple[Path, ...]]:
    """Files that changed, each time some did and have come to rest: nothing half-saved is read.

    ``watched`` is asked at every look which files there are; ``pause`` waits between two looks.
    """
    before = _state(watched())
    while True:
        pause(PAUSE)
        now = _state(watched())
        if now == before:
            continue
        last = before
        while now != last:
            last = now
            pause(PAUSE)
            now = _state(watched())
        moved = [path for path in {**before, **now} if before.get(path) != now.get(path)]
        before = now
        if moved:
            yield tuple(moved)


def _state(paths: Iterable[Path]) -> dict[Path, tuple[int, int] | None]:
    """When each file was last written and how long it is, None where it is not there."""
    found: dict[Path, tuple[int, int] | None] = {}
    for path in paths:
        try:
            told = path.stat()
            found[path] = (told.st_mtime_ns, told.st_size)
        except OSError:
            found[path] = None
    return found
