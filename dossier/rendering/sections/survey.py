"""Section 5: every check, so that a surveyor can go over each claim with tape and lamp."""

from collections.abc import Iterator, Sequence
from itertools import count

from dossier.checking.finding import Finding
from dossier.data.catalogue import CheckGroup, catalogue, check_groups
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import Block, Bullets, Heading, Note, Paragraph, Side, SideNote
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections.finding_words import FindingWords, in_survey
from dossier.rendering.sections.photographs import photographs
from dossier.rendering.sections.survey_checks import group_answer, group_checks
from dossier.rendering.sections.survey_exhaust import exhaust_pages
from dossier.rendering.sections.survey_outlet import SHOWN as SHOWN_OF_EXHAUST
from dossier.rendering.sections.survey_safety import alarms
from dossier.rendering.sections.survey_short import short_survey
from dossier.rendering.words import cut

BALANCES = frozenset({"document.residual"})
"""Checks whose parts tell nothing more than their worst."""


def section(draft: Draft) -> Iterator[Block]:
    """One sub-section for each group of checks, in the order of the survey; in short its results only."""
    words, said = draft.words, FindingWords(draft)
    yield Heading(1, words("survey.title"), key="survey", number="5", new_sheet=draft.opens("survey"))
    if draft.extent("survey") is Extent.SHORT:
        yield Paragraph(words("survey.yard_only"))
        yield from local_rules(draft)
        yield from short_survey(draft, [f for f in draft.assessment.worst_first if in_survey(draft, f)])
        return
    yield Side([SideNote(words("survey.how_to_read"), words("survey.how_to_read_text"))])
    yield Paragraph(words("safety.standing_cautions"))
    yield Paragraph(words("safety.deference"))
    yield from local_rules(draft)
    held, every = len(draft.assessment.findings), len(catalogue())
    if held < every:
        yield Note(words("survey.held", held=held, all=every))
    sheet = count(1)
    for group in check_groups():
        findings = [
            f
            for f in draft.assessment.worst_first
            if f.limit.row.group == group.group and in_survey(draft, f)
        ]
        if findings:
            yield from _group(group, next(sheet), findings, said)


def local_rules(draft: Draft) -> Iterator[Block]:
    """Rules of flag, insurer and harbour that the author was told of."""
    document = draft.project.document
    rules = document.local_rules if document else None
    if rules is None:
        yield Paragraph(draft.words("safety.local_rules_none"))
    elif isinstance(rules, No) or not rules:
        yield Paragraph(draft.words("safety.local_rules_none_known"))
    else:
        yield Paragraph(draft.words("safety.local_rules"))
        yield Bullets([cut(rule) for rule in rules])


def _group(group: CheckGroup, place: int, findings: Sequence[Finding], said: FindingWords) -> Iterator[Block]:
    words = said.words
    yield Heading(
        2,
        group.title,
        key=f"survey_{group.group}",
        number=f"5.{place}",
        question=words(f"survey.question_{group.group}"),
        running=words("survey.running", group=group.title),
    )
    if group.group == "exhaust":
        yield from exhaust_pages(said)
        shown = SHOWN_OF_EXHAUST
    else:
        yield group_answer(findings, said)
        shown = BALANCES
    if group.group == "safety":
        yield from alarms(said.draft)
    yield from group_checks(findings, said, shown)
    yield from photographs(said.draft, {finding.check for finding in findings})
