"""The verdict, the five sentences and the key figures."""

from collections.abc import Iterator

from dossier.checking.finding import Finding
from dossier.notation import NotAssessed
from dossier.rendering.blocks import KeyFigures
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import Limits
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.findings_facts import Facts
from dossier.rendering.sections.survey_outlet import rounded_down
from dossier.rendering.text import Markup, Text, italic, text

FEW = 3
"""Inputs named in a sentence."""
TITLES, NUMBERS = 4, 12
"""Dangers named by title, and findings named by number, in one sentence."""


def verdict(facts: Facts, said: FindingWords) -> Markup:
    """Whether the burner may be fired, by what stands open; it never says that it is safe."""
    words, numeral = said.words, said.numeral
    unknown, dangers = len(facts.unknown_dangers), len(facts.dangers_applicable)
    if facts.open_dangers:
        return words(
            "findings.verdict_open",
            open=len(facts.open_dangers),
            open_words=numeral(len(facts.open_dangers), capital=True),
            unknown=unknown,
            unknown_words=numeral(unknown),
        )
    if unknown and unknown == dangers:
        return words("findings.verdict_nothing_known", dangers_words=numeral(dangers))
    if unknown and unknown == len(facts.waiting):
        return words("findings.verdict_tests", waiting=unknown, waiting_words=numeral(unknown, capital=True))
    if unknown:
        return words(
            "findings.verdict_unknown",
            unknown=unknown,
            unknown_words=numeral(unknown, capital=True),
            dangers_words=numeral(dangers),
        )
    return words(
        "findings.verdict_none_open",
        made=facts.made,
        made_words=numeral(facts.made),
        accepted=len(facts.accepted_dangers),
        accepted_words=numeral(len(facts.accepted_dangers)),
        lesser=len(facts.lesser),
        lesser_words=numeral(len(facts.lesser), capital=True),
    )


def five_sentences(facts: Facts, said: FindingWords) -> Markup:
    """What is installed, whether it keeps warm, what is dangerous, what is unknown, what comes next."""
    sentences = (_installed(facts, said), _warm(facts, said), _dangerous(facts, said))
    rest = (_unknown(facts, said), _next(facts, said))
    return text(*(piece for sentence in (*sentences, *rest) for piece in (sentence, " ")))


def _installed(facts: Facts, said: FindingWords) -> Markup:
    draft, words = facts.draft, said.words
    rooms = {"rooms": facts.rooms, "rooms_words": said.numeral(facts.rooms)}
    if not facts.burners:
        return words("findings.installed_no_burner", **rooms)
    kinds = facts.kinds()
    taps = [str(words(f"findings.kind_{k}")) for k in ("tap_exchanger", "water_heater") if k in kinds]
    gives = [str(words(f"findings.kind_{k}")) for k in ("engine", "generator") if k in kinds]
    recovers = gives if "recovery_exchanger" in kinds else []
    litres = facts.litres
    return words(
        "findings.installed",
        burners=len(facts.burners),
        burners_words=said.numeral(len(facts.burners), capital=True),
        output=draft.said(facts.output, "power_large"),
        **rooms,
        circuit=bool(draft.project.circuit and draft.project.circuit.ring),
        litres=draft.said(litres, "volume") if litres is not None else "",
        tap=said.listed(taps),
        recovery=said.listed(recovers),
    )


def _warm(facts: Facts, said: FindingWords) -> Markup:
    draft, words = facts.draft, said.words
    loss, needed = draft.study.heat_loss, facts.needed
    if isinstance(loss, NotAssessed) or needed is None:
        needs = loss.needs if isinstance(loss, NotAssessed) else ("zones",)
        return words("findings.warm_unknown", keys=draft.inputs.listed(needs, FEW, with_keys=False))
    outside = draft.said(loss.outside_air, "temperature")
    if not facts.burners:
        return words("findings.warm_load_only", load=draft.said(loss.total, "power_large"), outside=outside)
    margin = draft.numbers.judged(facts.output, float(needed), "power_large", Limits.MINIMUM).margin
    if facts.output < float(needed):
        short_of = margin.lstrip("\u2212")
        return words("findings.warm_short", outside=outside, short_of=short_of, **_against(facts, said))
    short = facts.rooms_short
    given = {"outside": outside, "reserve": margin.lstrip("+"), **_against(facts, said)}
    if short:
        named = said.listed([draft.named(room) for room in short])
        return words("findings.warm_rooms_short", short=named, short_count=len(short), **given)
    return words("findings.warm_covered", rooms_known=short is not None, **given)


def _against(facts: Facts, said: FindingWords) -> dict[str, Markup]:
    """What the calculation of a steady night does not tell: checks of warmth missed, or not made."""
    found = {"missed": facts.warmth_missed, "unknown": facts.warmth_unknown}
    return {
        name: said.words(f"findings.warm_checks_{name}", count=len(checks), titles=_titled(checks, said))
        if checks
        else Markup()
        for name, checks in found.items()
    }


def _titled(findings: "tuple[Finding, ...]", said: FindingWords) -> Markup:
    """Titles of some checks, each with its number."""
    return _commas(
        [said.words("findings.warm_title", title=f.limit.row.title, number=said.linked(f)) for f in findings]
    )


