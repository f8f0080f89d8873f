"""Single values in the field they stand in: units asked for, ranges, basis, spread, words, dates."""

import math

import pytest

from dossier.notation import Basis, Line
from dossier.project import NONE
from dossier.project.model import Date, Rated


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("6.4", "area needs a unit, found '6.4'; write 6.4 m2"),
        ("3.2 m", "area needs an area, found a length, '3.2 m'; write 3.2 m2 or 3.2 m x 1.4 m"),
        ("6.4 m3", "area needs an area, found a volume, '6.4 m3'; write 6.4 m2"),
        ("3,2 m2", "area: the figure '3,2 m2' is not read as it is meant; write 3.2 m2"),
        ("6.4 squares", "area: 'squares' is no known unit; write a unit such as mm, l/min, kPa"),
        ("[6.4 m2]", "area is an area, found a list; write area: one value"),
        ("{is: 6.4}", "area needs a unit, found '6.4'; write 6.4 m2"),
        ("none", "area: 'none' is no figure; take the line out if it is unknown"),
        ("", "area has no value; write one, or take the line out if it is unknown"),
        ("~", "area has no value; write one, or take the line out if it is unknown"),
        ("0 m2", "area cannot be 0 m2 (possible is 0.001 to 2000 m2); check the figure and its unit"),
    ],
)
def test_an_area_that_cannot_be_read_is_told_with_what_to_write(desk, written, said):
    assert desk.area_fault(written) == said


def test_an_area_comes_out_in_si_with_its_line(desk):
    project = desk.read(
        """
        zones:
          - id: cabin
            target: 20 degC
            sections:
              - {name: Deck, u_value: 2 W/m2K, area: 3.2 m x 1.4 m - 0.4 m2, faces: air}
        """
    )
    area = project.zones[0].sections[0].area
    assert area == pytest.approx(4.08)
    assert area.origin == Line(
        "zones.cabin.sections.Deck.area", "3.2 m x 1.4 m - 0.4 m2", Basis.ASSUMED, "boat.yaml", 6, 46
    )


def test_area_in_an_imperial_unit(desk):
    assert desk.area("100 ft2") == pytest.approx(9.290304)


@pytest.mark.parametrize(
    ("key", "written", "value"),
    [
        ("outside_air: -10 degC", "outside_air", 263.15),
        ("outside_air: −10 °C", "outside_air", 263.15),
        ("outside_air: 14 degF", "outside_air", 263.15),
        ("outside_air: 263.15 K", "outside_air", 263.15),
        ("humidity_inside: 60 %", "humidity_inside", 0.6),
        ("warm_up_within: 1 h 30 min", "warm_up_within", 5400.0),
        ("wind: 20 kn", "wind", 10.288889),
        ("altitude: 1000 ft", "altitude", 304.8),
    ],
)
def test_conditions_in_the_units_of_their_field(desk, key, written, value):
    conditions = desk.read(f"conditions: {{{key}}}\n").conditions
    assert getattr(conditions, written) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("conditions: {outside_air: 20}", "outside_air needs a unit, found '20'; write 20 degC"),
        ("conditions: {outside_air: 10 K}", "outside_air cannot be 10 K (possible is 213 to 333 K)"),
        ("conditions: {outside_air: 14 F}", "outside_air: 'F' is no known unit; write 14 degF"),
        (
            "conditions: {outside_air: 20 C}",
            "outside_air is a temperature, found a charge, '20 C'; write 20 degC",
        ),
        ("conditions: {humidity_inside: 0.6}", "humidity_inside needs a unit, found '0.6'; write 60 %"),
        ("conditions: {humidity_inside: 60}", "humidity_inside needs a unit, found '60'; write 60 %"),
        (
            "components: {B1: {kind: burner, band: 12 degC}}",
            "band is a difference of temperatures, found '12 degC'; write 12 K",
        ),
        (
            "components: {B1: {kind: burner, band: 18 degF}}",
            "band is a difference of temperatures, found '18 degF'; write 10 K",
        ),
        ("components: {B1: {kind: burner, flow_min: 9}}", "flow_min needs a unit, found '9'; write 9 l/min"),
        (
            "components: {B1: {kind: burner, band: 8 K + 4 K}}",
            "band is one figure, found the sum '8 K + 4 K'; write its result",
        ),
        (
            "components: {M1: {kind: manifold, outlets: 5 mm}}",
            "outlets is a plain number, found '5 mm'; write 5",
        ),
        (
            "components: {M1: {kind: manifold, outlets: 5.5}}",
            "outlets is a whole number, found '5.5'; write 6",
        ),
        (
            "components: {M1: {kind: manifold, outlets: five}}",
            "outlets: 'five' is no figure; write a plain number",
        ),
        (
            "components: {B1: {kind: burner, pressure_drop: 12 kPa}}",
            "pressure_drop is rated at a flow, found '12 kPa'; write 12 kPa at 10 l/min",
        ),
        (
            "components: {B1: {kind: burner, pressure_drop: 12 at 9 l/min}}",
            "pressure_drop needs a unit, found '12'; write 12 kPa",
        ),
        (
            "components: {B1: {kind: burner, stages: two}}",
            "stages is a plain number or one of: modulating, found 'two'",
        ),
        ("vessel: {goes_to_sea: on}", "goes_to_sea is a yes or no, found 'on'; write yes"),
        ("vessel: {hull: stele}", "hull cannot be 'stele'; write steel"),
        (
            "vessel: {hull: cheese}",
            "hull cannot be 'cheese'; write one of: steel, aluminium, wood, grp, concrete",
        ),
        (
            "vessel: {heel_angles: 10 deg}",
            "heel_angles is a list, or none, found '10 deg'; write heel_angles: [10 deg]",
        ),
        ("vessel: [a]", "vessel is a mapping, found a list; write vessel: {name: Marsh Heron"),
        ("vessel: {name: [a]}", "name is a text, found a list; write name: one value"),
        ("document: {date: 20.11.2026}", "date is a date, found '20.11.2026'; write 2026-11-20"),
        ("document: {date: 2026-02-30}", "date: there is no day '2026-02-30'; check the date"),
        ("document: {date: today}", "date is a date, found 'today'; write it as 2026-11-20 or 2026-11"),
    ],
)
def test_a_value_that_does_not_fit_its_field(desk, text, said):
    assert desk.fault(text + "\n").startswith(said)


