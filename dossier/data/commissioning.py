"""What the yard does: work packages, the hold points between them, and the sheets of the tests.

Texts may name things in braces and rows may have a need: ``wording`` fills the first and judges the second.
"""

from dossier.data.typed_rows import typed_rows
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class SheetLine:
    """One line of a commissioning sheet; without a key it stays on paper.

    ``target`` is what is calculated, ``tolerance`` how far off a reading may lie, ``least`` and ``most``
    bound it; each is a figure in SI, a placeholder in braces, or empty. ``expected`` says the rest in words.
    """

    sheet: int
    line: int
    part: str
    what: str
    expected: str
    target: str
    tolerance: str
    relative: str
    least: str
    most: str
    shown: str
    key: str
    unit: str
    needs: str


@dataclass(frozen=True)
class CommissioningSheet:
    """One test; it ends at its stop rule. ``hold`` is the hold point that waits for it."""

    number: int
    title: str
    method: str
    stop_rule: str
    hold: int
    cautions: tuple[str, ...]
    needs: str
    basis: str
    source: str

    @property
    def lines(self) -> tuple[SheetLine, ...]:
        """Lines of the sheet, each with its box."""
        return tuple(
            line for line in typed_rows(SheetLine, "commissioning_lines") if line.sheet == self.number
        )


@dataclass(frozen=True)
class HoldPoint:
    """A moment at which work stops until named people have seen and signed, on the sheet of ``package``."""

    number: int
    when: str
    seen: str
    signed_by: tuple[str, ...]
    package: int
    tests: tuple[int, ...]
    basis: str
    source: str


@dataclass(frozen=True)
class PackageStep:
    """One act of a work package.

    ``stage`` 1 comes before the hold points before the work, 2 after those, 3 after the first of the hold
    points after the work, 4 after the second. ``caution`` names the panels that stand right before the step.
    """

    package: int
    stage: int
    step: int
    action: str
    needs: str
    caution: tuple[str, ...]
    basis: str
    source: str


@dataclass(frozen=True)
class SettingRow:
    """What is set, charged or filled to a figure.

    ``key`` lies under a component of the kind, or is a key of the project file where there is no kind, or a
    figure in SI, or a placeholder in braces. ``needed`` is "yes" where an empty answer is worth a line.
    """

    kind: str
    key: str
    what: str
    shown: str
    packages: tuple[int, ...]
    needed: str
    needs: str
    basis: str
    source: str


@dataclass(frozen=True)
class WorkPackage:
    """A share of the work for one trade; ``checks`` are names of checks, ``group.*`` means all of a group.

    ``part_groups`` and ``part_kinds`` say which lines of the parts list belong to it: groups by their first
    words, components by their kinds. ``boxes`` are lines of the commissioning sheets that are written down on
    its sheet too, as ``sheet.line``.
    """

    number: int
    work: str
    done_by: tuple[str, ...]
    drawings: tuple[int, ...]
    materials: str
    part_groups: tuple[str, ...]
    part_kinds: tuple[str, ...]
    checks: tuple[str, ...]
    boxes: tuple[str, ...]
    hold_before: tuple[int, ...]
    hold_after: tuple[int, ...]
    cautions: tuple[str, ...]
    needs: str
    basis: str
    source: str

    @property
    def steps(self) -> tuple[PackageStep, ...]:
        """What is done, in this order."""
        return tuple(step for step in typed_rows(PackageStep, "package_steps") if step.package == self.number)

    @property
    def lines(self) -> tuple[SheetLine, ...]:
        """Lines of the commissioning sheets that are written down with it."""
        every = {f"{line.sheet}.{line.line}": line for line in typed_rows(SheetLine, "commissioning_lines")}
        return tuple(every[name] for name in self.boxes)

    @property
    def settings(self) -> tuple[SettingRow, ...]:
        """What is set in it."""
        return tuple(row for row in typed_rows(SettingRow, "settings") if self.number in row.packages)

    def holds(self, check: str) -> bool:
        """Whether a check must be met by this package."""
        return check in self.checks or f"{check.partition('.')[0]}.*" in self.checks


def commissioning_sheets() -> tuple[CommissioningSheet, ...]:
    """The commissioning sheets, Test 1 to Test 12."""
    return typed_rows(CommissioningSheet, "commissioning_sheets")


def hold_points() -> tuple[HoldPoint, ...]:
    """Hold 1 to Hold 8."""
    return typed_rows(HoldPoint, "hold_points")


def work_packages() -> tuple[WorkPackage, ...]:
    """Package 1 to Package 12."""
    return typed_rows(WorkPackage, "work_packages")
