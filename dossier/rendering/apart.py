"""Reads a PDF of a stranger in a process of its own, whose time and memory are bounded.

``read_apart(pdf, module)`` runs ``main(pdf, out)`` of a module there and gives what it wrote; ``opened`` is
how such a ``main`` opens the file. Whatever is wrong comes back as one line.
"""

import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import Any, TypeVar

from dossier.notation import DossierError

T = TypeVar("T")

LARGEST_PDF = 400_000_000
SECONDS = 60
MEMORY = 2_000_000_000
PREFACE = 1024
"""Readers of PDFs look for its mark in so many bytes."""
DAMAGED = "the PDF is damaged or cut short; take another copy of it"
"""What is said of a file that no PDF reader can make sense of."""
FAULT = 2
MARK = "told: "
CHILD = "import sys; sys.path[:] = {path!r}; from dossier.rendering import apart; sys.exit(apart.child())"


def read_apart(pdf: Path, module: str) -> bytes:
    """What ``main`` of a module writes about a PDF. Raises DossierError in one line, OSError."""
    _check(pdf)
    paths = [place for place in sys.path if place]
    command = [sys.executable, "-I", "-c", CHILD.format(path=paths), module, str(pdf.resolve())]
    try:
        done = subprocess.run(command, capture_output=True, timeout=SECONDS, check=False)  # noqa: S603 - our own code
    except subprocess.TimeoutExpired:
        raise DossierError(f"{pdf}: it takes too long to read: damaged, or made to harm") from None
    if done.returncode:
        last = done.stderr.decode("utf-8", "replace").strip().rpartition("\n")[2]
        raise DossierError(f"{pdf}: {last.removeprefix(MARK) if last.startswith(MARK) else DAMAGED}")
    return done.stdout


def _check(pdf: Path) -> None:
    """Refuse what is no PDF, or too large, before anything is read of it."""
    if pdf.is_dir():
        raise DossierError(f"{pdf}: this is a folder; name the PDF in it")
    if pdf.stat().st_size > LARGEST_PDF:
        raise DossierError(f"{pdf}: larger than {LARGEST_PDF // 1_000_000} MB; no dossier is")
    with pdf.open("rb") as file:
        if b"%PDF-" not in file.read(PREFACE):
            raise DossierError(f"{pdf}: this is no PDF; give the file that dossier build wrote")


def child() -> int:
    """Run in the other process: ``main`` of the module named first, on the PDF named second."""
    with suppress(ImportError, ValueError, OSError):
        import resource  # noqa: PLC0415 - not on every system

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    try:
        import_module(sys.argv[1]).main(Path(sys.argv[2]), sys.stdout.buffer)
    except DossierError as fault:
        sys.stderr.buffer.write(f"{MARK}{fault}\n".encode("utf-8", "replace"))
        return FAULT
    return 0


def opened(pdf: Path, read: Callable[[Any], T]) -> T:
    """What ``read`` finds with a reader of the PDF, in this process. Raises DossierError."""
    found = _found(pdf, read)
    if found is None:
        raise DossierError("the PDF is encrypted; save it without a password and try again")
    return found[0]


def _found(pdf: Path, read: Callable[[Any], T]) -> tuple[T] | None:
    """What ``read`` finds, None where the PDF is encrypted."""
    import pypdf  # noqa: PLC0415 - slow to load

    try:
        with pdf.open("rb") as file:
            reader = pypdf.PdfReader(file, strict=False)
            return None if reader.is_encrypted else (read(reader),)
    except DossierError:
        raise
    except Exception:  # noqa: BLE001 - whatever a reader stumbles over, the file is at fault
        raise DossierError(DAMAGED) from None
