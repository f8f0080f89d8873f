"""What a section is written from: the assessment, the words, the numbers, and how much of it is wanted."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cached_property
from typing import TYPE_CHECKING, Any

from dossier.alternatives import Alternatives, alternatives
from dossier.data.catalogue import Severity
from dossier.notation import NotAssessed, Quantity, Real
from dossier.rendering.chosen_workings import ChosenWorkings
from dossier.rendering.inputs import InputWords
from dossier.rendering.numbers import Numbers, kind_of
from dossier.rendering.spoken import Spoken
from dossier.rendering.text import Markup, Text, link, text
from dossier.rendering.words import Words, cut
from dossier.rendering.workings import Workings

if TYPE_CHECKING:
    from dossier.assessment import Assessment
    from dossier.project import Project
    from dossier.sizing.study import Study


LONGEST_NAME = 120
"""Letters of a name that stands in heads and titles."""


RUNS_ON: Mapping[str, frozenset[str]] = {
    "survey": frozenset({"data_quality", "overview", "drawings", "yard", "records"}),
    "yard": frozenset({"data_quality", "overview", "survey", "calculation", "drawings"}),
    "aboard": frozenset({"data_quality", "overview", "drawings"}),
}
"""Sections of which an edition has but little."""


class Extent(str, Enum):
    """How much of a section an edition prints."""

    WHOLE = "whole"
    CONCISE = "concise"
    """All that bears out the answers; the full document holds the rest."""
    SHORT = "short"
    NONE = "none"


@dataclass(frozen=True)
class Draft:
    """One document in the making, handed to every section."""

    assessment: "Assessment"
    words: Words
    numbers: Numbers
    edition: str
    paper: str = "A4"
    extents: Mapping[str, Extent] | None = None

    @property
    def project(self) -> "Project":
        """The project the document is about."""
        return self.assessment.project

    @property
    def study(self) -> "Study":
        """All calculations."""
        return self.assessment.study

    def extent(self, section: str) -> Extent:
        """How much of a section this edition prints."""
        return (self.extents or {}).get(section, Extent.WHOLE)

    def has(self, section: str) -> bool:
        """Whether this edition prints a section at all, so that a reference may lead there."""
        return self.extent(section) is not Extent.NONE

    @cached_property
    def boat(self) -> str:
        """Name of the boat, as far as it is known."""
        vessel = self.project.vessel
        return cut((vessel.name if vessel else None) or str(self.words("pages.boat_unnamed")), LONGEST_NAME)

    def named(self, name: str) -> str:
        """A user's name as people read it: ``engine_room`` becomes ``engine room``."""
        return name.replace("_", " ")

    def capital(self, name: str) -> str:
        """The same at the beginning of a cell: ``Engine room``."""
        plain = self.named(name)
        return plain[:1].upper() + plain[1:]

    def made(self, words: str) -> str:
        """Words that a check or a calculation has made, in the language of the pages.

        Where the language has none for them the page says that the full document has.
        """
        said = self.spoken(words)
        return self.named(said) if said is not None else str(self.words("answers.elsewhere"))

    @cached_property
    def spoken(self) -> Spoken:
        """Says what was made in English in the language of the pages."""
        return Spoken(self.words, self.project)

    def needs(self, missing: NotAssessed) -> Text:
        """One line for a section without data: the inputs it needs."""
        if not missing.needs:
            return self.words("pages.not_assessed_because", why=self.made(missing.why or missing.question))
        keys = text(self.keys(missing.needs))
        if missing.why:
            return self.words("pages.needs_because", keys=keys, why=self.made(missing.why))
        return self.words("pages.needs", keys=keys)

    def keys(self, needs: tuple[str, ...]) -> Text:
        """Inputs that are missing, in words, each with its key and the line where it belongs."""
        return self.inputs.listed(needs)

    @cached_property
    def inputs(self) -> InputWords:
        """Inputs of the project file in words."""
        return InputWords(self.words, self.project)

    def cell(self, value: Real | None, quantity: Quantity | str) -> str:
        """A number for a cell, its unit standing in the head."""
        kind = quantity if isinstance(quantity, str) else kind_of(quantity)
        return self.numbers.text(None if value is None else float(value), kind)

    def said(self, value: Real | None, kind: str, **how: Any) -> str:
        """A number with its unit, for a sentence."""
        return self.numbers.said(None if value is None else float(value), kind, **how)

    @cached_property
    def alternatives(self) -> Alternatives | NotAssessed:
        """All alternatives of the project; each is assessed in full when first asked for."""
        return alternatives(self.assessment)

    @cached_property
    def all_workings(self) -> Workings:
        """All workings of the full document, numbered."""
        return Workings(self.assessment)

    @cached_property
    def workings(self) -> Workings:
        """Those that this edition prints: where concise, those behind findings, dangers and the load."""
        if self.extent("appendices") is not Extent.CONCISE:
            return self.all_workings
        findings = self.assessment.findings
        behind = [f.found for f in findings if f.is_open or f.severity is Severity.DANGER]
        load = self.assessment.results.get("heat_loss.total")
        return ChosenWorkings(self.all_workings, [*behind, load.value if load else None])

    def opens(self, section: str) -> bool:
        """Whether a section opens a sheet; one of which an edition has but little goes on where it is."""
        return section not in RUNS_ON.get(self.edition, ())

    @property
    def prints_file(self) -> bool:
        """Whether this edition prints the project file and workings, so that a reference may lead there."""
        return self.extent("appendices") in {Extent.WHOLE, Extent.CONCISE}

    def worked(self, number: Real | None, *words: Text) -> Markup:
        """Words that lead to the working of a number, where this edition prints it."""
        shown = text(*words)
        if not self.prints_file:
            return shown
        found = self.workings.of(number)
        return shown if found is None else link(found.key, shown)

    def basis(self, name: str) -> Markup:
        """Basis of a result, in words."""
        return self.words(f"pages.basis_{self.assessment.basis(name).value}")
