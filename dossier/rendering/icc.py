"""The colour profile of the output intent: sRGB as IEC 61966-2-1 defines it, as an ICC profile of version 2.

Written out here, since tools that make profiles put the time of making into them.
"""

from functools import cache
from struct import pack

PRIMARIES = {  # chromatically adapted to D50, as a version 2 profile wants them
    b"rXYZ": (0.43607, 0.22249, 0.01392),
    b"gXYZ": (0.38515, 0.71687, 0.09708),
    b"bXYZ": (0.14307, 0.06061, 0.71410),
}
WHITE_D65 = (0.95045, 1.0, 1.08905)
STEPS = 1024
KNEE = 0.04045  # where the straight part of the curve ends


def _fixed(number: float) -> int:
    return round(number * 65536)


def _xyz(numbers: tuple[float, float, float]) -> bytes:
    return b"XYZ \0\0\0\0" + pack(">3i", *map(_fixed, numbers))


def _linear(share: float) -> float:
    """IEC 61966-2-1: linear light of an encoded share of full light."""
    return share / 12.92 if share <= KNEE else ((share + 0.055) / 1.055) ** 2.4


def _curve() -> bytes:
    lights = [round(_linear(step / (STEPS - 1)) * 65535) for step in range(STEPS)]
    return b"curv\0\0\0\0" + pack(f">I{STEPS}H", STEPS, *lights)


def _described(name: bytes) -> bytes:
    """A description in version 2: ASCII, then empty Unicode and script parts."""
    return b"desc\0\0\0\0" + pack(">I", len(name) + 1) + name + b"\0" + bytes(4 + 4 + 2 + 1 + 67)


@cache
def srgb() -> bytes:
    """Bytes of the profile, the same for ever."""
    curve = _curve()
    tags = {
        b"desc": _described(b"sRGB IEC61966-2-1"),
        b"cprt": b"text\0\0\0\0" + b"no rights reserved\0",
        b"wtpt": _xyz(WHITE_D65),
        **{tag: _xyz(numbers) for tag, numbers in PRIMARIES.items()},
        b"rTRC": curve,
        b"gTRC": curve,
        b"bTRC": curve,
    }
    table, body, places = b"", b"", dict[bytes, int]()
    start = 128 + 4 + 12 * len(tags)
    for tag, content in tags.items():
        if content not in places:
            body += bytes(-len(body) % 4)
            places[content] = start + len(body)
            body += content
        table += tag + pack(">II", places[content], len(content))
    size = start + len(body)
    header = pack(
        ">I4xI4s4s4s6H4s4xI4x4x8xI3i4x",
        size, 0x02100000, b"mntr", b"RGB ", b"XYZ ", 2026, 1, 1, 0, 0, 0, b"acsp", 0, 0,
        _fixed(0.9642), _fixed(1.0), _fixed(0.8249),
    )  # fmt: skip
    return header + bytes(128 - len(header)) + pack(">I", len(tags)) + table + body
