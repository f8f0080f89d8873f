"""Reads files safely: inside the project's folder, of a sane size, as clean text."""

import hashlib
import re
import unicodedata
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from dossier.notation import Fault, ProjectFaults

LARGEST_PROJECT = 2_000_000
LARGEST_TABLE = 4_000_000
LARGEST_PICTURE = 40_000_000
CP1252_UNUSED = b"\x81\x8d\x8f\x90\x9d"

PLAIN_TEXT = "a project file is written in a text editor, as UTF-8"
OTHER_FILES = (
    (b"%PDF", "the file is a PDF, no text", "dossier recover takes the project file out of a dossier"),
    (
        b"PK\x03\x04",
        "the file is a document of a word processor, or packed",
        f"save it as plain text; {PLAIN_TEXT}",
    ),
    (
        b"\xd0\xcf\x11\xe0",
        "the file is a document of an office program",
        f"save it as plain text; {PLAIN_TEXT}",
    ),
    (b"{\\rtf", "the file is a document of a word processor", f"save it as plain text; {PLAIN_TEXT}"),
)
"""How files begin that people take for a text, what they are, and what to do."""

# Controls but tab and line feed; other line ends; bidirectional marks; what nobody sees; non-characters.
UNWANTED = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\uffff"
    "\ud800-\udfff\U000e0000-\U000e007f]"
)
_MARKS = re.compile("[^\x00-\x7f]{31,}")
MOST_MARKS = 30
LONGEST_PATH = 200


@dataclass(frozen=True)
class SourceFile:
    """One file the project was read from: its name in the folder, its bytes, their checksum.

    ``content`` is None for pictures, which are known by their checksum.
    """

    name: str
    content: bytes | None
    sha256: str

    @property
    def text(self) -> str:
        """The file as text, without byte-order mark."""
        return self.content.decode("utf-8-sig", errors="replace") if self.content is not None else ""


def refusal(name: str, what: str, instead: str = "", line: int = 0, column: int = 0) -> ProjectFaults:
    """A file that cannot be read at all."""
    return ProjectFaults([Fault(what, instead, name, line, column, 0)])


def read_bytes(path: Path, name: str, largest: int) -> bytes:
    """Content of a file; refused if it is missing, no file, or too large."""
    try:
        if path.is_dir():
            raise refusal(name, "this is a folder", "name the project file in it")
        if not path.exists():
            raise refusal(name, "there is no such file", "check its name and folder")
        if not path.is_file():
            raise refusal(name, "this is no ordinary file", "save the project as a file")
        with path.open("rb") as file:
            content = file.read(largest + 1)
    except (OSError, ValueError) as error:
        reason = (
            error.strerror if isinstance(error, OSError) and error.strerror else "its name cannot be used"
        )
        raise refusal(
            name, f"the file cannot be read: {reason.lower()}", "check its name and rights"
        ) from None
    if len(content) > largest:
        raise refusal(
            name,
            f"the file is larger than {largest // 1_000_000} MB",
            "a project file is text; pictures stay apart",
        )
    return content


def source_file(path: Path, name: str, largest: int) -> SourceFile:
    """A file with its checksum."""
    content = read_bytes(path, name, largest)
    return SourceFile(name, content, hashlib.sha256(content).hexdigest())


def clean_text(content: bytes, name: str, *, windows: bool = False) -> str:
    """Text of a file: UTF-8 (or Windows encoding, where allowed), NFC, lines ended by line feeds.

    Raises ProjectFaults for other encodings, binary files and characters that have no place in a text.
    """
    if content.startswith((b"\xff\xfe", b"\xfe\xff", b"\x00\x00\xfe\xff")):
        raise refusal(name, "the file is encoded as UTF-16 or UTF-32", "save it as UTF-8")
    for begins, what, instead in OTHER_FILES:
        if content.startswith(begins):
            raise refusal(name, what, instead)
    if b"\x00" in content:
        raise refusal(name, "the file is not a text", PLAIN_TEXT)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        if not windows or any(byte in content for byte in CP1252_UNUSED):
            before = content[: error.start]
            raise refusal(
                name,
                "the file is not encoded as UTF-8",
                "save it as UTF-8",
                before.count(b"\n") + 1,
                error.start - before.rfind(b"\n"),
            ) from None
        text = content.decode("cp1252")
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    found = UNWANTED.search(text)
    if found:
        line, column = (
            text.count("\n", 0, found.start()) + 1,
            found.start() - text.rfind("\n", 0, found.start()),
        )
        raise refusal(
            name,
            f"the character U+{ord(found[0]):04X} has no place in a text",
            "take it out (it is a control or an invisible mark)",
            line,
            column,
        )
    return text if text.isascii() else composed(text, name)


def composed(text: str, name: str) -> str:
    """Text in composed form (NFC), refused where marks are heaped on one letter.

    Putting heaped marks in order takes time by the square of their number.
    """
    for long in _MARKS.finditer(text):
        heaped = 0
        for letter in long[0]:
            heaped = heaped + 1 if unicodedata.combining(letter) else 0
            if heaped > MOST_MARKS:
                line = text.count("\n", 0, long.start()) + 1
                raise refusal(name, "too many marks stand on one letter", "write plain text", line)
    return unicodedata.normalize("NFC", text)


@dataclass
class Folder:
    """The folder of a project: what files of it were read, in order; nothing outside it can be."""

    root: Path
    files: list[SourceFile]

    def path_of(self, written: str) -> Path | str:
        """Path of a file named in the project; else what is wrong with the name."""
        if not written.strip() or len(written) > LONGEST_PATH:
            return "the name of the file is empty or too long"
        if "\\" in written:
            return "the folders of a file are parted by /"
        name = PurePosixPath(written)
        outside = "the file must lie in the project's folder"
        if name.is_absolute() or written.startswith("~") or (name.parts and ":" in name.parts[0]):
            return outside
        try:
            root = self.root.resolve()
            path = (root / name).resolve()
            found = (
                ""
                if path.is_file()
                else "this is no ordinary file"
                if path.exists()
                else "there is no such file"
            )
        except (OSError, RuntimeError, ValueError):
            return "the file cannot be found"
        return (found or path) if path.is_relative_to(root) else outside

    def read(self, written: str, largest: int, *, keep: bool = True) -> SourceFile:
        """A file named in the project, entered among its sources; raises ProjectFaults.

        ``keep`` keeps its content; without it only the checksum stays.
        """
        path = self.path_of(written)
        if isinstance(path, str):
            raise refusal(written, path)
        name = str(PurePosixPath(written))
        for known in self.files:
            if known.name == name:
                return known
        source = source_file(path, name, largest)
        if not keep:
            source = SourceFile(source.name, None, source.sha256)
        self.files.append(source)
        return source
