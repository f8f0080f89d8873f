"""Packs the file: what is no stream goes into compressed object streams, with a cross-reference stream.

The structure of a document is thousands of small objects; packed they take a tenth of the room. PDF/A allows
this from its second part on.
"""

import zlib
from typing import Any

from reportlab.pdfbase import pdfdoc

OBJECTS = 200  # in one stream
HEADER = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"


def _formatted(document: Any) -> list[tuple[int, bool, bytes]]:
    """Number, whether it is a stream, and bytes of every object; formatting may add more to the list."""
    found: list[tuple[int, bool, bytes]] = []
    number = 1
    while number in document.numberToId:
        kept = document.idToObject[document.numberToId[number]]
        written = pdfdoc.format(kept, document, toplevel=1)
        found.append((number, isinstance(kept, pdfdoc.PDFStream), written))
        number += 1
    return found


def _stream(entries: str, content: bytes) -> bytes:
    packed = zlib.compress(content)
    head = f"<<{entries}/Filter/FlateDecode/Length {len(packed)}>>\nstream\n".encode("ascii")
    return head + packed + b"\nendstream"


def _object_stream(part: list[tuple[int, bytes]]) -> bytes:
    """Objects in one stream: first their numbers and places, then they themselves."""
    places, body = [], b""
    for number, written in part:
        places.append(f"{number} {len(body)}")
        body += written + b"\n"
    index = (" ".join(places) + "\n").encode("ascii")
    return _stream(f"/Type/ObjStm/N {len(part)}/First {len(index)}", index + body)


def packed(document: Any) -> bytes:
    """Bytes of a file whose fonts and structure are complete."""
    catalog, imprint = document.Reference(document.Catalog), document.Reference(document.info)
    objects = _formatted(document)
    root, described = (pdfdoc.format(reference, document).decode("ascii") for reference in (catalog, imprint))
    digest = document.signature.digest().hex()
    pieces, at = [HEADER], len(HEADER)
    entries: dict[int, tuple[int, int, int]] = {0: (0, 0, 65535)}

    def add(number: int, written: bytes) -> None:
        nonlocal at
        piece = f"{number} 0 obj\n".encode("ascii") + written + b"\nendobj\n"
        entries[number] = (1, at, 0)
        pieces.append(piece)
        at += len(piece)

    for number, is_stream, written in objects:
        if is_stream:
            add(number, written.rstrip(b"\n"))
    small = [(number, written) for number, is_stream, written in objects if not is_stream]
    following = len(objects) + 1
    for first in range(0, len(small), OBJECTS):
        part = small[first : first + OBJECTS]
        for place, (number, _) in enumerate(part):
            entries[number] = (2, following, place)
        add(following, _object_stream(part))
        following += 1
    entries[following] = (1, at, 0)
    table = b"".join(
        kind.to_bytes(1, "big") + second.to_bytes(4, "big") + third.to_bytes(2, "big")
        for kind, second, third in (entries[number] for number in range(following + 1))
    )
    told = f"/Type/XRef/Size {following + 1}/W[1 4 2]/Root {root}/Info {described}/ID[<{digest}><{digest}>]"
    pieces.append(f"{following} 0 obj\n".encode("ascii") + _stream(told, table) + b"\nendobj\n")
    pieces.append(f"startxref\n{at}\n%%EOF\n".encode("ascii"))
    return b"".join(pieces)