def _dangerous(facts: Facts, said: FindingWords) -> Markup:
    words = said.words
    if not facts.open_dangers:
        if not facts.made:
            return words("findings.dangerous_unknown")
        return words("findings.dangerous_none", made_words=said.numeral(facts.made))
    named = [
        words("findings.dangerous_one", danger=_danger(f, said), number=said.linked(f))
        for f in facts.open_dangers[:TITLES]
    ]
    more = len(facts.open_dangers) - len(named)
    dangers = _commas(named[:-1]) if not more and named[1:] else None
    return words(
        "findings.dangerous_many",
        dangers=_commas(named) if dangers is None else said.joined(dangers, named[-1]),
        more=more,
        more_words=said.numeral(more),
    )


def _danger(finding: Finding, said: FindingWords) -> Text:
    """What it means that the check is not met; a check without such words goes by its title."""
    name = f"dangers.{finding.check.replace('.', '_')}"
    return said.words(name) if said.words.has(name) else finding.limit.row.title


def _commas(parts: "list[Markup]") -> Markup:
    return text(*(piece for part in parts for piece in ((", ", part) if part is not parts[0] else (part,))))


def _unknown(facts: Facts, said: FindingWords) -> Markup:
    words = said.words
    if not facts.unknown:
        return words("findings.unknown_none")
    first = facts.unknown[0].missing[:1]
    return words(
        "findings.unknown_some",
        unknown=len(facts.unknown),
        unknown_words=said.numeral(len(facts.unknown), capital=True),
        dangers=len(facts.unknown_dangers),
        dangers_words=said.numeral(len(facts.unknown_dangers)),
        first=facts.draft.inputs.listed(first, with_keys=False) if first else "",
    )


def numbers_of(findings: "tuple[Finding, ...]", said: FindingWords, most: int = NUMBERS) -> Markup:
    """Numbers of some findings, each leading to its row; beyond ``most`` only how many."""
    linked = [said.linked(f) for f in findings]
    if len(linked) > most:
        return said.words("findings.numbers_first", numbers=_commas(linked[:most]), more=len(linked) - most)
    if len(linked) < 2:  # noqa: PLR2004 - one needs no "and"
        return _commas(linked)
    return said.joined(_commas(linked[:-1]), linked[-1])


def _next(facts: Facts, said: FindingWords) -> Markup:
    words = said.words
    if facts.open_dangers:
        return words(
            "findings.next_put_right",
            count=len(facts.open_dangers),
            numbers=numbers_of(facts.open_dangers, said),
            unknown=len(facts.unknown_dangers),
        )
    if len(facts.waiting) < len(facts.unknown_dangers):
        return words("findings.next_measure")
    if facts.waiting:
        return words("findings.next_tests", numbers=numbers_of(facts.waiting, said))
    document = facts.draft.project.document
    review = document.next_review if document else None
    return words("findings.next_keep", lesser=len(facts.lesser), review=str(review) if review else "")


def key_figures(facts: Facts, said: FindingWords) -> KeyFigures:
    """The figures that people ask for first."""
    return KeyFigures(said.words("findings.key_figures"), list(_rows(facts.draft, facts, said)))


def _rows(draft: Draft, facts: Facts, said: FindingWords) -> Iterator[tuple[Text, Text]]:
    words, results = said.words, draft.assessment.results
    unknown = italic(words("findings.not_assessed"))

    def figure(name: str, kind: str) -> Text:
        found = results.get(name)
        return unknown if found is None else draft.said(found.value, kind)

    def as_judged(check: str, name: str, kind: str) -> Text:
        """As the check prints it, rounded to the worse side, where its figure is this result."""
        finding, found = facts.of_check(check), results.get(name)
        same = finding is not None and found is not None and finding.found == found.value
        return said.triple(finding).found if finding is not None and same else figure(name, kind)

    yield words("findings.key_load"), figure("heat_loss.total", "power_large")
    output = draft.said(facts.output, "power_large") if facts.burners else unknown
    yield words("findings.key_output"), output
    if facts.burners and facts.needed is not None:
        judged = draft.numbers.judged(facts.output, float(facts.needed), "power_large", Limits.MINIMUM)
        yield words("findings.key_reserve"), judged.margin
    yield words("findings.key_starts"), as_judged("store.starts_hour", "store.starts_per_hour", "per_hour")
    yield words("findings.key_run"), as_judged("store.run_time", "store.running_time", "time_minutes")
    yield words("findings.key_fuel"), figure("fuel.per_day", "volume")
    yield words("findings.key_charge"), as_judged("electrics.battery_day", "electrics.per_day", "charge")
    under = results.get("exhaust.angle_under_water")
    angle = unknown if under is None else rounded_down(draft, under.value, "angle_fine")
    yield words("findings.key_outlet"), angle
    tests = draft.project.commissioning
    inside = tests.co.highest_inside if tests and tests.co else None
    co = unknown if inside is None else draft.said(inside, "parts_per_million")
    yield words("findings.key_carbon_monoxide"), co
    services = (draft.project.records.service if draft.project.records else None) or ()
    last = next((entry.date for entry in reversed(services) if entry.date is not None), None)
    yield words("findings.key_service"), str(last) if last else italic(words("findings.not_stated"))
    document = draft.project.document
    review = document.next_review if document else None
    if review:
        yield words("findings.key_review"), str(review)
