"""Which of several changes a fault of the new text lies in."""

from collections.abc import Iterable, Iterator

from dossier.notation import Fault
from dossier.project.editing import Edit


def behind(
    faults: Iterable[Fault], name: str, new: str, edits: list[tuple[Edit, tuple[str, ...]]]
) -> Iterator[tuple[str, Fault]]:
    """Changes that faults of the new text lie in."""
    starts = [0]
    for line in new.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    shift = 0
    spans: list[tuple[int, int, tuple[str, ...]]] = []
    for edit, keys in sorted(edits, key=lambda pair: (pair[0].start, pair[0].end)):
        spans.append((edit.start + shift, edit.start + shift + len(edit.text), keys))
        shift += len(edit.text) - (edit.end - edit.start)
    for fault in faults:
        if fault.file != name or not fault.line:
            continue
        at = starts[min(fault.line, len(starts)) - 1] + max(fault.column - 1, 0)
        for start, end, keys in spans:
            if start <= at <= end:
                yield from ((key, fault) for key in _meant(keys, fault, new[start:end], at - start))


def _meant(keys: tuple[str, ...], fault: Fault, inserted: str, at: int) -> list[str]:
    """Of several keys put in together those a fault is about: by its entry, else by the key before it."""
    if len(keys) == 1:
        return list(keys)
    own = [key for key in keys if fault.of and f"{key}.".startswith(f"{fault.of}.")]
    if len(own) == 1:
        return own
    keys = tuple(own) or keys
    before = inserted[: at + 1]
    placed = {key: before.rfind(f"{key.rpartition('.')[2]}:") for key in keys}
    nearest = max(placed.values())
    named = [key for key, place in placed.items() if place == nearest and place >= 0]
    return named or [key for key in keys if key.rpartition(".")[2] in fault.what] or list(keys)
