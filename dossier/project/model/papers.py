"""What belongs to the paper side: limits, deviations, pictures, inspection, controls, work packages."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.project.model.entry import FILE, FROM_KEY, Entry, Figure, Needed, Objection, Refers
from dossier.project.model.values import Date

CHECK = Refers(("check",))
Package = Literal["W1", "W2", "W3", "W4", "W5", "W6", "W7", "W8", "W9", "W10", "W11", "W12"]


class Limit(Entry):
    """The maker's or the local rule instead of the limit of the catalogue."""

    example: ClassVar[str] = '{at_most: 2.5 m, source: "burner instructions, p. 14"}'

    check: Annotated[str, FROM_KEY, Field(description="Name of the check")] = ""
    at_most: Annotated[
        float | None, Figure.ANY, Field(description="Largest value allowed, in the unit of the check")
    ] = None
    at_least: Annotated[
        float | None, Figure.ANY, Field(description="Smallest value allowed, in the unit of the check")
    ] = None
    source: Annotated[str | None, Field(description="Whose limit it is")] = None

    def objections(self) -> Iterator[Objection]:
        """A limit is a number, and somebody's."""
        if self.at_most is None and self.at_least is None:
            yield Objection("", "the limit has no figure", "write at_most: or at_least:", missing=True)
        elif self.source is None:
            yield Objection(
                "", "the limit has no source", "say whose it is: source: burner instructions", doubt=True
            )


class Alternative(Entry):
    """A named overlay on the project; its other keys are those of the project file."""

    named_as: ClassVar[str] = "alternative"
    example: ClassVar[str] = '{note: "60 l store", components: {T1: {volume: 60 l}}}'

    name: Annotated[str, FROM_KEY, Field(description="Name of the alternative")] = ""
    note: Annotated[str | None, Field(description="What it is, in words")] = None


class Deviation(Entry):
    """A finding somebody accepts, for a reason and a time."""

    name_field: ClassVar[str] = "check"
    example: ClassVar[str] = '{check: clearance.service, found: "60 mm", reason: floor beam, by: The owner}'

    check: Annotated[
        str, CHECK, Needed("the deviation"), Field(description="Check that is not met and accepted")
    ]
    found: Annotated[str | None, Field(description="What was found")] = None
    reason: Annotated[str | None, Field(description="Why it cannot be met")] = None
    instead: Annotated[str | None, Field(description="What is done instead")] = None
    by: Annotated[str | None, Field(description="Who accepts it")] = None
    with_: Annotated[
        str | None, Field(alias="with", description="Surveyor or licensed trade who agrees, for danger")
    ] = None
    date: Annotated[Date | None, Field(description="When")] = None
    until: Annotated[Date | None, Field(description="Until when")] = None


class Picture(Entry):
    """A photograph in the project's folder."""

    name_field: ClassVar[str] = "file"
    example: ClassVar[str] = "{file: pictures/outlet.jpg, tag: B1, caption: Outlet from the quay}"

    file: Annotated[str, FILE, Needed("the picture"), Field(description="File in the project's folder")]
    tag: Annotated[
        str | None, Refers(("component", "place", "pipe")), Field(description="Tag of what it shows")
    ] = None
    check: Annotated[str | None, CHECK, Field(description="Check it supports")] = None
    caption: Annotated[str | None, Field(description="Caption")] = None
    date: Annotated[Date | None, Field(description="When it was taken")] = None
    looking: Annotated[str | None, Field(description="Direction of view")] = None


class NotExamined(Entry):
    """A part nobody looked at, and why."""

    name_field: ClassVar[str] = "part"
    example: ClassVar[str] = "{part: behind the lining, why: not opened}"

    part: Annotated[str | None, Field(description="Part of the boat")] = None
    why: Annotated[str | None, Field(description="Why it was not examined")] = None


class Inspection(Entry):
    """When, where and how the boat was looked at."""

    example: ClassVar[str] = "{place: Marsh Haven, date: 2026-09-28, afloat: true}"

    place: Annotated[str | None, Field(description="Where")] = None
    date: Annotated[Date | None, Field(description="When")] = None
    afloat: Annotated[bool | None, Field(description="Whether she was afloat")] = None
    loading: Annotated[str | None, Field(description="How she was loaded")] = None
    present: Annotated[tuple[str, ...] | None, Field(description="Who was there")] = None
    not_examined: Annotated[
        tuple[NotExamined, ...] | None, Field(description="What was not examined, and why")
    ] = None


class Controls(Entry):
    """How the crew starts and stops it."""

    example: ClassVar[str] = '{panel: wheelhouse console, to_start: ["Isolator on", "Press start, hold 3 s"]}'

    panel: Annotated[str | None, Field(description="Where the panel is")] = None
    to_start: Annotated[tuple[str, ...] | None, Field(description="Steps to start, in order")] = None
    to_stop: Annotated[tuple[str, ...] | None, Field(description="Steps to stop, in order")] = None


class WorkPackage(Entry):
    """Who does a work package, and what it holds."""

    example: ClassVar[str] = "{by: The yard, scope: hull fitting and exhaust, excludes: [painting]}"

    name: Annotated[str, FROM_KEY, Field(description="Number of the package, W1 to W12")] = ""
    by: Annotated[str | None, Field(description="Who does it")] = None
    scope: Annotated[str | None, Field(description="What it holds")] = None
    excludes: Annotated[tuple[str, ...] | None, Field(description="What it does not hold")] = None
