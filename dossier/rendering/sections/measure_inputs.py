"""Which inputs are asked for aboard: those that checks wait for, and those that are guessed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from dossier.checking.finding import Finding, Status
from dossier.checking.guesses import Guess, ranked
from dossier.data.measuring import MeasuredInput, measured_input
from dossier.notation import Basis
from dossier.project.spoken_keys import SpokenKey, spoken
from dossier.rendering.answers import missing_keys
from dossier.rendering.draft import Draft

DRAWN, EXHAUST = "document.exhaust_measured", ("exhaust.route", "exhaust.bore", "exhaust.passes")
"""Check that asks for a measured exhaust, and what it looks at."""
COMPONENTS = "components"
NEVER = 9
"""Rank of an input that no check waits for."""


@dataclass(frozen=True)
class Asked:
    """An input to measure: what it is, how it is measured, who waits for it, what it moves.

    ``now`` is what the file says of it so far, as written; empty where it is silent.
    """

    key: SpokenKey
    how: MeasuredInput
    findings: tuple[Finding, ...] = ()
    moves: str = ""
    effect: float = 0.0
    now: str = ""

    @property
    def grade(self) -> int:
        """Rank of the gravest check that waits for it: 0 for danger."""
        return min((finding.severity.rank for finding in self.findings), default=NEVER)

    @property
    def urgency(self) -> tuple[int, float, int]:
        """Grade first, then what it moves, then how many checks of that grade wait."""
        waiting = sum(finding.severity.rank == self.grade for finding in self.findings)
        return self.grade, -self.effect, -waiting


@dataclass(frozen=True)
class Inputs:
    """All inputs asked for, the most urgent first; ``elsewhere`` are keys that nobody measures aboard."""

    asked: tuple[Asked, ...]
    elsewhere: tuple[str, ...]

    def sheets(self) -> Mapping[str, Sequence[Asked]]:
        """Inputs by sheet, the sheet with the most urgent input first."""
        found: dict[str, list[Asked]] = {}
        for each in self.asked:
            found.setdefault(each.how.sheet, []).append(each)
        return found


class _Gathering:
    """Inputs as they are found, each once."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.project = draft, draft.project
        self.found: dict[str, Asked] = {}
        self.elsewhere: dict[str, None] = {}

    def keys(self, key: str) -> list[str]:
        """Keys under which an input is asked for: its own, or those of the entry it holds."""
        tags = self._of_kind(key)
        if tags:
            return [inner for tag in tags for inner in self.keys(tag)]
        said = spoken(self.project, key)
        how = measured_input(said.pattern) if said is not None else None
        if said is None or how is None:
            self.elsewhere.setdefault(key)
            return []
        if said.children and "." in said.pattern:
            return [inner for child in said.children for inner in self.keys(f"{said.key}.{child}")]
        if said.key not in self.found:
            line = self.project.where(said.key)
            self.found[said.key] = Asked(said, how, now=line.text if line.key == said.key else "")
        return [said.key]

    def _of_kind(self, key: str) -> list[str]:
        """Keys of all parts of a kind, for a key that names the kind in place of a tag."""
        top, _, rest = key.partition(".")
        kind, _, inner = rest.partition(".")
        parts = self.project.components or {}
        if top != COMPONENTS or kind in parts or not inner:
            return []
        return [f"{top}.{tag}.{inner}" for tag, part in parts.items() if part.kind == kind]

    def waits(self, key: str, findings: Sequence[Finding]) -> None:
        """Checks wait for an input."""
        for place in self.keys(key):
            waiting = dict.fromkeys((*self.found[place].findings, *findings))
            self.found[place] = replace(self.found[place], findings=tuple(waiting))

    def moves(self, guess: Guess) -> None:
        """A guess moves a result."""
        for place in self.keys(guess.key):
            if float(guess.effect) > self.found[place].effect:
                effect = float(guess.effect)
                self.found[place] = replace(self.found[place], moves=guess.result, effect=effect)


def inputs(draft: Draft) -> Inputs:
    """Inputs that are missing, or assumed, or silently taken by default and strong.

    An exhaust that was drawn and not measured counts as missing.
    """
    gathering = _Gathering(draft)
    for key, findings in missing_keys(draft.assessment.worst_first).items():
        gathering.waits(key, findings)
    for finding in draft.assessment.findings:
        if finding.check == DRAWN and finding.status is Status.NOT_MET:
            for key in EXHAUST:
                gathering.waits(key, [finding])
    for line in draft.project.inputs():
        if line.basis is Basis.ASSUMED:
            gathering.keys(line.key)
    for guess in ranked(draft.study):
        gathering.moves(guess)
    asked = sorted(gathering.found.values(), key=lambda each: each.urgency)
    return Inputs(tuple(asked), tuple(gathering.elsewhere))
