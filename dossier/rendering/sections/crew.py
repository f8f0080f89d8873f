"""What the pages for the crew are written with: words filled for this boat, needs that are met aboard."""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

from dossier.checking.finding import Status
from dossier.data.wording import wanted
from dossier.rendering.blocks import Panel
from dossier.rendering.draft import Draft
from dossier.rendering.filling import Filling, worded
from dossier.rendering.sections.hazards import hazard_panels
from dossier.rendering.text import Markup, Text, italic, own, status_mark, text
from dossier.sizing.needs_aboard import needs_met


class Crew:
    """Words for the crew of one boat."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.words = draft, draft.words
        self.filling = Filling(draft)

    @cached_property
    def met(self) -> frozenset[str]:
        """Names of the needs that are met aboard."""
        return needs_met(self.draft.project)

    @property
    def narrow(self) -> bool:
        """Whether the sheet holds few columns."""
        return self.draft.paper == "A5"

    def has(self, need: str) -> bool:
        """Whether a row with this need is printed."""
        return wanted(need, self.met)

    def said(self, sentence: str) -> Markup:
        """A sentence of the tables, a box where something is not known."""
        return worded(sentence, self.filling, self._instead)

    @cached_property
    def fuse_is_wrong(self) -> bool:
        """Whether a fuse of the file does not protect its cable, so that nobody should fit its like."""
        found = (f for f in self.draft.assessment.findings if f.check == "electrics.fuse_protects")
        return any(f.status is Status.NOT_MET for f in found)

    @cached_property
    def _instead(self) -> Mapping[str, Text]:
        """Words in the place of figures that the findings speak against."""
        if not self.fuse_is_wrong:
            return {}
        return {"burner_fuse": self.words("aboard.fuse_wrong", fitted=self.filling["burner_fuse"])}

    def panels(self, names: Iterable[str]) -> list[Panel]:
        """Hazard panels for their place before a step."""
        return list(hazard_panels(self.draft, names, embedded=True))

    def not_known(self, words: Text) -> Text:
        """Words for what is not known, behind the mark of what is not assessed."""
        return text(status_mark("not assessed"), own(" "), italic(words))

    def joined(self, parts: Sequence[Text], between: str = " ") -> Markup:
        """Parts one after another."""
        put: list[Text] = []
        for part in parts:
            if put:
                put.append(own(between))
            put.append(part)
        return text(*put)
