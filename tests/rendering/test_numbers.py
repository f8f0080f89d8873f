"""Numbers on the page: units, digits, signs, and rounding that never flatters."""

from decimal import Decimal

import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from dossier.data.tables import rows
from dossier.notation import PageFault, q
from dossier.rendering import fonts
from dossier.rendering.numbers import Limits, Numbers, System, display, kind_of, kinds

METRIC, IMPERIAL = Numbers(System.METRIC), Numbers(System.IMPERIAL)


def figure(said):
    """The number in a printed text."""
    return Decimal(said.lstrip("≥≤+\u00a0").split("\u00a0")[0].replace("−", "-").replace(",", ""))


@pytest.mark.parametrize(
    ("number", "kind", "said"),
    [
        (293.15, "temperature", "20\u00a0°C"),
        (267.15, "temperature", "−6\u00a0°C"),
        (15.4 / 60000, "flow", "15.4\u00a0l/min"),
        (13500, "pressure", "13.5\u00a0kPa"),
        (5.6, "length_check", "5,600\u00a0mm"),
        (1306.2, "power", "1,310\u00a0W"),
        (5130, "power_large", "5.1\u00a0kW"),
        (0.4, "share", "40\u00a0%"),
        (0.39269908169872414, "angle_fine", "22.5°"),
        (6900, "reynolds", "6,900"),
        (6.3, "per_hour", "6.3\u00a0per h"),
        (0.98, "flow_factor", "0.98\u00a0m³/h"),
        (None, "power", "—"),
    ],
)
def test_numbers_are_said_in_the_readers_unit(number, kind, said):
    assert METRIC.said(number, kind) == said


def test_customary_units_come_first_in_their_edition_and_the_others_in_brackets():
    assert METRIC.both(0.851, "length_check") == "851\u00a0mm (33.5\u00a0in)"
    assert IMPERIAL.both(0.851, "length_check") == "33.5\u00a0in (851\u00a0mm)"
    assert METRIC.both(267.15, "temperature") == "−6\u00a0°C (21\u00a0°F)"
    assert METRIC.both(12.0, "voltage") == "12.0\u00a0V"


@pytest.mark.parametrize("number", [-0.0, -0.001, 0.001, -4.9])
def test_zero_has_no_sign(number):
    assert METRIC.text(number, "power") == "0"
    assert METRIC.text(number / 1000, "length") in {"0.00", "−0.00"[1:]}


def test_the_minus_is_the_true_one_and_a_margin_bears_its_plus():
    assert METRIC.text(-1350e-3, "length_check") == "−1,350"
    assert METRIC.text(1.3 / 60000, "flow", signed=True) == "+1.3"
    assert METRIC.text(0.0, "flow", signed=True) == "0.0"


def test_a_column_has_the_same_decimals_throughout():
    said = METRIC.column([0.5 / 60000, 10 / 60000, None, -2.25 / 60000], "flow")
    assert said == ["0.5", "10.0", "—", "−2.3"]


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_never_reaches_a_page(number):
    with pytest.raises(PageFault):
        METRIC.text(number, "power")
    with pytest.raises(PageFault):
        METRIC.judged(number, 1.0, "power", Limits.MINIMUM)


def test_a_kind_nobody_knows_is_a_fault():
    with pytest.raises(PageFault, match="'furlongs'"):
        METRIC.text(1.0, "furlongs")


@pytest.mark.parametrize(
    ("found", "limit", "kind", "limits", "said"),
    [
        # a loop 0.1 mm short of its limit is short by a millimetre, and not at its limit
        (0.2499, 0.25, "length_check", Limits.MINIMUM, ("249\u00a0mm", "≥\u00a0250\u00a0mm", "−1\u00a0mm")),
        (0.25, 0.25, "length_check", Limits.MINIMUM, ("250\u00a0mm", "≥\u00a0250\u00a0mm", "0\u00a0mm")),
        (-0.06, 0.0, "length_check", Limits.MINIMUM, ("−60\u00a0mm", "≥\u00a00\u00a0mm", "−60\u00a0mm")),
        (342.15, 321.15, "temperature", Limits.MAXIMUM, ("69\u00a0°C", "≤\u00a048\u00a0°C", "−21\u00a0K")),
        (1.681, 2.0, "length", Limits.MAXIMUM, ("1.69\u00a0m", "≤\u00a02.00\u00a0m", "+0.31\u00a0m")),
        # 0.15 is a fine limit that the step of a tenth cannot show
        (0.151, 0.15, "ratio", Limits.MAXIMUM, ("0.16", "≤\u00a00.15", "−0.01")),
    ],
)
def test_found_limit_and_margin_agree(found, limit, kind, limits, said):
    judged = METRIC.judged(found, limit, kind, limits)
    assert (judged.found, judged.limit, judged.margin) == said


