"""Hold points as bars across the column: what must be seen, who signs, who has signed."""

from dossier.checking.signatures import is_signed, key_of
from dossier.checking.stated import stated
from dossier.data.commissioning import HoldPoint, hold_points, work_packages
from dossier.data.wording import wanted
from dossier.rendering.blocks import Block, HoldBar, StopRule
from dossier.rendering.draft import Draft
from dossier.rendering.text import Text, text
from dossier.sizing.needs_aboard import needs_met


def hold_key(number: int) -> str:
    """Key of the place where a hold point is signed."""
    return f"hold {number}"


class Holds:
    """The hold points of one draft."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.words = draft, draft.words
        aboard = needs_met(draft.project)
        self._packages = [p for p in work_packages() if wanted(p.needs, aboard)]

    def signed(self, number: int) -> bool | None:
        """Whether a hold point is signed; None where the file is silent."""
        return is_signed(self.draft.project, number)

    def state(self, number: int) -> Text:
        """Who signed and when, or that nobody did; empty where the file is silent."""
        answer = stated(self.draft.project, key_of(number))
        if answer is None:
            return ""
        if isinstance(answer, bool):
            return self.words("yard.signed_no_name" if answer else "yard.not_signed")
        if not self.signed(number):
            return self.words("yard.not_signed")
        names = ", ".join(answer.by or ())
        if not names:
            return self.words("yard.signed_no_name")
        return self.words("yard.signed_by", names=names, date=str(answer.date or ""))

    def home(self, hold: HoldPoint) -> int:
        """Package on whose sheet it is signed: its own, or the first that waits for it."""
        numbers = [p.number for p in self._packages]
        waiting = [p.number for p in self._packages if hold.number in (*p.hold_before, *p.hold_after)]
        return hold.package if hold.package in numbers else min(waiting, default=hold.package)

    def bar(self, number: int, package: int, *, before: bool) -> Block:
        """A hold point on the sheet of a package: to sign where it is at home, else a line that says where.

        ``before`` tells that the work of the package waits for it.
        """
        hold = hold_points()[number - 1]
        label = self.words("maintenance.hold", number=number)
        when = self.words("yard.hold_when", when=_capital(hold.when))
        home, state = self.home(hold), self.state(number)
        if home != package:
            where = state if self.signed(number) else self._elsewhere(home, before=before)
            return StopRule(label, text(when, " ", where))
        names = [] if self.signed(number) else [_capital(name) for name in hold.signed_by]
        seen = self.words("yard.hold_seen", seen=_capital(hold.seen))
        return HoldBar(label, when, text(seen, " ", state) if state else seen, names, key=hold_key(number))

    def _elsewhere(self, home: int, *, before: bool) -> Text:
        if before:
            return self.words("yard.waits_for", package=home)
        return self.words("yard.waited_for_by", package=home)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
