"""Figures of checks are read in the unit that fits them, and no margin looks better than it is."""

import pytest

from dossier.checking.finding import Finding, Item, Limit, Status, judge
from dossier.checking.limits import of_catalogue
from dossier.data.catalogue import catalogue
from dossier.rendering.answers import (
    in_hand,
    kind_of_answer,
    limit_in_words,
    limit_of_row,
    missing_keys,
    triple,
)
from dossier.rendering.numbers import Numbers, System, kinds

METRIC, IMPERIAL = Numbers(), Numbers(System.IMPERIAL)
SPACE = "\u00a0"


def limit(check: str) -> Limit:
    return of_catalogue(catalogue()[check])


@pytest.mark.parametrize(
    ("check", "found", "unit", "said"),
    [
        ("exhaust.outlet_height", 0.1659, "m", ("165 mm", "≥ 250 mm", "−85 mm")),
        ("exhaust.length", 1.9731, "m", ("1.98 m", "≤ 3.00 m", "+1.02 m")),
        ("exhaust.bends", 2.185, "rad", ("126°", "≤ 450°", "+324°")),
        ("exhaust.combustible_temperature", 352.9, "K", ("80 °C", "≤ 80 °C", "0 K")),
        ("store.run_time", 39.8, "s", ("0.6 min", "≥ 10.0 min", "−9.4 min")),
        ("store.starts_hour", 6.31, "1/h", ("6.4 per h", "≤ 3.0 per h", "−3.4 per h")),
        ("fuel.autonomy", 917859.0, "s", ("10 d", "≥ 7 d", "+3 d")),
        ("heat.fresh_air", 0.00183, "m3/s", ("1.8 l/s", "≥ 4.0 l/s", "−2.2 l/s")),
        ("safety.co_reading", 9.4e-6, "1", ("10 ppm", "≤ 9 ppm", "−1 ppm")),
        ("electrics.drop_run", 0.0566, "1", ("5.7 %", "≤ 10.0 %", "+4.3 %")),
        ("document.assumed", 12.5, "1", ("> 1,000 %", "≤ 10 %", "< −990 %")),
        ("store.swing", 4.4, "K", ("4 K", "≥ 5 K", "−1 K")),
        ("document.danger_open", 17.0, "1", ("17", "≤ 0", "−17")),
        ("coolant.share", 0.33, "1", ("33 %", "≥ 25 %", "+8 %")),
    ],
)
def test_found_limit_and_margin(check, found, unit, said):
    """Figures by hand: rounded to the worse side, the margin is the difference of the two as printed."""
    shown = triple(METRIC, catalogue()[check], judge(limit(check), found, unit=unit))
    printed = [each.replace(SPACE, " ") for each in (shown.found, shown.limit, shown.margin)]
    assert printed == list(said)


def test_a_share_of_many_times_is_not_told_to_the_per_cent():
    """A thousand per cent and nine thousand both mean "far beyond"."""
    shown = triple(METRIC, catalogue()["electrics.drop_run"], judge(limit("electrics.drop_run"), 90.0))
    assert shown.found.replace(SPACE, " ") == "> 1,000 %"
    assert shown.margin.startswith("<")


def test_words_stand_as_they_are_and_nothing_is_a_dash():
    row = catalogue()["safety.co_alarm"]
    shown = triple(METRIC, row, Item("saloon", "none", "fitted", "an alarm", Status.NOT_MET))
    assert (shown.found, shown.limit, shown.margin) == ("none", "fitted", "an alarm")
    empty = triple(METRIC, row, Item("saloon", None, None, None, Status.NOT_ASSESSED))
    assert (empty.found, empty.limit, empty.margin) == ("—", "—", "—")


def test_the_other_system_stands_in_brackets_on_the_limit_alone():
    """500 mm are 19.685 in; a least distance is rounded up so that it asks no less."""
    shown = triple(
        METRIC, catalogue()["exhaust.openings"], judge(limit("exhaust.openings"), 0.477), both=True
    )
    assert shown.limit == f"≥{SPACE}500{SPACE}mm (19.7{SPACE}in)"
    assert shown.found == f"477{SPACE}mm"


def test_a_limit_that_is_just_met_has_no_long_brackets():
    shown = triple(METRIC, catalogue()["exhaust.openings"], judge(limit("exhaust.openings"), 0.5), both=True)
    assert shown.limit == f"≥{SPACE}500{SPACE}mm (19.7{SPACE}in)"
    assert shown.margin == f"0{SPACE}mm"


@pytest.mark.parametrize("numbers", [METRIC, IMPERIAL], ids=["metric", "imperial"])
@pytest.mark.parametrize("check", sorted(catalogue()))
def test_every_limit_of_the_catalogue_can_be_said(check, numbers):
    row = catalogue()[check]
    words = limit_in_words(numbers, row)
    assert words
    assert "{" not in words
    assert "None" not in words
    assert limit_of_row(numbers, Finding(of_catalogue(row), Status.NOT_ASSESSED)) != "None"
    if row.limit is not None and row.unit:
        kind = kind_of_answer(row, row.unit, float(row.limit))
        assert kind in kinds()


def test_words_of_a_least_distance_ask_no_less_in_inches():
    """250 mm are 9.8425 in: 9.8 in would allow 0.05 in less."""
    assert "at least 9.9\u00a0in" in limit_in_words(IMPERIAL, catalogue()["exhaust.outlet_height"])


def test_margins_of_temperatures_are_compared_from_a_warm_room():
    """Limit 70 °C, found 60 °C: 10 K of the 50 K over a room of 20 °C."""
    touch = judge(limit("exhaust.lagging_touch"), 333.15)
    assert in_hand(touch) == pytest.approx(10 / 50)
    assert in_hand(judge(limit("exhaust.length"), 2.4)) == pytest.approx(0.6 / 3.0)
    assert in_hand(judge(limit("exhaust.length"), 3.2)) is None


def test_keys_of_dangers_come_first_and_those_that_hold_up_most():
    attention = Finding(limit("exhaust.people"), Status.NOT_ASSESSED, missing=("layout.openings", "vessel.x"))
    danger = Finding(limit("exhaust.outlet_height"), Status.NOT_ASSESSED, missing=("exhaust.route",))
    other = Finding(
        limit("exhaust.openings"), Status.NOT_ASSESSED, missing=("layout.openings", "exhaust.route")
    )
    met = Finding(limit("exhaust.length"), Status.MET, missing=("never",))
    assert list(missing_keys((attention, danger, other, met))) == [
        "exhaust.route",
        "layout.openings",
        "vessel.x",
    ]
