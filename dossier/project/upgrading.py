"""Brings the text of an older project file to the newest format, comments and layout kept.

A step leads from one format to the next; it changes the text where it must and nowhere else. Format 0 is what
was written before files said their format.
"""

from collections.abc import Callable, Mapping
from pathlib import Path

from dossier.notation import DossierError, ProjectFaults
from dossier.notation.records import dataclass
from dossier.project.editing import Edit, FileText
from dossier.project.load import FORMAT
from dossier.project.nodes import Map, Text
from dossier.project.source_file import LARGEST_PROJECT, clean_text, source_file
from dossier.project.syntax import compose

Step = Callable[[FileText], list[Edit]]


@dataclass(frozen=True)
class Upgraded:
    """The file in the newest format, and what was done for it, step by step."""

    content: bytes
    done: tuple[str, ...]


def upgrade(path: str | Path) -> Upgraded:
    """A file in the newest format. Raises ProjectFaults where it cannot be read, DossierError if newer."""
    path = Path(path)
    source = source_file(path, path.name, LARGEST_PROJECT)
    content = source.content or b""
    done = []
    while (found := _format(content, source.name)) != FORMAT:
        if found not in STEPS:
            raise DossierError(
                f"{path}: format {found} is not known to this program, which knows up to {FORMAT}"
            )
        said, step = STEPS[found]
        text = FileText(content)
        content = text.with_edits(step(text)).encode("utf-8")
        done.append(said)
    return Upgraded(content, tuple(done))


def _format(content: bytes, name: str) -> str:
    """Format a file says it is written in; 0 where it says none."""
    root, faults = compose(clean_text(content, name), name)
    if faults:
        raise ProjectFaults(faults)
    if not isinstance(root, Map):
        raise DossierError(f"{name}: the file is no mapping of keys")
    said = root.get("format")
    if said is None:
        return "0"
    return said.text.strip()[:20] if isinstance(said, Text) else "of no known kind"


def _says_its_format(text: FileText) -> list[Edit]:
    """Format 1 stands before the first key, behind the comments at the head."""
    start = text.root.value[0][0].start_mark.index if text.root.value else len(text.text)
    return [Edit(start, start, f"format: 1{text.newline}")]


STEPS: Mapping[str, tuple[str, Step]] = {
    "0": ("0 to 1: the file says its format", _says_its_format),
}
"""What leads from each format to the next."""
