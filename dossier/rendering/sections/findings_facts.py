"""What the first paragraph of the findings rests on, counted once."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from dossier.checking.document_status import waits_for_a_test
from dossier.checking.finding import Finding, Status
from dossier.data.catalogue import Severity
from dossier.notation import NotAssessed, Real
from dossier.project.model import Burner
from dossier.rendering.draft import Draft
from dossier.sizing.study import heat_at_burner

WARMTH = frozenset({
    "flow.branch_flow", "flow.burner_min", "heat.emitter_covers", "heat.load_spread", "store.mean_output",
    "temperature.supply_reached",
})  # fmt: skip
"""Checks without which a load that is covered keeps nobody warm."""
UNDOCUMENTED = "document"
"""Group of the checks of the document itself: they tell nothing of the boat."""


@dataclass(frozen=True)
class Facts:
    """Findings sorted by what they mean for whoever wants to fire the burner."""

    draft: Draft

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """All of them, worst first."""
        return self.draft.assessment.worst_first

    @cached_property
    def dangers(self) -> tuple[Finding, ...]:
        """All checks of grade danger."""
        return tuple(f for f in self.findings if f.severity is Severity.DANGER)

    def _of(self, status: Status, among: Sequence[Finding]) -> tuple[Finding, ...]:
        return tuple(f for f in among if f.status is status)

    @cached_property
    def open_dangers(self) -> tuple[Finding, ...]:
        """Dangers not met."""
        return self._of(Status.NOT_MET, self.dangers)

    @cached_property
    def unknown_dangers(self) -> tuple[Finding, ...]:
        """Dangers nobody could look at."""
        return self._of(Status.NOT_ASSESSED, self.dangers)

    @cached_property
    def waiting(self) -> tuple[Finding, ...]:
        """Dangers that wait for nothing but a test."""
        return tuple(f for f in self.unknown_dangers if waits_for_a_test(f))

    @cached_property
    def accepted_dangers(self) -> tuple[Finding, ...]:
        """Dangers accepted in writing."""
        return self._of(Status.ACCEPTED, self.dangers)

    @cached_property
    def unknown(self) -> tuple[Finding, ...]:
        """All checks that could not be made."""
        return self._of(Status.NOT_ASSESSED, self.findings)

    @cached_property
    def open(self) -> tuple[Finding, ...]:
        """Findings of the table: not met, accepted, and dangers nobody could look at."""
        return tuple(f for f in self.findings if f.is_open)

    @cached_property
    def lesser(self) -> tuple[Finding, ...]:
        """Findings not met of a lesser grade than danger."""
        return tuple(
            f for f in self.findings if f.status is Status.NOT_MET and f.severity is not Severity.DANGER
        )

    @property
    def dangers_applicable(self) -> tuple[Finding, ...]:
        """Dangers that are not ruled out."""
        return tuple(f for f in self.dangers if f.status is not Status.NOT_APPLICABLE)

    @property
    def made(self) -> int:
        """Dangers that were looked at and apply."""
        return len(self.dangers_applicable) - len(self.unknown_dangers)

    def of_check(self, name: str) -> Finding | None:
        """Finding of one check."""
        return next((f for f in self.findings if f.check == name), None)

    @cached_property
    def burners(self) -> tuple[float, ...]:
        """Full output of each burner that states one (W)."""
        outputs = (burner.output for burner in self.draft.project.of_kind(Burner))
        return tuple(float(one.max) for one in outputs if one is not None and one.max is not None)

    @property
    def output(self) -> float:
        """Full output of all burners (W)."""
        return sum(self.burners, 0.0)

    @property
    def needed(self) -> Real | None:
        """Heat the burners must give on the design night, pipes outside the rooms counted."""
        return heat_at_burner(self.draft.study.heat_loss, self.draft.study.ring)

    @property
    def rooms(self) -> int:
        """Rooms with a target temperature."""
        return sum(zone.target is not None for zone in self.draft.project.zones or ())

    @property
    def rooms_short(self) -> tuple[str, ...] | None:
        """Rooms held more than the allowance below their target; None where nobody knows."""
        held = self.of_check("heat.room_held")
        if held is None or held.status in {Status.NOT_ASSESSED, Status.NOT_APPLICABLE}:
            return None
        if held.status is Status.MET:
            return ()
        named = tuple(item.what for item in held.items if item.status is Status.NOT_MET)
        return named or (held.place,)

    @cached_property
    def warmth_missed(self) -> tuple[Finding, ...]:
        """Checks of warmth, but for those of load and rooms, that are missed or only accepted."""
        return tuple(f for f in self._warmth if f.status in {Status.NOT_MET, Status.ACCEPTED})

    @cached_property
    def warmth_unknown(self) -> tuple[Finding, ...]:
        """Checks of warmth that could not be made."""
        return tuple(f for f in self._warmth if f.status is Status.NOT_ASSESSED)

    @property
    def _warmth(self) -> Iterator[Finding]:
        return (f for f in self.findings if f.check in WARMTH)

    @property
    def litres(self) -> Real | None:
        """Coolant in the whole system."""
        mix = self.draft.study.coolant
        return None if isinstance(mix, NotAssessed) else mix.volume

    def kinds(self) -> set[str]:
        """Kinds of component aboard."""
        return {part.kind for part in (self.draft.project.components or {}).values()}
