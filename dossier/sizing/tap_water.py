"""How long does a hot shower last, and how hot can the tap get?

Winter is the design mode, in which the rooms take their heat on the coldest night; summer is the mode that
takes least, with nothing but the pipes to keep warm. Every other mode that warms the tap stands beside them.
What scalds is asked of the hottest moment of any mode, at a trickle, which leaves at the primary's
temperature.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.data.fuels import fuel
from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.physics.fuel import fuel_rate
from dossier.physics.tap_water import tank_time
from dossier.sizing.coolant import Coolant
from dossier.sizing.heat_recovery_limits import highest_jackets
from dossier.sizing.modes import DESIGN
from dossier.sizing.ring import RingStudy
from dossier.sizing.tap_exchanger import TapExchanger, tap_exchanger
from dossier.sizing.tap_heater import Store, showering_from_store, store_of
from dossier.sizing.tap_modes import TapMode, tap_modes
from dossier.sizing.tap_scald import exchanger_highest, outlet_highest, time_to_scald, valve_is_fitted
from dossier.sizing.tap_shower import Showering, Wish, showering

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "How long does a hot shower last, and how hot can the tap get?"
WINTER, SUMMER = "winter", "summer"
HEATERS = ("tap_exchanger", "water_heater")
WHOLE_TANK = 1.0


@dataclass(frozen=True)
class TapSeason:
    """A shower in one season: in the mode that counts for it, and in every mode that warms the tap."""

    season: str
    mode: str
    cold: Annotated[Real, q("θ_c", "K", "cold water")]
    flow: Annotated[
        Real, q("q_V", "m3/s", "at the wanted temperature, by the exchanger", name="tap_water.{season}.flow")
    ]
    power: Annotated[Real, q("Φ", "W", "for the wanted shower flow", name="tap_water.{season}.power")]
    shower_time: Annotated[
        Real | None,
        q(
            "t",
            "s",
            "until the temperature cannot be held, or the tank is empty",
            name="tap_water.{season}.shower_time",
        ),
    ]
    counts: Showering
    modes: tuple[Showering, ...]


@dataclass(frozen=True)
class ShowerHeat:
    """Heat of one shower in winter against what source and store give in its minutes."""

    mode: str
    needed: Annotated[Real, q("Q", "J", "one shower in winter", name="tap_water.shower_heat.needed")]
    available: Annotated[
        Real,
        q("Q", "J", "source and store over the shower's minutes", name="tap_water.shower_heat.available"),
    ]


@dataclass(frozen=True)
class Standby:
    """What the ring costs while it is kept hot for the tap alone."""

    mode: str
    loss: Annotated[Real, q("Φ", "W", "lost by the pipes")]
    fuel: Annotated[Real | None, q("q_f", "m3/s", "fuel for it")]


@dataclass(frozen=True)
class TapWater:
    """Hot water at the tap.

    ``heaters`` are the tags that heat it, ``modes`` what each mode brings to the first of them. What could
    not be found stands in ``lacking``: under ``winter``, ``summer``, ``shower`` and ``highest``.
    ``valve_fitted`` is None where nobody says; a circuit and a tap that are written out hold all there is.
    """

    heaters: tuple[str, ...]
    modes: tuple[TapMode, ...]
    seasons: Mapping[str, TapSeason]
    shower_heat: ShowerHeat | None
    store: Store | None
    tank_time: Annotated[Real | None, q("t", "s", "fresh water aboard at the shower flow wanted")]
    standby: Standby | None
    valve_fitted: bool | None
    exchanger_highest: Annotated[
        Real | None,
        q(
            "θ",
            "K",
            "highest temperature leaving exchanger or store, any mode and flow",
            name="tap_water.exchanger_highest",
        ),
    ]
    outlet_highest: Annotated[
        Real | None,
        q("θ", "K", "highest temperature at the tap, any mode and flow", name="tap_water.outlet_highest"),
    ]
    scald_time: Annotated[
        Real | None, q("t", "s", "at the delivered temperature", name="tap_water.scald_time")
    ]
    lacking: Mapping[str, NotAssessed]


def tap_water_study(
    project: "Project",
    ring: RingStudy | NotAssessed,
    coolant: Coolant | NotAssessed,
    store_capacity: Real | None,
) -> TapWater | NotAssessed:
    """Showers in both seasons and the hottest water at the tap.

    ``store_capacity`` (J/K) is that of all that moves in the ring, None where it is not known.
    """
    units: list[Any] = [c for c in (project.components or {}).values() if c.kind in HEATERS]
    written: Any = project.tap_water or None
    if not units and written is None:
        return NotAssessed(QUESTION, ("tap_water",), "" if project.tap_water is None else "tap_water: none")
    return _Tap(project, ring, coolant, store_capacity, units).study()


class _Tap:
    """The steps of the study, with what they share."""

    def __init__(
        self,
        project: "Project",
        ring: RingStudy | NotAssessed,
        coolant: Coolant | NotAssessed,
        capacity: Real | None,
        units: list[Any],
    ) -> None:
        self.project, self.capacity, self.units = project, capacity, units
        self.written: Any = project.tap_water or None
        self.lacking: dict[str, NotAssessed] = {}
        self.modes: dict[str, tuple[TapMode, ...]] = {}
        self.missing: NotAssessed | None = None
        self.jackets: Mapping[str, Real] = {}
        for result in (ring, coolant):
            if isinstance(result, NotAssessed):
                self.missing = self.missing or NotAssessed(QUESTION, result.needs, result.why)
        if not isinstance(ring, NotAssessed) and not isinstance(coolant, NotAssessed):
            self.jackets, unknown = highest_jackets(project)
            self.modes = {u.tag: tap_modes(project, ring, coolant, u.tag, self.jackets) for u in units}
            unsolved = [f"modes.{name}" for name in ring.not_solved]
            if unknown or unsolved:
                why = "; ".join(ring.not_solved.values())
                self.lacking["highest"] = NotAssessed(QUESTION, unknown or tuple(unsolved), why)

    def study(self) -> TapWater:
        """All that can be found."""
        unit = next((u for u in self.units if self.modes.get(u.tag)), None)
        modes = self.modes[unit.tag] if unit is not None else ()
        heat = tap_exchanger(unit.tag, unit) if unit is not None else None
        store = self._store(unit, heat, modes)
        seasons = {}
        for season in (WINTER, SUMMER):
            found = self._season(season, unit, heat, modes, store)
            if isinstance(found, NotAssessed):
                self.lacking[season] = found
            else:
                seasons[season] = found
        highest = self._highest()
        fitted = valve_is_fitted(self.project)
        outlet = outlet_highest(self.project, highest)
        return TapWater(
            tuple(u.tag for u in self.units),
            modes,
            seasons,
            self._shower_heat(seasons.get(WINTER)),
            store,
            self._tank_time(),
            self._standby(modes),
            fitted,
            highest,
            outlet,
            None if outlet is None else time_to_scald(outlet),
            self.lacking,
        )

    def _store(
        self, unit: Any, heat: TapExchanger | NotAssessed | None, modes: tuple[TapMode, ...]
    ) -> Store | None:
        if unit is None or heat is None or unit.kind != "water_heater" or unit.volume is None:
            return None
        cold = self.written.cold.winter if self.written is not None and self.written.cold else None
        return store_of(unit, heat, counting(modes, WINTER), cold)

    def _tank_time(self) -> Real | None:
        tap = self.written
        if tap is None or tap.tank is None or tap.shower_flow is None:
            return None
        return tank_time(tap.tank, WHOLE_TANK, tap.shower_flow)

    def _wish(self, season: str) -> Wish | NotAssessed:
        tap = self.written
        cold: Any = getattr(tap.cold, season) if tap is not None and tap.cold else None
        asked = {f"tap_water.cold.{season}": cold}
        asked |= {f"tap_water.{key}": getattr(tap, key, None) for key in ("at_tap", "shower_flow")}
        needs = tuple(key for key, value in asked.items() if value is None)
        if needs or tap is None:
            return NotAssessed(QUESTION, needs)
        return Wish(cold, tap.at_tap, tap.shower_flow, tap.shower, self._tank_time())

    def _season(
        self,
        season: str,
        unit: Any,
        heat: TapExchanger | NotAssessed | None,
        modes: tuple[TapMode, ...],
        store: Store | None,
    ) -> TapSeason | NotAssessed:
        wish = self._wish(season)
        if isinstance(wish, NotAssessed):
            return wish
        if unit is None or heat is None:
            return self.missing or self._unheated()
        if isinstance(heat, NotAssessed):
            return heat
        if unit.kind == "water_heater" and store is None:
            return NotAssessed(QUESTION, (f"components.{unit.tag}.volume",))
        warm = season == WINTER
        each = tuple(
            showering(heat, mode, wish, self.capacity, heats_rooms=warm)
            if store is None
            else showering_from_store(heat, mode, wish, store, heats_rooms=warm)
            for mode in modes
        )
        mode = counting(modes, season)
        counts = each[modes.index(mode)]
        return TapSeason(season, mode.mode, wish.cold, counts.flow, counts.power, counts.held, counts, each)

    def _unheated(self) -> NotAssessed:
        if not self.units:
            return NotAssessed(QUESTION, ("components.tap_exchanger",), "nothing aboard heats the tap water")
        return NotAssessed(QUESTION, ("modes",), f"no warm water passes {self.units[0].tag} in any mode")

    def _shower_heat(self, winter: TapSeason | None) -> ShowerHeat | None:
        if winter is None:
            self.lacking["shower"] = self.lacking[WINTER]
            return None
        needed, available = winter.counts.needed, winter.counts.available
        if needed is None or available is None:
            key = "tap_water.shower" if needed is None else "circuit.ring"
            why = "" if needed is None else "the heat that ring and stores hold is not known"
            self.lacking["shower"] = NotAssessed(QUESTION, (key,), why)
            return None
        return ShowerHeat(winter.mode, needed, available)

    def _highest(self) -> Real | None:
        """Highest temperature leaving any exchanger or store; why it is not known goes to ``lacking``."""
        highest = exchanger_highest(self.units, self.modes)
        if highest is None:
            reason = NotAssessed(QUESTION, ("modes",), "no warm water passes it in any mode that was solved")
            nothing = NotAssessed(QUESTION, ("components.tap_exchanger",))
            self.lacking["highest"] = (self.missing or reason) if self.units else nothing
        return highest

    def _standby(self, modes: tuple[TapMode, ...]) -> Standby | None:
        if not modes:
            return None
        mode = counting(modes, SUMMER)
        burner: Any = next((c for c in (self.project.components or {}).values() if c.kind == "burner"), None)
        burnt = None
        if burner is not None and mode.rests:
            key = f"components.{burner.tag}.efficiency"
            efficiency = stated_or_assumed(burner.efficiency, "components.burner.efficiency", key)
            burnt = fuel_rate(mode.pipes, efficiency, fuel().heat_of_combustion, fuel().density)
        return Standby(mode.mode, mode.pipes, burnt)


def counting(modes: tuple[TapMode, ...], season: str) -> TapMode:
    """The mode that counts in a season: in winter the design mode, in summer the one that takes least.

    Where the design mode does not warm the tap, the mode that has most heat left for it.
    """
    if season == SUMMER:
        return min(modes, key=lambda mode: float(mode.taken))
    design = next((mode for mode in modes if mode.mode == DESIGN), None)
    return design or max(modes, key=lambda mode: float(mode.left(heats_rooms=True)))