def test_yaml_1_1_is_never_asked_what_a_scalar_means(desk):
    project = desk.read(
        """
        document: {number: 010, title: off, place: 12:30, prepared_by: "null", approved_by: ""}
        vessel: {name: yes, kind: 1e3, built: 1972, goes_to_sea: Yes}
        """
    )
    document, vessel = project.document, project.vessel
    assert (document.number, document.title, document.place) == ("010", "off", "12:30")
    assert (document.prepared_by, document.approved_by) == ("null", "")
    assert (vessel.name, vessel.kind, vessel.built, vessel.goes_to_sea) == ("yes", "1e3", 1972.0, True)


def test_a_date_is_a_day_or_a_month(desk):
    document = desk.read("document: {date: 2026-11-20, next_review: 2028-02}\n").document
    assert document.date == Date(2026, 11, 20)
    assert str(document.next_review) == "2028-02"
    assert str(document.next_review.first) == "2028-02-01"
    assert str(document.next_review.last) == "2028-02-29"


def test_a_rated_pair_is_a_value_at_a_flow(desk):
    burner = desk.read("components: {B1: {kind: burner, pressure_drop: 12 kPa at 25 l/min}}\n").components[
        "B1"
    ]
    assert burner.pressure_drop == Rated(pytest.approx(12000.0), pytest.approx(25 / 60000))
    assert burner.pressure_drop.value.origin.key == "components.B1.pressure_drop"
    assert burner.pressure_drop.at.origin.key == "components.B1.pressure_drop.at"


def test_kv_keeps_cubic_metres_an_hour(desk):
    valve = desk.read(
        "components: {V1: {kind: balancing_valve, kv: 30 l/min, settings: [[1, 0.2 m3/h]]}}\n"
    ).components["V1"]
    assert valve.kv == pytest.approx(1.8)
    assert valve.settings[0].kv == pytest.approx(0.2)
    assert valve.settings[0].turns == 1


def test_silence_and_none_are_told_apart(desk):
    project = desk.read(
        """
        vessel: {registration: none, heel_angles: {is: none, note: a raft}}
        tap_water: none
        recovery: none
        exhaust: {silencer: none}
        circuit: {fill_connection: none, header: {unit: T2, valves_to_burner: none}}
        components: {T2: {kind: header_tank, vent: {valve: none}}}
        layout: {canopies: []}
        safety: {co_alarms: none}
        """
    )
    assert project.tap_water is NONE
    assert project.recovery is NONE
    assert project.vessel.registration is NONE
    assert project.vessel.heel_angles is NONE
    assert project.where("vessel.heel_angles").note == "a raft"
    assert project.vessel.trim_angles is None
    assert project.exhaust.silencer is NONE
    assert project.circuit.fill_connection is NONE
    assert project.circuit.header.valves_to_burner is NONE
    assert project.circuit.expansion is None
    assert project.components["T2"].vent.valve is NONE
    assert project.layout.canopies == ()
    assert project.layout.openings is None
    assert project.safety.co_alarms == ()
    assert not NONE


