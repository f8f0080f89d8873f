"""What to measure next: inputs that dangers wait for, then the guesses that move most."""

from dataclasses import dataclass

from dossier.checking.finding import Finding
from dossier.checking.guesses import guesses
from dossier.data.catalogue import Severity, catalogue
from dossier.notation import Line
from dossier.rendering.answers import missing_keys
from dossier.rendering.draft import Draft

MOST_MISSING, MOST_GUESSES = 16, 8
TEMPERATURES = ("degC", "degF", "K")
LOAD = "heat_loss.total"
LEAST, WHOLE = 0.01, 10.0
"""Share of a result that a guess must move to be listed; share from which the figure tells nothing more."""


@dataclass(frozen=True)
class Wanted:
    """An input to measure: missing, with the findings that wait for it; or guessed, with what it moves."""

    key: str
    findings: tuple[Finding, ...] = ()
    result: str = ""
    share: float = 0.0
    now: str = ""
    spread: str = ""


def moving_guesses(draft: Draft) -> list[Wanted]:
    """Assumed inputs that move the load, the burner's runs or the margin of a danger, the strongest first."""
    found = []
    for guess in guesses(draft.study):
        if float(guess.effect) >= LEAST:
            line = draft.project.where(guess.key)
            stated = line if line.key == guess.key else None
            found.append(
                Wanted(
                    guess.key,
                    result=guess.result,
                    share=float(guess.effect),
                    now=stated.text if stated else "",
                    spread=_spread(draft, stated) if stated else "",
                )
            )
    return found


def what_moves(draft: Draft, name: str) -> str:
    """A result, or the margin of a check, as people read it."""
    if name in catalogue():
        return str(draft.words("limits.margin_of", title=catalogue()[name].title))
    result = draft.assessment.results.get(name)
    return str(draft.words("limits.load")) if name == LOAD else result.quantity.label if result else name


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
