"""Section 9: work packages and hold points, what a yard does, and where it stops."""

from collections.abc import Iterable, Iterator, Sequence

from dossier.checking.document_status import AS_BUILT, FOR_CONSTRUCTION
from dossier.checking.finding import Status
from dossier.checking.stated import stated
from dossier.data.commissioning import WorkPackage, hold_points, work_packages
from dossier.data.wording import wanted
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Column,
    Heading,
    Note,
    Paragraph,
    Span,
    Table,
    Together,
)
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.ranges import ranges
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.yard_holds import Holds
from dossier.rendering.sections.yard_package import PackageSheet, asked_of, drawings_of, package_key
from dossier.rendering.text import page_of, strong, text
from dossier.sizing.needs_aboard import needs_met

TO_BUILD_FROM = frozenset({FOR_CONSTRUCTION, AS_BUILT})


def section(draft: Draft) -> Iterator[Block]:
    """Hold points for the survey; for the yard also the list of packages, and each on sheets of its own."""
    words = draft.words
    holds = Holds(draft)
    yield Heading(1, words("yard.title"), key="yard", number="9", new_sheet=draft.opens("yard"))
    if draft.extent("yard") is Extent.SHORT:
        yield Paragraph(words("maintenance.holds"))
        yield _holds(draft, holds)
        return
    aboard = needs_met(draft.project)
    packages = [package for package in work_packages() if wanted(package.needs, aboard)]
    yield _answer(draft, packages, holds)
    yield Paragraph(words("safety.standing_cautions"))
    yield Paragraph(words("safety.deference"))
    yield Heading(2, words("maintenance.packages_title"), key="packages", number="9.1")
    yield Paragraph(words("yard.rules"))
    yield _packages(draft, packages)
    absent = [package.work for package in work_packages() if package not in packages]
    if absent:
        yield Note(words("yard.left_out", packages="; ".join(absent)))
    head = Heading(2, words("maintenance.holds_title"), key="holds", number="9.2")
    yield Together([head, Paragraph(words("maintenance.holds")), _holds(draft, holds)])
    for package in packages:
        yield from PackageSheet(draft, package, holds).blocks()


def _answer(draft: Draft, packages: Sequence[WorkPackage], holds: Holds) -> Answer:
    said = FindingWords(draft)
    signed = sum(bool(holds.signed(hold.number)) for hold in hold_points())
    status = draft.assessment.status.status
    return Answer(
        draft.words(
            "yard.answer",
            packages=said.numeral(len(packages), capital=True),
            count=len(packages),
            holds=said.numeral(len(hold_points())),
            signed=said.numeral(signed),
            count_signed=signed,
            count_holds=len(hold_points()),
        ),
        draft.words(f"yard.answer_{'build' if status in TO_BUILD_FROM else 'draft'}", status=status),
    )


def _packages(draft: Draft, packages: Sequence[WorkPackage]) -> Table:
    words = draft.words
    rows: list[Sequence[Cell]] = []
    for package in packages:
        given = stated(draft.project, f"yard.W{package.number}")
        rows.append(
            [
                str(package.number),
                strong(package.work),
                (given.by if given else None) or ", ".join(package.done_by),
                _listed(drawings_of(draft, package)),
                package.materials,
                _checks(draft, package),
                _listed(package.hold_before),
                _listed(package.hold_after),
                page_of(package_key(package.number)),
            ]
        )
    return Table(
        [
            Column(words("yard.column_number"), width=7.0),
            Column(words("maintenance.column_work"), width=33.0),
            Column(words("maintenance.column_done_by"), width=21.0),
            Column(words("maintenance.column_drawings"), width=15.0),
            Column(words("maintenance.column_materials"), width=36.0),
            Column(words("maintenance.column_checks"), width=26.0),
            Column(words("maintenance.column_hold_before"), width=12.0),
            Column(words("maintenance.column_hold_after"), width=10.0),
            Column(words("yard.column_sheet"), align=Align.NUMBER, width=9.0),
        ],
        rows,
        words("yard.packages_caption"),
        key="table_packages",
        notes=words("yard.packages_notes"),
        span=Span.FULL,
    )


def _listed(numbers: Iterable[int]) -> str:
    return ", ".join(map(str, numbers)) or NOT_APPLICABLE


def _checks(draft: Draft, package: WorkPackage) -> Cell:
    """Numbers of the checks, neighbours drawn together."""
    said, asked = FindingWords(draft), asked_of(draft, package)
    numbers = ranges(int(said.number(finding)) for finding in asked)
    missed = sum(finding.status is Status.NOT_MET for finding in asked)
    if not numbers:
        return NOT_APPLICABLE
    return draft.words("yard.checks_missed", numbers=numbers, missed=missed) if missed else numbers


def _holds(draft: Draft, holds: Holds) -> Table:
    words = draft.words
    rows: list[Sequence[Cell]] = [
        [
            strong(str(hold.number)),
            hold.when,
            hold.seen,
            ", ".join(hold.signed_by),
            _listed(hold.tests),
            holds.state(hold.number) or words("yard.hold_open"),
        ]
        for hold in hold_points()
    ]
    columns = [
        Column(words("yard.column_hold"), width=9.0),
        Column(words("maintenance.column_when"), width=36.0),
        Column(words("maintenance.column_seen"), width=52.0),
        Column(words("maintenance.column_signs"), width=26.0),
        Column(words("yard.column_tests"), width=18.0),
        Column(words("yard.column_signed"), width=30.0),
    ]
    sources = dict.fromkeys(hold.source for hold in hold_points())
    notes = text(words("records.basis", source="; ".join(sources)))
    return Table(columns, rows, words("yard.holds_caption"), key="table_holds", notes=notes, span=Span.FULL)
