"""How much charge does the heating take in a day, and how long does the battery last?

Burner: its starts, and the share of the day it runs. The pump runs all day, the fans a share of it.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.sources import OHM
from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.cable import battery_autonomy, charge_drawn, current_of

if TYPE_CHECKING:
    from dossier.project import Project

DAY = 86400.0
CHARGE = q("Q_i", "C", "charge of one consumer", low=0, high=1e9)


@formula("t = n · t_s", ARITHMETIC)
def time_of_starts(
    starts: Annotated[Real, q("n", "1", "starts in the day", low=0, high=5000)],
    start_time: Annotated[Real, q("t_s", "s", "start time", low=0, high=3600)],
) -> Annotated[Real, q("t", "s", "time of all starts", low=0)]:
    """Time the burner spends starting in a day."""
    return starts * start_time


@formula("t = s · 86400 s", ARITHMETIC)
def share_of_a_day(
    share: Annotated[Real, q("s", "1", "share of the day", low=0, high=1)],
) -> Annotated[Real, q("t", "s", "running time", low=0)]:
    """Running time in a day."""
    return share * DAY


@formula("Q = Σ Q_i", ARITHMETIC)
def total_charge(*charges: Annotated[Real, CHARGE]) -> Annotated[Real, q("Q", "C", "charge", low=0)]:
    """Charge of several consumers together."""
    total: Real = 0.0
    for charge in charges:
        total = total + charge
    return total


@formula("Q_u = Q_B · s − Q_o", OHM)
def charge_left(
    capacity: Annotated[Real, q("Q_B", "C", "capacity of the battery", low=0, high=1e9)],
    usable: Annotated[Real, q("s", "1", "usable share", low=0, high=1)],
    others: Annotated[Real, q("Q_o", "C", "other loads in a day", low=0, high=1e9)] = 0.0,
) -> Annotated[Real, q("Q_u", "C", "charge left for the heating; negative where the others take all")]:
    """Usable charge less what other consumers take in a day."""
    return capacity * usable - others


@formula("I = Q/86400 s", OHM)
def mean_current(
    charge: Annotated[Real, q("Q", "C", "charge of a day", low=0, high=1e9)],
) -> Annotated[Real, q("I", "A", "mean current of a day", low=0)]:
    """Mean current of a day."""
    return charge / DAY


@dataclass(frozen=True)
class ConsumerCurrent:
    """Currents of one consumer; None where neither its plate nor a circuit of its own tells."""

    tag: str
    kind: str
    start: Annotated[Real | None, q("I_s", "A", "starting")]
    run: Annotated[Real | None, q("I", "A", "running")]


@dataclass(frozen=True)
class ConsumerCharge:
    """Charge one consumer takes in the day."""

    tag: str
    moment: str
    current: Annotated[Real, q("I", "A", "current")]
    time: Annotated[Real, q("t", "s", "running time")]
    charge: Annotated[Real, q("Q", "C", "charge in the day")]


@dataclass(frozen=True)
class BatteryDay:
    """Charge of the heating on the design day against the battery; ``needs`` names the keys it waits for."""

    charges: tuple[ConsumerCharge, ...]
    per_day: Annotated[Real | None, q("Q", "C", "charge on the design day", name="electrics.per_day")]
    left: Annotated[Real | None, q("Q_u", "C", "usable charge less the other loads")]
    autonomy: Annotated[
        Real | None,
        q("t", "s", "usable battery at the design load, other loads counted", name="electrics.autonomy"),
    ]
    needs: tuple[str, ...]


def consumers(project: "Project") -> Mapping[str, ConsumerCurrent]:
    """Currents of burners, pumps and fans by tag: from the plate, else from a circuit that feeds it alone."""
    return {
        tag: _consumer(project, tag, component)
        for tag, component in (project.components or {}).items()
        if component.kind in {"burner", "pump", "fan_coil"}
    }


def _consumer(project: "Project", tag: str, component: Any) -> ConsumerCurrent:
    start = run = None
    system = project.electrics.system if project.electrics else None
    if component.kind == "burner":
        if component.current is not None:
            start, run = component.current.start, component.current.run
    elif component.power is not None and system is not None:
        start = run = current_of(component.power, system)
    alone = [c for c in (project.electrics.circuits or () if project.electrics else ()) if c.feeds == (tag,)]
    if alone:
        start = alone[0].start if start is None else start
        run = alone[0].run if run is None else run
    return ConsumerCurrent(tag, component.kind, start, run)


def battery_day(project: "Project", burner_share: Real | None, starts: Real | None) -> BatteryDay:
    """Charge on the design day, and how long the battery lasts; arguments as those of ``electrics``."""
    known = consumers(project)
    needs = [_key(consumer) for consumer in known.values() if consumer.run is None]
    needs += [
        f"components.{consumer.tag}.current.start"
        for consumer in known.values()
        if consumer.kind == "burner" and consumer.start is None
    ]
    if not any(consumer.kind == "burner" for consumer in known.values()):
        needs.append("components.burner")
    charges: tuple[ConsumerCharge, ...] = ()
    per_day = None
    if not needs and burner_share is not None and starts is not None:
        charges = tuple(
            charge
            for consumer in known.values()
            for charge in _charges(project, consumer, burner_share, starts)
        )
        per_day = total_charge(*(charge.charge for charge in charges))
    left, autonomy = _against_battery(project, per_day)
    return BatteryDay(charges, per_day, left, autonomy, tuple(needs))


def _key(consumer: ConsumerCurrent) -> str:
    return f"components.{consumer.tag}.{'current.run' if consumer.kind == 'burner' else 'power'}"


def _charges(
    project: "Project", consumer: ConsumerCurrent, burner_share: Real, starts: Real
) -> tuple[ConsumerCharge, ...]:
    run, start = consumer.run, consumer.start
    if run is None or start is None:
        return ()
    if consumer.kind == "pump":
        return (_charge(consumer.tag, "all day", run, share_of_a_day(1.0)),)
    if consumer.kind == "fan_coil":
        share = coefficient("electrics.fan_share")
        return (_charge(consumer.tag, "fan", run, share_of_a_day(share)),)
    burner: Any = (project.components or {})[consumer.tag]
    start_time = stated_or_assumed(
        burner.start_time, "components.burner.start_time", f"components.{consumer.tag}.start_time"
    )
    return (
        _charge(consumer.tag, "starting", start, time_of_starts(starts, start_time)),
        _charge(consumer.tag, "running", run, share_of_a_day(burner_share)),
    )


def _charge(tag: str, moment: str, current: Real, time: Real) -> ConsumerCharge:
    return ConsumerCharge(tag, moment, current, time, charge_drawn(current, time))


def _against_battery(project: "Project", per_day: Real | None) -> tuple[Real | None, Real | None]:
    """Charge left for the heating, and how long the usable charge lasts with the other loads."""
    written = project.electrics
    if written is None or written.battery is None:
        return None, None
    usable = stated_or_assumed(written.usable, "electrics.usable")
    others = written.other_loads
    left = (
        charge_left(written.battery, usable)
        if others is None
        else charge_left(written.battery, usable, others)
    )
    if per_day is None:
        return left, None
    taken = per_day if others is None else total_charge(per_day, others)
    return left, battery_autonomy(written.battery, usable, mean_current(taken))
