"""The files a PDF carries, read within limits: whatever a PDF holds, little is read and nothing is run.

``carried_by`` reads in a process of its own; ``read_carried`` is what runs there. Only the tree of attached
files is looked at: no page, no link, no script.
"""

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO

from dossier.notation import DossierError
from dossier.rendering.apart import DAMAGED, opened, read_apart

LARGEST_FILE = 40_000_000
LARGEST_ALL = 300_000_000
MOST_FILES, MOST_NODES, DEEPEST = 500, 2000, 20
LONGEST_NAME = 200
DEVICES = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))}
)
"""Names that mean a device on some systems, whatever their ending."""
UNWANTED = frozenset('<>:"|?*\\')


@dataclass(frozen=True)
class Carried:
    """One attached file: its path in the project's folder, its bytes, whether the document names it first."""

    name: str
    content: bytes
    first: bool = False


def carried_by(pdf: Path) -> tuple[Carried, ...]:
    """Files that a PDF carries; read in a process of its own, so that no PDF can take all time or memory.

    Raises DossierError with one line that says what is wrong.
    """
    return tuple(_received(read_apart(pdf, "dossier.rendering.carried")))


def main(pdf: Path, out: BinaryIO) -> None:
    """Write what a PDF carries: a line of names and sizes, then all bytes."""
    found = read_carried(pdf)
    head = [{"name": file.name, "size": len(file.content), "first": file.first} for file in found]
    out.write(json.dumps(head).encode("ascii") + b"\n")
    out.writelines(file.content for file in found)


def _received(sent: bytes) -> Iterator[Carried]:
    head, _, rest = sent.partition(b"\n")
    at = 0
    for entry in json.loads(head):
        yield Carried(entry["name"], rest[at : at + entry["size"]], entry["first"])
        at += entry["size"]


def read_carried(pdf: Path) -> tuple[Carried, ...]:
    """Files that a PDF carries, in this process. Raises DossierError without the file's name."""
    return opened(pdf, _read)


def _read(reader: Any) -> tuple[Carried, ...]:
    root = reader.trailer["/Root"].get_object()
    first = next(iter(_named(root.get("/AF"))), None)
    found: dict[str, Carried] = {}
    total = 0
    for spec in _specs(root):
        name, content = _name(spec), _content(spec)
        total += len(content)
        if len(found) >= MOST_FILES or total > LARGEST_ALL:
            raise DossierError("the PDF carries more than any dossier does; nothing was taken from it")
        known = found.get(name)
        if known is not None and known.content != content:
            raise DossierError(f"the PDF carries two files called {name!r}; nothing was taken from it")
        found[name] = Carried(name, content, first is not None and name == _name(first))
    if not found:
        raise DossierError(
            "the PDF carries no project file: it was printed or saved anew; take the one that build wrote"
        )
    return tuple(found.values())


def _named(array: Any) -> Iterator[Any]:
    """File specifications in an array."""
    for one in array.get_object() if array is not None else ():
        spec = one.get_object()
        if "/EF" in spec:
            yield spec


def _specs(root: Any) -> Iterator[Any]:
    """File specifications of all attached files: the tree of names, then those the document names itself."""
    names = root.get("/Names")
    tree = names.get_object().get("/EmbeddedFiles") if names is not None else None
    waiting = [(tree, 0)] if tree is not None else []
    nodes = 0
    while waiting:
        node, depth = waiting.pop()
        node, nodes = node.get_object(), nodes + 1
        if nodes > MOST_NODES or depth > DEEPEST:
            raise DossierError(DAMAGED)
        waiting += [(kid, depth + 1) for kid in node.get("/Kids", ())]
        pairs = node.get("/Names", ())
        if len(pairs) > 2 * MOST_FILES:
            raise DossierError("the PDF carries more than any dossier does; nothing was taken from it")
        yield from (spec.get_object() for spec in pairs[1::2])
    yield from _named(root.get("/AF"))


def _content(spec: Any) -> bytes:
    """Bytes of an attached file, whole."""
    held = spec["/EF"].get_object()
    stream = held.get("/UF", held.get("/F")).get_object()
    content = stream.get_data()
    if not isinstance(content, bytes) or len(content) > LARGEST_FILE:
        raise DossierError("a file in the PDF is larger than any of a project; nothing was taken from it")
    stated = stream.get("/Params", {}).get_object() if "/Params" in stream else {}
    said = stated.get("/CheckSum")
    if said is not None and _raw(said) != hashlib.md5(content, usedforsecurity=False).digest():
        raise DossierError(
            f"the file {_name(spec)!r} in the PDF is not as it was put there; take another copy"
        )
    return content


def _raw(text: Any) -> bytes:
    """Bytes of a string of the PDF."""
    raw: bytes = getattr(text, "original_bytes", None) or bytes(text)
    return raw


def _name(spec: Any) -> str:
    """Path of an attached file in the project's folder: its description, if that fits its plain name."""
    plain = str(spec.get("/UF") or spec.get("/F") or "")
    path = str(spec.get("/Desc") or "")
    name = path if path.replace("/", "_") == plain.lstrip("_") or path.replace("/", "_") == plain else plain
    fault = unsafe(name)
    if fault:
        raise DossierError(f"the PDF carries a file called {name[:60]!r}, {fault}; nothing was taken from it")
    return name


def unsafe(name: str) -> str:
    """Why a file of that name may not be written, empty if it may.

    >>> unsafe("tables/months.csv"), unsafe("../boat.yaml"), unsafe("NUL.csv")
    ('', 'which would lie outside the folder', 'which is no good name for a file')
    """
    parts = name.split("/")
    if name.startswith(("/", "~")) or ".." in parts or ":" in name or "\\" in name:
        return "which would lie outside the folder"
    for part in parts:
        bad = not part or part != part.strip() or part.startswith(".") or part.endswith(".")
        if (
            bad
            or not part.isprintable()
            or UNWANTED & set(part)
            or part.partition(".")[0].casefold() in DEVICES
        ):
            return "which is no good name for a file"
    return "" if len(name) <= LONGEST_NAME else "which is too long a name"
