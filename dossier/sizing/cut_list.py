"""What is cut to which length? One line for each run, in the order of the file."""

from typing import TYPE_CHECKING, Annotated

import numpy as np

from dossier.data.coefficients import coefficient
from dossier.notation import ARITHMETIC, Real, formula, origin_of, q
from dossier.notation.records import dataclass
from dossier.project.model.circuit import Insulation
from dossier.sizing.runs import HOSE, End, Runs

if TYPE_CHECKING:
    from dossier.project.model.circuit import Pipe

CLAMPS_LOW, CLAMPS_HIGH = 2, 1
"""Clamps on a hose end near the waterline or below it, and on one higher up."""


@formula("n = ceil(L/s)", ARITHMETIC)
def supports_along(
    length: Annotated[Real, q("L", "m", "length", low=0, high=2000)],
    distance: Annotated[Real, q("s", "m", "distance of the supports", low=0.01, high=20)],
) -> Annotated[Real, q("n", "1", "supports", low=0)]:
    """Supports along a run."""
    return np.ceil(length / distance)


@dataclass(frozen=True)
class CutPiece:
    """One run as it is cut: length, what both ends meet and how they are joined, clamps on each.

    ``heights_known`` tells whether the heights of both ends are; a hose end of unknown height has one clamp.
    """

    tag: str
    branch: str
    size: str
    material: str
    length: Annotated[Real, q("L", "m", "length")]
    bends: Real | None
    through: str
    start: End
    end: End
    clamps: tuple[int, int]
    heights_known: bool
    insulation: str
    supports: Annotated[Real | None, q("n", "1", "supports")]


def cut_list(runs: Runs) -> tuple[CutPiece, ...]:
    """All runs as they are cut."""
    found = []
    for tag, run in runs.runs.items():
        start, end = runs.ends_of(tag)
        ends = (start, end)
        is_hose = run.material == HOSE
        support = run.pipe.support if run.pipe is not None else None
        found.append(
            CutPiece(
                tag,
                run.branch,
                run.size,
                run.material,
                run.length,
                run.bends,
                (run.pipe.through or "") if run.pipe is not None else "",
                start,
                end,
                (_clamps(start), _clamps(end)) if is_hose else (0, 0),
                all(each.height is not None for each in ends),
                insulation_of(run.pipe),
                None if support is None else supports_along(run.length, support),
            )
        )
    return tuple(found)


def _clamps(end: End) -> int:
    """Clamps on a hose end: two below the waterline and near it, by common practice."""
    near = float(coefficient("parts.two_clamps_below"))
    low = end.height is not None and float(end.height) <= near
    return CLAMPS_LOW if low else CLAMPS_HIGH


def insulation_of(pipe: "Pipe | None") -> str:
    """Thickness of a run's insulation as it is bought, empty where it has none."""
    held = pipe.insulation if pipe is not None else None
    if not isinstance(held, Insulation) or held.thickness is None:
        return ""
    origin = origin_of(held.thickness)
    text = getattr(origin, "text", "")
    return text or f"{float(held.thickness) * 1000:g} mm"
