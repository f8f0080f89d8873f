"""Pipes and hoses by the name people type: ``hose 22``, ``pex 16x2.0``, ``steel 26.9x2.6``."""

import re
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Annotated

from dossier.data.tables import rows
from dossier.notation import Row, Traced, q
from dossier.notation.records import dataclass

_SIZE = re.compile(r"(?P<kind>[a-z]+)(?P<first>\d+(\.\d+)?)(x(?P<second>\d+(\.\d+)?))?$")


@dataclass(frozen=True)
class PipeSize:
    """One size of pipe or hose. ``material`` is hose, plastic, copper or steel; lengths in metres."""

    name: str
    material: str
    bore: Annotated[float, q("d", "m", "bore", low=1e-3, high=2)]
    wall: Annotated[float, q("s", "m", "thickness of the wall", low=1e-4, high=0.05)]
    outside: Annotated[float, q("d_o", "m", "outer diameter", low=1e-3, high=2)]
    roughness: Annotated[float, q("ε", "m", "roughness of the wall", low=0, high=0.01)]
    conductivity: Annotated[float, q("λ", "W/mK", "conductivity of the wall", low=0.01, high=500)]
    source: str


@cache
def pipe_sizes() -> Mapping[str, PipeSize]:
    """All sizes by name, every number with its row."""
    found = {}
    for row in rows("pipes"):
        numbers = {
            column: Traced(float(row[column]), Row("pipes", row["name"], row["source"]))
            for column in ("bore", "wall", "outside", "roughness", "conductivity")
        }
        found[row["name"]] = PipeSize(row["name"], row["material"], source=row["source"], **numbers)
    return MappingProxyType(found)


def pipe_size(name: str) -> PipeSize:
    """Size of a pipe as people type it: case, spaces, ``×`` and closing zeros do not count.

    ``KeyError`` where there is none of that size.

    >>> pipe_size("PEX 16 × 2").name
    'pex 16x2.0'
    """
    wanted = _plain(name)
    if wanted is None or wanted not in _by_plain_name():
        raise KeyError(name)
    return _by_plain_name()[wanted]


@cache
def roughness_of(material: str) -> Traced:
    """Roughness (m) of a material's wall, for a pipe given by its bore alone; ``KeyError`` where unknown."""
    for row in rows("roughness"):
        if row["material"] == material:
            return Traced(float(row["roughness"]), Row("roughness", material, row["source"]))
    raise KeyError(material)


@cache
def _by_plain_name() -> Mapping[tuple[str, float, float], PipeSize]:
    return {plain: size for name, size in pipe_sizes().items() if (plain := _plain(name)) is not None}


def _plain(name: str) -> tuple[str, float, float] | None:
    text = re.sub(r"[\s_]|mm", "", name.lower().replace("×", "x").replace("pe-x", "pex"))
    found = _SIZE.match(text)
    if found is None:
        return None
    return found["kind"], float(found["first"]), float(found["second"] or 0)