def test_a_limit_that_falls_between_two_steps_gets_more_digits_where_it_matters():
    judged = IMPERIAL.judged(0.251, 0.25, "length_check", Limits.MINIMUM)  # 9.882 in against 9.843 in
    assert figure(judged.margin) > 0


def test_both_systems_stand_on_found_and_limit():
    judged = METRIC.judged(0.2499, 0.25, "length_check", Limits.MINIMUM, both=True)
    assert judged.found == "249\u00a0mm (9.8\u00a0in)"
    assert judged.limit == "≥\u00a0250\u00a0mm (9.9\u00a0in)"


numbers = st.floats(-1e4, 1e4, allow_subnormal=False)


@given(
    numbers,
    numbers,
    st.sampled_from(["length_check", "length", "flow", "pressure", "power", "share", "temperature"]),
    st.sampled_from(Limits),
    st.sampled_from(System),
)
@example(found=0.1 + 0.2, limit=0.3, kind="length_check", limits=Limits.MAXIMUM, system=System.METRIC)
def test_a_printed_margin_never_flatters(found, limit, kind, limits, system):
    judged = Numbers(system).judged(found, limit, kind, limits)
    shown = display(kind, system)
    exact_found, exact_limit = (Decimal(repr(float(shown.figure(n)))) for n in (found, limit))
    worse = -1 if limits is Limits.MINIMUM else 1
    noise = Decimal(repr(float(shown.step))) * Decimal("1e-8") + abs(exact_found) * Decimal("1e-12")
    missed = (exact_found - exact_limit) * worse > noise
    assert figure(judged.margin) == (figure(judged.limit) - figure(judged.found)) * worse
    if abs(exact_found - exact_limit) > Decimal(repr(float(shown.step))) / 1000:
        assert (figure(judged.margin) < 0) == missed
    finest = Decimal(repr(float(shown.step))) / 1000
    assert (figure(judged.found) - exact_found) * worse >= -noise - finest


@given(st.floats(-1e6, 1e6), st.sampled_from(kinds()), st.sampled_from(System))
def test_a_printed_number_is_within_half_a_step(number, kind, system):
    shown = display(kind, system)
    said = figure(Numbers(system).text(number, kind))
    away = abs(said - Decimal(repr(float(shown.figure(number)))))
    assert away <= Decimal(repr(float(shown.step))) / 2 + Decimal("1e-9") * (1 + abs(said))


@given(st.floats(-1e6, 1e6), st.sampled_from(kinds()), st.sampled_from(System))
def test_printed_numbers_hold_no_hyphen_and_only_letters_of_the_typeface(number, kind, system):
    said = Numbers(system).both(number, kind)
    assert "-" not in said
    assert not fonts.lacking(said)
    assert "−0 " not in said.replace("\u00a0", " ")


ASCII = {
    "l/min": "liter/min",
    "m3/h": "m**3/h",
    "ft3/min": "ft**3/min",
    "mH2O": "9806.65 Pa",
    "mm2": "mm**2",
    "cm2": "cm**2",
    "in2": "in**2",
    "m2": "m**2",
    "ft2": "ft**2",
    "m3": "m**3",
    "ft3": "ft**3",
    "kg/m3": "kg/m**3",
    "lb/ft3": "lb/ft**3",
    "g/m2": "g/m**2",
    "oz/ft2": "oz/ft**2",
    "deg": "degree",
    "kn": "knot",
    "l": "liter",
    "gal": "gallon",
    "in": "inch",
}


@pytest.mark.parametrize(
    "row", [row for row in rows("display_units") if row["metric"] in ASCII], ids=lambda r: r["kind"]
)
def test_metric_units_agree_with_a_general_library_of_units(row):
    registry = pint.UnitRegistry()
    si = registry(ASCII.get(row["si"], row["si"].replace("m3", "m**3").replace("m2", "m**2")))
    one = registry(ASCII[row["metric"]])
    assert float(display(row["kind"], System.METRIC).scale) == pytest.approx(
        float((1 * one / si).to("").magnitude)
    )


def test_every_kind_is_named_once_and_has_a_source():
    names = [row["kind"] for row in rows("display_units")]
    assert len(set(names)) == len(names)
    assert all(row["source"] for row in rows("display_units"))


@pytest.mark.parametrize(
    ("quantity", "kind"),
    [
        (q("θ_i", "K", "inside temperature"), "temperature"),
        (q("Δθ", "K", "cooling"), "temperature_difference"),
        (q("Φ", "W", "load"), "power"),
        (q("U", "W/m2K", "transmittance"), "transmittance"),
        (q("n", "1/h", "starts"), "per_hour"),
    ],
)
def test_a_declared_quantity_finds_its_kind(quantity, kind):
    assert kind_of(quantity) == kind