def basis(project, key):
    return project.where(key).basis


def test_the_nearest_basis_holds(desk):
    project = desk.read(
        """
        defaults: {basis: drawing}
        vessel: {basis: measured, length: 13.6 m, beam: {is: 4.1 m, basis: assumed}}
        conditions: {wind: 10 m/s, sea: {is: 3 degC, basis: measured, note: thermometer at the stern}}
        components:
          B1: {kind: burner, basis: plate, output: {max: 9 kW, min: {is: 3 kW, basis: measured}}}
        """
    )
    assert basis(project, "vessel.length") is Basis.MEASURED
    assert basis(project, "vessel.beam") is Basis.ASSUMED
    assert basis(project, "conditions.wind") is Basis.DRAWING
    assert basis(project, "conditions.sea") is Basis.MEASURED
    assert project.conditions.sea.origin.note == "thermometer at the stern"
    assert basis(project, "components.B1.output.max") is Basis.PLATE
    assert basis(project, "components.B1.output.min") is Basis.MEASURED


def test_nothing_stated_counts_as_assumed(desk):
    assert basis(desk.read("conditions: {wind: 10 m/s}\n"), "conditions.wind") is Basis.ASSUMED


def test_words_and_yes_or_no_have_a_basis_too(desk):
    project = desk.read("layout: {openings_complete: {is: true, basis: measured}}\n")
    assert project.layout.openings_complete is True
    assert basis(project, "layout.openings_complete") is Basis.MEASURED


@pytest.mark.parametrize(
    ("written", "ends"),
    [
        ("{is: 10 m/s, spread: 20 %}", (8.0, 12.0)),
        ("{is: 10 m/s, spread: 3 m/s}", (7.0, 13.0)),
        ("{is: 10 m/s, spread: [5 m/s, 20 m/s]}", (5.0, 20.0)),
    ],
)
def test_a_spread_has_its_ends_in_si(desk, written, ends):
    assert desk.read(f"conditions: {{wind: {written}}}\n").conditions.wind.origin.spread == pytest.approx(
        ends
    )


def test_the_spread_of_a_temperature_is_a_difference(desk):
    sea = desk.read("conditions: {sea: {is: 3 degC, spread: 2 K}}\n").conditions.sea
    assert sea.origin.spread == pytest.approx((274.15, 278.15))
    assert desk.fault("conditions: {sea: {is: 3 degC, spread: 5 %}}\n").endswith("write 2 K")


def test_the_spread_of_a_share_is_in_points(desk):
    humidity = desk.read(
        "conditions: {humidity_inside: {is: 60 %, spread: 10 %}}\n"
    ).conditions.humidity_inside
    assert humidity.origin.spread == pytest.approx((0.5, 0.7))


@pytest.mark.parametrize(
    "written",
    [
        "{is: 10 m/s, spread: 3}",
        "{is: 10 m/s, spread: wide}",
        "{is: 10 m/s, spread: [20 m/s, 30 m/s]}",
        "{is: 10 m/s, spread: [5 m/s]}",
        "{is: 10 m/s, spread: {a: b}}",
        "{is: 10 m/s, basis: guessed}",
        "{is: 10 m/s, base: measured}",
        "{is: 10 m/s, note: [a]}",
        "{is: {is: 10 m/s}}",
    ],
)
def test_a_long_form_is_checked_like_everything_else(desk, written):
    desk.fault(f"conditions: {{wind: {written}}}\n")


def test_a_yes_has_no_spread(desk):
    assert "has no spread" in desk.fault("vessel: {goes_to_sea: {is: yes, spread: 5 %}}\n")


@pytest.mark.parametrize(
    ("text", "key", "likely"),
    [
        ("vessel: {length: 40 mm}", "length", "40 m"),
        ("circuit: {ring: [{pipe: {bore: 2 m, length: 1 m}}]}", "bore", "2 mm"),
        ("exhaust: {bore: 38 m}", "bore", "38 m"),
    ],
)
def test_what_is_possible_but_odd_is_read_with_a_warning(desk, text, key, likely):
    if key == "bore" and likely == "38 m":
        assert "38 mm" in desk.fault(text + "\n")
        return
    warnings = desk.read(text + "\n").warnings
    assert len(warnings) == 1
    assert warnings[0].what.startswith(f"{key} is ")
    assert likely in warnings[0].instead


def test_numbers_are_finite(desk):
    project = desk.read("conditions: {wind: 10 m/s, inner_gains: 1e3 W}\n")
    assert math.isfinite(project.conditions.inner_gains)
    assert "cannot be" in desk.fault("conditions: {inner_gains: 1e99 W}\n")
