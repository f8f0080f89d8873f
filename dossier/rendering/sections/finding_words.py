"""What the pages say about one finding: whose limit, which data, what is missing, what to do, who, where."""

import re
from typing import TYPE_CHECKING

from dossier.checking.document_status import waits_for_a_test
from dossier.checking.finding import Finding, Status
from dossier.checking.judging import MAKER_SILENT
from dossier.data.asked import asked_of
from dossier.data.catalogue import CheckKind, LimitBasis, catalogue
from dossier.data.check_numbers import number_of
from dossier.notation import Basis, Line, Working, origin_of
from dossier.project.model import ProjectFile
from dossier.rendering.answers import limit_of_row, triple
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import NOT_APPLICABLE, Judged
from dossier.rendering.text import Markup, Text, link, own, page_of, text

if TYPE_CHECKING:
    from dossier.project.model import Deviation

KEYS = 3
"""Missing inputs named in a row of the findings; the survey part names more."""
NUMBERS = 8
"""Other findings named by their number in one cell."""
LOOKED_AT = frozenset({CheckKind.PRESENCE, CheckKind.GEOMETRY, CheckKind.RECORD})
_BRACKETS = re.compile(r"\s*\([^()]*\)")
_KEY = re.compile(r"\b([a-z_]+(?:\.\w+)+)\b")


def check_key(finding: Finding) -> str:
    """Key of the place in the survey part where a check stands."""
    return f"check {finding.check}"


def finding_key(finding: Finding) -> str:
    """Key of its row among the findings."""
    return f"finding {number_of(finding.check)}"


