"""Bulkheads and hull: the gap round the exhaust, its sleeve, and the fitting it leaves through."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from dossier.checking.exhaust.way import of_exhaust, way_out
from dossier.checking.finding import Finding, Limit, Status, judge, not_applicable, not_assessed, present
from dossier.checking.judging import together, with_maker_silent
from dossier.data.catalogue import further_limit
from dossier.data.recognised_words import says
from dossier.project.model.entry import Answer
from dossier.sizing.exhaust_heat import Cover
from dossier.sizing.exhaust_passages import PassageStudy

if TYPE_CHECKING:
    from dossier.project.model.exhaust import HullFitting
    from dossier.sizing.study import Study

DOES_NOT_BURN = "the exhaust passes nothing that can burn"
METAL_HULLS = ("steel", "aluminium")
BURNING_HULLS = ("wood", "grp")


def _over_all(study: "Study", limit: Limit, judged: Callable[[PassageStudy], Finding]) -> Finding:
    """The worst of all passages through something that can burn."""
    way = way_out(study)
    if way.run.passes is None:
        return not_assessed(limit, ("exhaust.passes",))
    if not way.passages:
        hull = study.project.vessel.hull if study.project.vessel else None
        if hull in METAL_HULLS:
            return not_applicable(limit, DOES_NOT_BURN)
        return not_assessed(limit, ("exhaust.passes",), "the exhaust leaves the boat somewhere")
    parts = []
    for passage in way.passages:
        if passage.combustible is None:
            found = not_assessed(limit, (f"{passage.key}.material",))
        elif not passage.combustible:
            found = not_applicable(limit, DOES_NOT_BURN)
        else:
            found = judged(passage)
        parts.append((passage.name, found))
    return together(limit, parts)


def _closing_burns(passage: PassageStudy) -> bool | None:
    """Whether what closes the gap can burn; None where the words do not tell, False for an open gap."""
    closing = passage.written.closing
    if closing is None:
        return None
    if isinstance(closing, Answer):
        return False
    answer = says("non-combustible", closing)
    return None if answer is None else not answer


def _gap(limit: Limit, passage: PassageStudy) -> Finding:
    """Gap of one passage; where the pipe may be lagged or bare in it, it must do for both."""
    if _closing_burns(passage):
        return present(
            limit,
            fulfilled=False,
            found=f"closed with: {passage.written.closing}",
            asked="air, or packing that does not burn",
            lacking="packing that does not burn",
            key=passage.key,
        )
    bare_limit = limit.value if limit.overridden else further_limit(limit.check, "bare pipe").limit
    remark = "packed: the temperature of the wood counts as well" if passage.packed else ""
    missing = passage.lacking.get("gap", ())
    key = passage.key
    if passage.cover is Cover.BARE:
        return judge(limit, passage.gap, value=bare_limit, key=key, missing=missing, remark=remark)
    found = judge(limit, passage.gap, key=key, missing=missing, remark=remark)
    if passage.bare_gap is None or found.status is not Status.MET:
        return found
    bare = judge(limit, passage.bare_gap, value=bare_limit, key=key, remark=remark)
    if bare.status is Status.MET:
        return found
    why = "the gap would do for lagged pipe, not for bare pipe"
    return not_assessed(limit, ("exhaust.lagging.extent",), why)


@of_exhaust()
def bulkhead_gap(study: "Study", limit: Limit) -> Finding:
    """Wood that stays hot for months chars, and in the end takes fire at a temperature it once stood."""
    return with_maker_silent(limit, _over_all(study, limit, lambda passage: _gap(limit, passage)))


def _sleeve(limit: Limit, passage: PassageStudy) -> Finding:
    written, key = passage.written, passage.key
    asked = "sleeve, and packing that does not burn"
    if written.sleeve is None:
        closing = (f"{key}.closing",) if written.closing is None else ()
        return not_assessed(limit, (f"{key}.sleeve", *closing))
    if not written.sleeve:
        return present(
            limit, fulfilled=False, found="no sleeve", asked=asked, lacking="a metal sleeve", key=key
        )
    if isinstance(written.closing, Answer):
        return present(
            limit, fulfilled=False, found="sleeve, open gap", asked=asked, lacking="packing", key=key
        )
    burns = _closing_burns(passage)
    why = "" if written.closing is None else "its words do not tell whether it can burn"
    if burns is None:
        return not_assessed(limit, (f"{key}.closing",), why)
    return present(
        limit,
        not burns,
        f"sleeve, {written.closing}",
        asked=asked,
        lacking="packing that does not burn",
        key=key,
    )


@of_exhaust()
def bulkhead_sleeve(study: "Study", limit: Limit) -> Finding:
    """Metal spreads the heat before it reaches the wood, and a closed hole holds gas and fire back."""
    return _over_all(study, limit, lambda passage: _sleeve(limit, passage))


def _metal(limit: Limit, fitting: "HullFitting", key: str) -> Finding:
    material = fitting.material
    return present(
        limit,
        None if material is None else says("metal", material),
        material or "",
        asked="metal",
        lacking="a fitting all of metal",
        missing=("exhaust.hull_fitting.material",),
        key=key,
    )


@of_exhaust()
def hull_fitting(study: "Study", limit: Limit) -> Finding:
    """The hull touches the fitting, and what touches hot metal for hours chars, softens or corrodes."""
    way = way_out(study)
    fitting, hull = way.run.hull_fitting, study.project.vessel.hull if study.project.vessel else None
    silent = () if hull is not None else ("vessel.hull",)
    if fitting is None:
        return not_assessed(limit, ("exhaust.hull_fitting", *silent))
    key = way.key("hull_fitting")
    if isinstance(fitting, Answer):
        return present(
            limit, fulfilled=False, found="none", asked="a hull fitting", lacking="a hull fitting", key=key
        )
    if hull is None:
        return not_assessed(limit, silent)
    parts = [("material", _metal(limit, fitting, key))]
    if hull in BURNING_HULLS:
        found = present(
            limit,
            None if fitting.kind is None else fitting.kind != "single wall",
            fitting.kind or "",
            asked="double wall or insulated",
            lacking="a second wall or insulation",
            missing=("exhaust.hull_fitting.kind",),
            key=key,
        )
        parts.insert(0, ("kind", found))
    if hull in METAL_HULLS:
        found = present(
            limit,
            fitting.isolated,
            "isolated" if fitting.isolated else "not isolated",
            asked="isolated from the hull",
            lacking="isolation from the hull",
            missing=("exhaust.hull_fitting.isolated",),
            key=key,
        )
        parts.insert(0, ("isolation", found))
    return together(limit, parts)
