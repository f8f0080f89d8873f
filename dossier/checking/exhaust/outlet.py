"""Height of the outlet above the water, upright and heeled."""

from typing import TYPE_CHECKING

from dossier.checking.exhaust.way import cannot_list, of_exhaust, stays_inshore, tests_of, way_out
from dossier.checking.finding import Finding, Limit, judge, not_assessed
from dossier.checking.judging import counted, together, with_maker_silent
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed
from dossier.sizing.exhaust_route import heel_angles

if TYPE_CHECKING:
    from dossier.sizing.study import Study

HEEL_ANGLES = ("vessel.heel_angles",)


@of_exhaust()
def outlet_height(study: "Study", limit: Limit) -> Finding:
    """Water that reaches the outlet runs down into the burner, and through an open pipe into the boat."""
    way = way_out(study)
    tests = tests_of(study)
    measured = tests.heights.outlet_upright if tests and tests.heights else None
    key = "commissioning.heights.outlet_upright"
    if isinstance(way.outlet, NotAssessed):
        if measured is None:
            return not_assessed(limit, way.outlet)
        return judge(limit, measured, key=key, remark="measured")
    found = judge(limit, way.outlet.upright, key=way.key("route"))
    if measured is None:
        return found
    return together(limit, [("by its route", found), ("measured", judge(limit, measured, key=key))])


@of_exhaust(stays_inshore)
def outlet_freeboard(study: "Study", limit: Limit) -> Finding:
    """Waves reach far above the still waterline, and a wave into the outlet puts the flame out."""
    way = way_out(study)
    vessel = study.project.vessel
    at_sea = () if vessel and vessel.goes_to_sea else ("vessel.goes_to_sea",)
    if isinstance(way.outlet, NotAssessed):
        return not_assessed(limit, (*at_sea, *way.outlet.needs))
    if at_sea:
        return not_assessed(limit, at_sea)
    return with_maker_silent(limit, judge(limit, way.outlet.upright, key=way.key("route")))


@of_exhaust(cannot_list)
def outlet_heeled(study: "Study", limit: Limit) -> Finding:
    """Water that reaches the outlet when the boat heels runs down into the burner."""
    way = way_out(study)
    angles = heel_angles(study.project)
    if isinstance(way.outlet, NotAssessed):
        return not_assessed(limit, (*(() if angles else HEEL_ANGLES), *way.outlet.needs))
    if not angles:
        return not_assessed(limit, HEEL_ANGLES)
    largest = max(float(angle) for angle in angles)
    smaller = further_limit("exhaust.outlet_heeled", "smaller angle").limit
    return together(
        limit,
        [
            (
                f"heel {attitude.degrees}°",
                judge(
                    limit,
                    attitude.height,
                    value=limit.value if float(attitude.angle) == largest else smaller,
                    key=way.key("route"),
                ),
            )
            for attitude in way.outlet.heeled
        ],
    )


@of_exhaust(cannot_list)
def angle_under_water(study: "Study", limit: Limit) -> Finding:
    """Gusts and wakes heel her further than she is sailed at, and the burner must be off by then."""
    way = way_out(study)
    angles = heel_angles(study.project)
    if isinstance(way.outlet, NotAssessed):
        return not_assessed(limit, (*(() if angles else HEEL_ANGLES), *way.outlet.needs))
    if not angles:
        return not_assessed(limit, HEEL_ANGLES)
    least = counted(limit, max(float(angle) for angle in angles))
    return judge(limit, way.outlet.angle_under_water, value=least, key=way.key("route"))
