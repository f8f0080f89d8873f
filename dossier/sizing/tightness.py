"""To which pressure is the circuit tested before it is lined?

A factor on the highest working pressure, not below a least one, and never above what the weakest part
stands: header and safety valve are isolated for the test.
"""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.coefficients import coefficient
from dossier.data.sources import EN_14336_TIGHTNESS
from dossier.notation import ARITHMETIC, NotAssessed, Real, chosen, formula, q
from dossier.notation.records import dataclass

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.study import Study

QUESTION = "To which pressure is the circuit tested?"
GAUGE = q("p", "Pa", "gauge pressure", low=0, high=1e8)
ISOLATED = ("header_tank", "safety_valve")
"""Kinds that are shut off for the test."""


@formula("p_t = f · p_w", EN_14336_TIGHTNESS)
def raised_pressure(
    factor: Annotated[Real, q("f", "1", "test pressure over the highest working pressure", low=1, high=3)],
    working: Annotated[Real, q("p_w", "Pa", "highest working pressure, gauge", low=0, high=1e7)],
) -> Annotated[Real, q("p_t", "Pa", "test pressure, gauge")]:
    """Pressure of the tightness test by the working pressure alone."""
    return factor * working


@dataclass(frozen=True)
class TightnessTest:
    """Pressure of the test; ``weakest`` names the part that holds it down, empty where none does."""

    working: Annotated[Real, q("p_w", "Pa", "highest working pressure, gauge")]
    pressure: Annotated[Real, q("p_t", "Pa", "test pressure, gauge")]
    weakest: str = ""


def tightness_test(study: "Study") -> TightnessTest | NotAssessed:
    """Test pressure of a circuit whose pressures are known."""
    found = study.pressures
    if isinstance(found, NotAssessed):
        return NotAssessed(QUESTION, found.needs, found.why)
    candidates = [mode.highest for mode in found.modes.values()]
    if found.sealed:
        expansion = study.expansion
        hot = None if isinstance(expansion, NotAssessed) else expansion.final
        candidates += [each for each in (hot, *_finals(study.project)) if each is not None]
    if not candidates:
        return NotAssessed(QUESTION, ("circuit.ring",))
    most = max(candidates, key=float)
    working = chosen(max(float(most), 0.0), GAUGE, "highest of all modes, hot", ARITHMETIC, *candidates)
    least = coefficient("tightness.least")
    raised = raised_pressure(coefficient("tightness.factor"), working)
    wanted = max(raised, least, key=float)
    weakest = _weakest(study.project)
    if weakest is not None and float(weakest[1]) < float(wanted):
        text = "what the weakest part stands"
        return TightnessTest(
            working, chosen(float(weakest[1]), GAUGE, text, ARITHMETIC, weakest[1]), weakest[0]
        )
    text = "the larger of factor times working pressure and least pressure"
    return TightnessTest(working, chosen(float(wanted), GAUGE, text, EN_14336_TIGHTNESS, raised, least))


def _finals(project: "Project") -> list[Real]:
    """Final pressures that vessels are made for."""
    vessels: list[Any] = [c for c in (project.components or {}).values() if c.kind == "membrane_vessel"]
    return [vessel.final for vessel in vessels if vessel.final is not None]


def _weakest(project: "Project") -> tuple[str, Real] | None:
    """Part of the circuit with the lowest stated rating, and that; None where no rating is stated."""
    rated: list[tuple[str, Real]] = [
        (tag, part.pressure_rating)
        for tag, part in (project.components or {}).items()
        if part.pressure_rating is not None and part.kind not in ISOLATED
    ]
    rated += [(pipe.id, pipe.pressure_rating) for pipe in project.pipes() if pipe.pressure_rating is not None]
    return min(rated, key=lambda pair: float(pair[1]), default=None)
