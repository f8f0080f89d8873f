"""Is the source still large enough where the assumptions are off?"""

from typing import TYPE_CHECKING

from dossier.checking.aboard import circuit_is_written, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import counted
from dossier.checking.source_output import full_output, to_cover
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study

LOAD = "heat_loss.total"


def load_spread(study: "Study", limit: Limit) -> Finding:
    """A load that rests on guesses may be larger than the source once the boat is measured.

    Found is the ninetieth percentile of the load; the limit is the source's output less what the pipes lose
    outside the heated zones.
    """
    burners = of_kind(study.project, "burner")
    if not burners:
        if circuit_is_written(study.project):
            return not_applicable(limit, "no burner is aboard")
        return not_assessed(limit, ["components.burner"])
    need, output = to_cover(study), full_output(study)
    key = f"components.{burners[0].tag}.output"
    if isinstance(need, NotAssessed):
        return not_assessed(limit, need)
    if output is None:
        return not_assessed(limit, [key])
    if float(need) <= 0:
        return not_applicable(limit, "no zone needs heat on the design night")
    return _held_against(study, limit, float(output), float(need), key)


def _held_against(study: "Study", limit: Limit, output: float, need: float, key: str) -> Finding:
    found = study.watched
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    spread = found.spreads.get(LOAD)
    if spread is None:
        return not_assessed(limit, ["zones"], "every sample of the load left the range of a formula")
    pipes = need - float(spread.value)
    first = max((k for k, move in spread.moves.items() if move), key=lambda k: spread.moves[k], default="")
    remark = f"what moves the load most is {first}" if first else "no assumed figure moves the load"
    return judge(limit, spread.p90, value=counted(limit, output - pipes), key=key, remark=remark)
