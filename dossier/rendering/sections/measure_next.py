"""What to measure next: inputs that dangers wait for, then the guesses that move most."""

from dataclasses import dataclass

from dossier.checking.finding import Finding
from dossier.checking.guesses import ranked
from dossier.data.catalogue import Severity, catalogue
from dossier.notation import NotAssessed
from dossier.rendering.answers import missing_keys
from dossier.rendering.draft import Draft
from dossier.rendering.sections.spread import result_name
from dossier.sizing.uncertainty_inputs import Figure

MOST_MISSING, MOST_GUESSES = 16, 8
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

    @property
    def untold(self) -> bool:
        """Whether it moves a danger's margin nobody can tell how far, as through a ring solved as a whole."""
        return self.result in catalogue() and self.share >= WHOLE


def moving_guesses(draft: Draft) -> list[Wanted]:
    """Assumed inputs that move a result or the margin of a danger, the strongest first.

    Those that move a margin nobody can tell how far stand behind the others.
    """
    spreads, found = _spreads(draft), []
    for guess in ranked(draft.study):
        if float(guess.effect) >= LEAST:
            line = draft.project.where(guess.key)
            stated = line if line.key == guess.key else None
            found.append(
                Wanted(
                    guess.key,
                    result=guess.result,
                    share=float(guess.effect),
                    now=stated.text if stated else "",
                    spread=spreads.get(guess.key, ""),
                )
            )
    return sorted(found, key=lambda guess: guess.untold)


def what_moves(draft: Draft, name: str) -> str:
    """A result, or the margin of a check, as people read it."""
    if name in catalogue():
        return str(draft.words("limits.margin_of", title=catalogue()[name].title))
    return result_name(draft, name)


def _spreads(draft: Draft) -> dict[str, str]:
    """Spread of each assumed input; of a figure whose spread the file does not state, the usual one."""
    found = draft.study.uncertainty
    told = {}
    for unknown in () if isinstance(found, NotAssessed) else found.unknowns:
        said = _half(draft, unknown.first)
        told[unknown.key] = str(draft.words("limits.usual", spread=said)) if unknown.usual and said else said
    return told


def _half(draft: Draft, figure: Figure) -> str:
    """Half of a spread: in degrees of a temperature, else as a share of the middle."""
    half, middle = abs(figure.high - figure.low) / 2, abs(figure.high + figure.low) / 2
    if figure.quantity.unit == "K":
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