class FindingWords:
    """Says what there is to say about findings in one draft."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.words = draft, draft.words
        self.deviations = {d.check: d for d in draft.project.deviations or ()}

    def number(self, finding: Finding) -> str:
        """The number that the finding keeps for life: that of its check."""
        return str(number_of(finding.check))

    def triple(self, finding: Finding, *, both: bool = False) -> Judged:
        """Found, limit and margin; where nothing was assessed, what is asked and what it takes to know."""
        shown = triple(self.draft.numbers, finding.limit.row, finding, both=both)
        found, margin = self._words(finding.found, shown.found), self._words(finding.margin, shown.margin)
        limit = self._words(finding.bound, shown.limit)
        if finding.status is not Status.NOT_ASSESSED:
            return Judged(found, limit, margin)
        limit = limit if shown.limit != NOT_APPLICABLE else self._asked(finding)
        return Judged(found, limit, str(self.words(f"answers.margin_{self._lacks(finding)}")))

    def title(self, finding: Finding) -> str:
        """What the check looks at: the wanted state."""
        return self.words.told(finding.limit.row.title)

    def _words(self, value: object, shown: str) -> str:
        """A figure as it is shown; what a check says in words, in the language of the pages."""
        return self.draft.made(shown) if isinstance(value, str) and value else shown

    def _asked(self, finding: Finding) -> str:
        if finding.limit.row.kind in LOOKED_AT:
            return self.words.told(asked_of(finding.check))
        return limit_of_row(self.draft.numbers, finding) or NOT_APPLICABLE

    @staticmethod
    def _lacks(finding: Finding) -> str:
        if waits_for_a_test(finding):
            return "test"
        return "look" if finding.limit.row.kind in LOOKED_AT else "measure"

    def whose(self, finding: Finding) -> Text:
        """Whose limit it is, in a few words."""
        limit = finding.limit
        if limit.basis is LimitBasis.PRACTICE:
            silent = MAKER_SILENT in finding.remark
            return self.words("answers.practice_for_maker" if silent else "answers.basis_common_practice")
        if limit.basis is LimitBasis.MAKER and not limit.overridden:
            return self.words("answers.maker_instructions")
        name = str(limit.basis).replace(" ", "_")
        source = limit.source if limit.overridden else self.draft.made(limit.source)
        return self.words(f"answers.basis_{name}", source=short_source(source))

    def weakest_basis(self, finding: Finding) -> tuple[Markup, int | None] | None:
        """Basis of what was found, and its line in the file; None where there is none."""
        origin = origin_of(finding.found)
        line = self.draft.project.where(finding.key) if finding.key else None
        number = line.line if line is not None and line.key else None
        if isinstance(origin, Working):
            mark = self._mark(self.draft.assessment.influence.basis(finding.found))
            return self.words("answers.computed_from", basis=mark), number
        if isinstance(origin, Line):
            return self._mark(origin.basis), origin.line or number
        if line is not None and line.key and finding.status is not Status.NOT_ASSESSED:
            return self._mark(line.basis), number
        return None

    def _mark(self, basis: Basis) -> Markup:
        return self.words(f"pages.basis_{basis.value}")

    def basis(self, finding: Finding) -> Text:
        """Limit and data in one line; for what was not assessed, the missing inputs."""
        if finding.status is Status.NOT_ASSESSED:
            return self.words("answers.input_missing", keys=self.keys(finding, KEYS, with_keys=False))
        whose, origin = self.whose(finding), origin_of(finding.found)
        if isinstance(origin, Working):
            mark = self._mark(self.draft.assessment.influence.basis(finding.found))
            return self.words("answers.rests_on_computed", limit=whose, basis=mark)
        found = self.weakest_basis(finding)
        return whose if found is None else self.words("answers.rests_on", limit=whose, basis=found[0])

    def keys(self, finding: Finding, most: int | None = None, *, with_keys: bool = True) -> Text:
        """Inputs that a finding waits for, each with its line, no more than ``most`` of them."""
        return self.draft.inputs.listed(finding.missing, most, with_keys=with_keys)

    def place(self, finding: Finding) -> Text:
        """What of several things it is about, or where."""
        return self.looked_at(finding.place)

    def looked_at(self, what: str) -> Text:
        """One of the things a check looked at: other checks by their numbers, inputs in words, names."""
        checks = what.split(", ")
        if all(check in catalogue() for check in checks):
            numbers = sorted(number_of(check) for check in checks)
            shown = ", ".join(map(str, numbers[:NUMBERS]))
            more = max(0, len(numbers) - NUMBERS)
            return self.words("answers.findings", numbers=shown, count=len(numbers), more=more)
        key, moves, result = what.partition(" moves ")
        if "." in key and key.partition(".")[0] in ProjectFile.model_fields:
            phrase = self.draft.inputs.phrase(key)
            return self.words("answers.moves", input=phrase, result=self._result(result)) if moves else phrase
        return self.draft.made(what)

    def remark(self, finding: Finding) -> Text:
        """What a check adds, inputs in words."""
        parts: list[Text] = []
        for number, part in enumerate(_KEY.split(finding.remark)):
            known = number % 2 and part.partition(".")[0] in ProjectFile.model_fields
            parts.append(self.draft.inputs.phrase(part) if known else part)
        return text(*parts)

    def _result(self, name: str) -> Text:
        """A result, or the margin of a check, as people read it."""
        if name in catalogue():
            return self.words("limits.margin_of", title=self.draft.made(catalogue()[name].title))
        found = self.draft.assessment.results.get(name)
        return self.draft.made(found.quantity.label) if found else name

    def action(self, finding: Finding) -> Text:
        """What to do: the catalogue's advice, the measure instead, or how to find out."""
        deviation = self.deviations.get(finding.check)
        if finding.status is Status.ACCEPTED and deviation is not None:
            return self.words("answers.instead", instead=(deviation.instead or "").rstrip("."))
        if finding.status is Status.NOT_ASSESSED:
            return self.words(f"answers.do_{self._lacks(finding)}")
        return self.words.told(finding.limit.row.advice)

    def who(self, finding: Finding) -> Text:
        """Who does it, before when; for an accepted deviation, until when it holds and who accepted it."""
        deviation = self.deviations.get(finding.check)
        if finding.status is Status.ACCEPTED and deviation is not None:
            return self.words("answers.until", until=str(deviation.until), names=self.names(deviation))
        row = finding.limit.row
        named = [str(self.words(f"answers.who_{who.replace(' ', '_')}")) for who in row.who]
        return self.words(
            "answers.who_before", who=self.listed(named, capital=True), before=self.words.told(row.before)
        )

    def names(self, deviation: "Deviation") -> Text:
        """Who accepted a deviation."""
        if not deviation.with_:
            return deviation.by or ""
        return self.words("answers.both_names", by=deviation.by or "", second=deviation.with_)

    def sheet(self, finding: Finding) -> Text:
        """Sheet of the survey part where the check stands; nothing where this edition leaves it out."""
        return page_of(check_key(finding)) if in_survey(self.draft, finding) else ""

    def joined(self, first: Text, last: Text) -> Markup:
        """Two texts with "and" between them."""
        return self.words("numerals.list_of_two", first=first, last=last)

    def listed(self, items: "list[str]", *, capital: bool = False) -> Text:
        """Words one after another, the last with "and"."""
        if not items:
            return ""
        first, last = ", ".join(items[:-1]), items[-1]
        said = str(self.joined(first, last)) if first else last
        return said[:1].upper() + said[1:] if capital else said

    def numeral(self, count: int, *, capital: bool = False) -> Markup:
        """A number in words."""
        said = str(self.words("numerals.cardinal", count=count)).strip()
        return own(said[:1].upper() + said[1:] if capital else said)

    def linked(self, finding: Finding) -> Markup:
        """The finding's number, leading to its row; of what is not open to its check, where printed."""
        if finding.is_open:
            return link(finding_key(finding), self.number(finding))
        return (
            link(check_key(finding), self.number(finding))
            if in_survey(self.draft, finding)
            else own(self.number(finding))
        )


def short_source(source: str) -> str:
    """The first authority a source names, without what stands in brackets.

    >>> short_source("Boat Safety Scheme, BSS Standards 2002, 8.8 (flues: 500 mm); common practice")
    'Boat Safety Scheme, BSS Standards 2002, 8.8'
    """
    bare = source
    while _BRACKETS.search(bare):
        bare = _BRACKETS.sub("", bare)
    return bare.partition(";")[0].strip() or source


def in_survey(draft: Draft, finding: Finding) -> bool:
    """Whether this edition's survey part prints a check: all, or in the short form those of the yard."""
    extent = draft.extent("survey").value
    return extent in {"whole", "concise"} or (extent == "short" and is_for_yard(finding))


def is_for_yard(finding: Finding) -> bool:
    """Whether a yard, technician, electrician or licensed trade has to do with a check."""
    return any(who not in {"owner", "surveyor"} for who in finding.limit.row.who)


def is_for_crew(finding: Finding) -> bool:
    """Whether the owner or crew has to do with a check."""
    return "owner" in finding.limit.row.who
