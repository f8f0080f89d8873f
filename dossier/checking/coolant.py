"""Does the coolant stand the frost, protect the metals, and is it still good?"""

from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.checking.aboard import of_kind
from dossier.checking.dates import DATE, age, lies_ahead, today
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import at_most, between, counted, joined, met, not_met, together
from dossier.checking.spaces import plain
from dossier.checking.stated import silent, stated
from dossier.data.catalogue import further_limit
from dossier.data.fluid_tables import glycol
from dossier.notation import ARITHMETIC, NotAssessed, OutOfRange, Real, formula, q
from dossier.physics.fluid import coolant
from dossier.physics.glycol_share import volume_share

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model import Date
    from dossier.sizing.study import Study

ICE = 273.15
ALUMINIUM = {"aluminium", "aluminum"}
WETTED = (
    *("burner", "pump", "fan_coil", "radiator", "towel_rail", "buffer", "tap_exchanger"),
    *("water_heater", "recovery_exchanger", "manifold"),
)
"""Kinds whose metal the coolant touches."""
SHARE = q("x", "1", "share of glycol", low=0, high=1)


@formula("Δx = |x_m − x_t|", ARITHMETIC)
def off_the_plan(
    measured: Annotated[Real, SHARE], planned: Annotated[Real, SHARE]
) -> Annotated[Real, q("Δx", "1", "share off the plan", low=0)]:
    """How far a measured share lies off the planned one, to either side."""
    found: Real = np.abs(measured - planned)
    return found


def _without_frost(project: "Project") -> bool | None:
    """Whether plain water cannot freeze in the lay-up; None where its lowest temperature is not stated."""
    coldest = stated(project, "conditions.lay_up_lowest")
    return None if coldest is None else bool(coldest > ICE)


def freezing(study: "Study", limit: Limit) -> Finding:
    """Coolant that freezes splits burner and exchangers, and nobody sees it before the thaw."""
    if isinstance(study.coolant, NotAssessed):
        return not_assessed(limit, study.coolant)
    key = "conditions.lay_up_lowest"
    coldest = stated(study.project, key)
    if coldest is None:
        return not_assessed(limit, [key])
    bound = counted(limit, coldest)
    found = [
        ("as planned", judge(limit, study.coolant.freezing_point, value=bound, key="circuit.coolant.share"))
    ]
    measured = study.coolant.measured_share
    if measured is not None and study.coolant.is_mix:
        where = _measured_under(study.project)
        try:
            as_found = judge(limit, _freezing_at(study.project, measured), value=bound, key=where)
        except OutOfRange as beyond:
            as_found = not_assessed(limit, [where], str(beyond))
        found.append(("as measured", as_found))
    return together(limit, found)


def _freezing_at(project: "Project", share: Real) -> Real:
    """Freezing point of the coolant at another share."""
    mix: Any = stated(project, "circuit.coolant")
    pure = mix.inhibitor is not None and not mix.inhibitor
    return coolant(mix.base, share, inhibited=not pure, by=mix.by or "volume").freezing_point


def _measured_under(project: "Project") -> str:
    return "records.coolant" if stated(project, "records.coolant") else "commissioning.coolant.share"


def share(study: "Study", limit: Limit) -> Finding:
    """Too little glycol lets frost and germs in, too much costs flow and heat."""
    project, key = study.project, "circuit.coolant.share"
    base = stated(project, "circuit.coolant.base")
    if base is None:
        return not_assessed(limit, ["circuit.coolant.base"])
    if base == "water":
        frostless = _without_frost(project)
        if frostless is None:
            return not_assessed(limit, ["conditions.lay_up_lowest"])
        if frostless:
            return met(limit, "plain water, no frost in the lay-up", key="circuit.coolant.base")
        lacking = "glycol, or a ring drained in frost"
        return not_met(limit, "plain water in frost", lacking, key="circuit.coolant.base")
    written = stated(project, key)
    if written is not None and stated(project, "circuit.coolant.by") == "mass":
        written = volume_share(written, glycol(base).density, glycol("water").density)
    return judge(limit, written, key=key, missing=[key])


def wetted_metals(project: "Project") -> tuple[frozenset[str], tuple[str, ...]]:
    """Metals the coolant is said to touch, in plain words; and the keys of parts that do not say."""
    metals, unsaid = set(), []
    for part in of_kind(project, *WETTED):
        if part.wetted is None:
            unsaid.append(f"components.{part.tag}.wetted")
        metals |= {plain(metal) for metal in part.wetted or ()}
    return frozenset(metals), tuple(unsaid)


