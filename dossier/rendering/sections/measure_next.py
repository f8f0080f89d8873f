"""What to measure next: inputs that dangers wait for, then the guesses that move the load most."""

from dataclasses import dataclass

from dossier.checking.finding import Finding
from dossier.checking.guesses import is_input
from dossier.data.catalogue import Severity
from dossier.notation import Basis, Line
from dossier.rendering.answers import missing_keys
from dossier.rendering.draft import Draft

MOST_MISSING, MOST_GUESSES = 16, 8
TEMPERATURES = ("degC", "degF", "K")
LEAST = 0.001
"""Share of the load that a guess must move to be listed."""


@dataclass(frozen=True)
class Wanted:
    """An input to measure: missing, with the findings that wait for it; or guessed, with what it moves."""

    key: str
    findings: tuple[Finding, ...] = ()
    share: float = 0.0
    now: str = ""
    spread: str = ""


def moving_guesses(draft: Draft) -> list[Wanted]:
    """Assumed inputs that move the design load, the strongest first."""
    result = draft.assessment.results.get("heat_loss.total")
    if result is None or not float(result.value):
        return []
    load = abs(float(result.value))
    found = [
        Wanted(line.key, share=move / load, now=line.text, spread=_spread(draft, line))
        for line, move in draft.assessment.influence.moves(result.value).items()
        if line.basis is Basis.ASSUMED and move / load >= LEAST and is_input(draft.project, line)
    ]
    return sorted(found, key=lambda guess: (-guess.share, guess.key))


def _spread(draft: Draft, line: Line) -> str:
    """Half of the spread the file states: in degrees of a temperature, else as a share of the middle."""
    if line.spread is None:
        return ""
    low, high = line.spread
    half, middle = abs(high - low) / 2, abs(high + low) / 2
    if line.text.rstrip().endswith(TEMPERATURES):
        return f"± {draft.said(half, 'temperature_difference_fine')}"
    return f"± {draft.said(half / middle, 'share')}" if middle else ""


def wanted(draft: Draft) -> tuple[list[Wanted], int]:
    """What to measure, in this order, and how many missing keys are not among them.

    Keys that a danger waits for come first, those first that hold up most.
    """
    missing = missing_keys(draft.assessment.worst_first)
    dangers = {
        key: tuple(f for f in findings if f.severity is Severity.DANGER) for key, findings in missing.items()
    }
    first = [Wanted(key, waiting) for key, waiting in dangers.items() if waiting][:MOST_MISSING]
    return [*first, *moving_guesses(draft)[:MOST_GUESSES]], len(missing) - len(first)
