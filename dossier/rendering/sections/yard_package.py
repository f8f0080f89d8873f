"""One work package on sheets of its own: cautions, hold points, steps, then its tables."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from dossier.checking.finding import Finding, Status
from dossier.checking.stated import stated
from dossier.data.catalogue import Severity, check_groups
from dossier.data.commissioning import PackageStep, WorkPackage
from dossier.data.wording import filled, wanted
from dossier.rendering.blocks import (
    Align,
    Block,
    Column,
    FormBox,
    FormRow,
    Gathered,
    PackageHead,
    Paragraph,
    Signatures,
    Span,
    Steps,
    StopRule,
    Table,
    Tick,
    Together,
    Wide,
)
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.layout.measures import column_width
from dossier.rendering.ranges import ranges
from dossier.rendering.sections.finding_words import FindingWords, check_key, in_survey, is_for_yard
from dossier.rendering.sections.hazards import hazard_panels, side_by_side
from dossier.rendering.sections.records_expected import Expectations
from dossier.rendering.sections.yard_cables import cables
from dossier.rendering.sections.yard_exhaust import holes, legs
from dossier.rendering.sections.yard_holds import Holds
from dossier.rendering.sections.yard_lists import cuts, materials
from dossier.rendering.sections.yard_settings import settings, valves
from dossier.rendering.text import Text, page_of, status_mark, strong, text
from dossier.sizing.needs_aboard import needs_met

OWNER = "owner"
DRAWINGS = {
    1: "schematic",
    2: "arrangement",
    3: "exhaust",
    4: "heights",
    5: "one_line",
    6: "fuel",
    7: "build_up",
    8: "valves",
    9: "tags",
}
"""Names of the drawings by their numbers, as their words bear them."""
GRAVEST = frozenset({"carbon_monoxide"})
"""Panels that stand at the head even where a step names them."""

LISTS: Mapping[int, Sequence[Callable[[Draft], Iterator[Block]]]] = {
    3: (holes, legs),
    5: (cuts,),
    9: (cables,),
}
"""Lists of a package beside its materials."""


def package_key(number: int) -> str:
    """Key of the place where a package stands."""
    return f"package {number}"


def drawings_of(draft: Draft, package: WorkPackage) -> tuple[int, ...]:
    """Numbers of the drawings a package is built from, of those that this document holds."""
    if not draft.has("drawings"):
        return ()
    return tuple(
        number
        for number in package.drawings
        if any(draft.words.has(f"drawings.{DRAWINGS[number]}{end}") for end in ("", "_kind"))
    )


def asked_of(draft: Draft, package: WorkPackage) -> list[Finding]:
    """Checks a package must meet, worst first: those that apply and are the work of whoever does it."""
    return [
        finding
        for finding in draft.assessment.worst_first
        if package.holds(finding.check)
        and finding.status is not Status.NOT_APPLICABLE
        and (is_for_yard(finding) or OWNER in package.done_by)
    ]


class PackageSheet:
    """The sheets of one package."""

    def __init__(self, draft: Draft, package: WorkPackage, holds: Holds) -> None:
        self.draft, self.words, self.package, self.holds = draft, draft.words, package, holds
        self.said, self.expectations = FindingWords(draft), Expectations(draft)
        aboard = needs_met(draft.project)
        self.steps = [step for step in package.steps if wanted(step.needs, aboard)]
        self.lines = [line for line in package.lines if wanted(line.needs, aboard)]

    def blocks(self) -> Iterator[Block]:
        """All of it, in the order in which it is worked through."""
        yield self._head()
        yield Wide([*self._scope(), *self._missed(), *self._cautions()])
        number = 1
        after = [(hold,) for hold in self.package.hold_after]
        for stage, holds in enumerate([self.package.hold_before, *after, ()], 1):
            steps = [step for step in self.steps if step.stage == stage]
            yield from self._stage(steps, number)
            number += len(steps)
            for hold in holds:
                yield self.holds.bar(hold, self.package.number, before=stage == 1)
        if self.lines:
            yield from self._boxes()
        yield Signatures([self.words("yard.signatures_done")])
        tables = list(self._tables())
        if tables:
            yield Gathered(tables)

    def _head(self) -> PackageHead:
        words, asked = self.words, asked_of(self.draft, self.package)
        given = stated(self.draft.project, f"yard.W{self.package.number}")
        done_by: Text = (given.by if given else None) or _capital(", ".join(self.package.done_by))
        drawings = [
            str(words("yard.drawing", number=n, name=words(f"yard.drawing_{n}")))
            for n in drawings_of(self.draft, self.package)
        ]
        met: Text = words("yard.no_checks")
        if asked:
            counted = partial(_count, asked)
            met = words(
                "yard.checks_count",
                count=len(asked),
                missed=counted(Status.NOT_MET),
                open=counted(Status.NOT_ASSESSED),
            )
            first = next((finding for finding in self._as_surveyed(asked)), None)
            if first is not None:
                met = text(met, "; ", words("yard.from_sheet", sheet=page_of(check_key(first))))
        return PackageHead(
            words("maintenance.package", number=self.package.number),
            self.package.work,
            [
                (words("yard.by_whom"), done_by),
                (
                    words("maintenance.column_drawings"),
                    "; ".join(drawings) or words("yard.no_drawing"),
                ),
                (words("yard.must_be_met"), met),
            ],
            package_key(self.package.number),
        )

    def _as_surveyed(self, asked: Sequence[Finding]) -> Iterator[Finding]:
        """Those that this document prints in its survey part, in the order there."""
        if self.draft.extent("survey") is Extent.SHORT:
            yield from (finding for finding in asked if in_survey(self.draft, finding))
            return
        order = [group.group for group in check_groups()]
        printed = [finding for finding in asked if in_survey(self.draft, finding)]
        yield from sorted(printed, key=lambda finding: order.index(finding.limit.row.group))

    def _scope(self) -> Iterator[Block]:
        """What it holds, in the owner's words where he wrote some."""
        given = stated(self.draft.project, f"yard.W{self.package.number}")
        if given and given.scope:
            yield Paragraph(self.words("yard.scope", scope=given.scope))
        else:
            yield Paragraph(self.words("yard.materials_in_words", materials=self.package.materials))
        if given and given.excludes:
            yield Paragraph(self.words("yard.excludes", excludes=", ".join(given.excludes)))

    def _missed(self) -> Iterator[Block]:
        """What forbids to build it as planned: dangers that this issue does not meet."""
        missed = [
            int(self.said.number(finding))
            for finding in asked_of(self.draft, self.package)
            if finding.status is Status.NOT_MET and finding.severity is Severity.DANGER
        ]
        if missed:
            rule = self.words("yard.danger_missed", count=len(missed), numbers=ranges(missed))
            yield StopRule(self.words("maintenance.stop"), rule)

    def _cautions(self) -> list[Block]:
        """Panels of the whole package; those of a step stand at the step."""
        of_steps = {name for step in self.steps for name in step.caution} - GRAVEST
        names = [name for name in self.package.cautions if name not in of_steps]
        panels = list(hazard_panels(self.draft, names))
        if panels:
            panels[-1] = replace(panels[-1], last=self.words("safety.panel_foot"))
        return side_by_side(panels, column_width(self.draft.paper, Span.FULL))

    def _stage(self, steps: Sequence[PackageStep], first: int) -> Iterator[Block]:
        """Steps between two hold points, each panel right before its step."""
        waiting: list[Text] = []
        start = first
        for number, step in enumerate(steps, first):
            panels = list(hazard_panels(self.draft, set(step.caution) - GRAVEST, embedded=True))
            if panels and waiting:
                yield Steps(waiting, start, checkbox=True)
                waiting, start = [], number
            yield from panels
            waiting.append(filled(step.action, self.expectations.filling))
        if waiting:
            yield Steps(waiting, start, checkbox=True)

    def _boxes(self) -> Iterator[Block]:
        """Lines of the commissioning sheets that are read in this package."""
        units = [self.draft.numbers.unit(line.shown) for line in self.lines]
        boxes = [
            FormBox(line.what, self.expectations.of(line).words, unit)
            for line, unit in zip(self.lines, units, strict=True)
        ]
        head = Paragraph(strong(self.words("yard.write_down")))
        yield Together([head, FormRow(boxes)])

    def _tables(self) -> Iterator[Block]:
        """The lists that need room first, then those that stand in two columns."""
        for made in LISTS.get(self.package.number, ()):
            yield from made(self.draft)
        yield from settings(self.draft, self.package)
        yield from valves(self.draft, self.package)
        yield from materials(self.draft, self.package)
        asked = asked_of(self.draft, self.package)
        if self.draft.extent("survey") is Extent.SHORT and any(map(_is_listed, asked)):
            yield self._checks(asked)

    def _checks(self, asked: Sequence[Finding]) -> Table:
        """Those worth a row, worst first; of the others the numbers."""
        words = self.words
        listed = [finding for finding in asked if _is_listed(finding)]
        rows: list[Sequence[Cell]] = []
        for finding in listed:
            triple, status = self.said.triple(finding), finding.status
            planned = text(status_mark(status.value), " ", triple.found)
            if status is not Status.MET:
                result = words(f"pages.{status.value.replace(' ', '_')}")
                unknown = status is Status.NOT_ASSESSED
                planned = text(
                    status_mark(status.value), " ", result, *(() if unknown else (", ", triple.found))
                )
            title = finding.limit.row.title
            rows.append([self.said.number(finding), title, planned, triple.limit, Tick()])
        others = ranges(int(self.said.number(finding)) for finding in asked if finding not in listed)
        return Table(
            [
                Column(words("yard.column_number"), width=6.0, strong=True),
                Column(words("yard.column_check"), width=30.0),
                Column(words("yard.column_found"), width=20.0),
                Column(words("yard.column_limit"), width=18.0),
                Column(words("yard.column_seen"), align=Align.CENTRE, width=8.0),
            ],
            rows,
            words("yard.checks_caption", package=self.package.number),
            key=f"table_package_{self.package.number}_checks",
            notes=words("yard.checks_notes", others=others),
            span=Span.TEXT,
        )


def _is_listed(finding: Finding) -> bool:
    """Whether a check is worth a row on the sheet: missed, an unknown danger, or a distance."""
    unknown = finding.status is Status.NOT_ASSESSED and finding.severity is Severity.DANGER
    return finding.status is Status.NOT_MET or unknown or finding.limit.row.unit == "m"


def _count(findings: Sequence[Finding], status: Status) -> int:
    return sum(finding.status is status for finding in findings)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