def _guards(inhibitor: tuple[str, ...], metal: str) -> bool:
    """Whether an inhibitor's data sheet names a metal, or the kind of metal it is one of."""
    named = {plain(word).replace("aluminum", "aluminium") for word in inhibitor}
    metal = metal.replace("aluminum", "aluminium")
    return metal in named or bool(set(metal.split()) & named)


def inhibitor(study: "Study", limit: Limit) -> Finding:
    """An inhibitor made for iron eats aluminium, and glycol strips zinc."""
    key = "circuit.coolant.inhibitor"
    written = stated(study.project, key)
    metals, unsaid = wetted_metals(study.project)
    if written is not None and not written:
        return not_met(limit, "pure, without inhibitor", "the inhibitor", key=key)
    named = written.metals if written is not None else None
    glycols = stated(study.project, "circuit.coolant.base") not in {None, "water"}
    zinc = [metal for metal in metals if "galvanised" in metal or "galvanized" in metal or "zinc" in metal]
    if zinc and glycols:
        return not_met(limit, f"{zinc[0]} wetted by glycol", "a ring without zinc", key="components.wetted")
    bare = sorted(metal for metal in metals if named is not None and not _guards(named, metal))
    if bare:
        said = f"made for {', '.join(named or ())}"
        return not_met(limit, said, f"{', '.join(bare)} on its data sheet", key=f"{key}.metals")
    needs = [*([f"{key}.metals"] if named is None else []), *unsaid]
    if needs or not metals:
        return not_assessed(limit, needs or ["components.wetted"])
    return met(limit, f"made for {', '.join(named or ())}", key=f"{key}.metals")


def _last_test(project: "Project") -> "tuple[str, Date | None, Real | None, Real | None] | None":
    """Key, date, share and pH of the last test of the coolant: in the records, else at commissioning."""
    kept = [entry for entry in stated(project, "records.coolant") or () if entry.date is not None]
    if kept:
        last = max(kept, key=lambda entry: entry.date.first)
        return f"records.coolant.{last.date}", last.date, last.share, last.pH
    filled = stated(project, "commissioning.coolant")
    if filled is None:
        return None
    return "commissioning.coolant", stated(project, "commissioning.date"), filled.share, filled.pH


def condition(study: "Study", limit: Limit) -> Finding:
    """Old coolant turns acid and eats what it was to protect."""
    project = study.project
    if stated(project, "circuit.coolant") is None:
        return not_assessed(limit, ["circuit.coolant.base"])
    last = _last_test(project)
    if last is None:
        return not_assessed(limit, ["records.coolant"])
    key, date, share_found, acidity = last
    found = [("pH", _acidity(project, limit, acidity, f"{key}.pH"))]
    if stated(project, "circuit.coolant.base") == "water":
        found.append(("share", not_applicable(limit, "plain water")))
    else:
        found.append(("share", _off_the_plan(project, limit, share_found, f"{key}.share")))
    found.append(("age of the test", _age(project, limit, date, key)))
    return together(limit, found, relative=True)


def _acidity(project: "Project", limit: Limit, acidity: Real | None, key: str) -> Finding:
    """Acidity against its range, the narrower one where aluminium is wetted or may be."""
    if acidity is None:
        return not_assessed(limit, [key])
    metals, unsaid = wetted_metals(project)
    narrow = limit.upper if limit.overridden else further_limit(limit.check, "with aluminium").limit
    replace_below = further_limit(limit.check, "replace below").limit
    remark = "replace it" if acidity < replace_below else ""
    if metals & ALUMINIUM:
        told = joined(remark, "aluminium is wetted")
        return between(limit, acidity, limit.value, narrow, "1", key=key, remark=told)
    wide = between(limit, acidity, limit.value, limit.upper, "1", key=key, remark=remark)
    if unsaid and narrow is not None and narrow < acidity <= (limit.upper or acidity):
        return not_assessed(limit, unsaid, "whether aluminium is wetted")
    return wide


def _off_the_plan(project: "Project", limit: Limit, found: Real | None, key: str) -> Finding:
    planned = stated(project, "circuit.coolant.share")
    if found is None or planned is None:
        return not_assessed(
            limit, [*([key] if found is None else []), *silent(project, ["circuit.coolant.share"])]
        )
    most = further_limit(limit.check, "share off the plan").limit
    return at_most(limit, off_the_plan(found, planned), most, "1", key=key)


def _age(project: "Project", limit: Limit, date: "Date | None", key: str) -> Finding:
    now = today(project)
    if date is None or now is None:
        where = "commissioning.date" if key.startswith("commissioning") else f"{key}.date"
        return not_assessed(limit, [*([where] if date is None else []), *silent(project, [DATE])])
    if lies_ahead(date, now):
        return not_assessed(limit, [key], "the test is dated after the document")
    within = further_limit(limit.check, "tested within").limit
    return at_most(limit, age(date, now), within, "s", key=key)
