"""Lists given as CSV files: units in the head, decimal commas, encodings; each cell keeps its place."""

import pytest

from dossier.project.model import BalancingValve, FanCoil, Pipe, Unit

SECTIONS = """
zones:
  - id: saloon
    target: 20 degC
    sections: {from: sections.csv}
  - {id: engine_room, floats: true}
build_ups: {side: {layers: [{material: steel, thickness: 5 mm}]}}
"""


def sections(desk, content):
    desk.put("sections.csv", content)
    return desk.read(SECTIONS).zones[0].sections


def fault(desk, content, text=SECTIONS, name="sections.csv"):
    desk.put(name, content)
    faults = desk.faults(text)
    assert len(faults) == 1, [str(each) for each in faults]
    return str(faults[0])


PLAIN = """name,area [m2],u_value [W/m2K],build_up,faces,faces.zone
Deck,6.4,1.2,,air,
Aft bulkhead,5,,side,,engine_room
"""


def test_heads_are_keys_with_their_unit(desk):
    deck, bulkhead = sections(desk, PLAIN)
    assert (deck.name, deck.area, deck.u_value, deck.build_up, deck.faces) == ("Deck", 6.4, 1.2, None, "air")
    assert (bulkhead.area, bulkhead.u_value, bulkhead.build_up, bulkhead.faces.zone) == (
        5,
        None,
        "side",
        "engine_room",
    )


def test_a_cell_keeps_its_file_row_and_column(desk):
    line = sections(desk, PLAIN)[1].area.origin
    assert (line.key, line.file, line.line, line.column) == (
        "zones.saloon.sections.Aft bulkhead.area",
        "sections.csv",
        3,
        2,
    )


@pytest.mark.parametrize(
    "content",
    [
        "name;area [m2];u_value [W/m2K]\nDeck;6,4;1,2\n",
        "name;area [m2];u_value [W/m2K]\r\nDeck;6.4;1.2\r\n",
        "\ufeffname,area [m2],u_value [W/m2K]\nDeck,6.4,1.2\n",
        'name,area [m2],u_value [W/m2K]\n"Deck",6.4,1.2\n',
        "name\tarea [m2]\tu_value [W/m2K]\nDeck\t6.4\t1.2\n",
        "name,area,u_value\nDeck,6.4 m2,1.2 W/m2K\n",
        "u_value [W/m2K],name,area [cm2]\n1.2,Deck,64000\n\n",
    ],
)
def test_tables_as_spreadsheets_write_them(desk, content):
    (deck,) = sections(desk, content)
    assert (deck.name, deck.u_value) == ("Deck", 1.2)
    assert deck.area == pytest.approx(6.4)


def test_the_windows_encoding_is_taken(desk):
    (deck,) = sections(desk, "name;area [m2];u_value [W/m2K]\nS\u00fcll;6,4;1,2\n".encode("cp1252"))
    assert deck.name == "S\u00fcll"


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("name,aera [m2],u_value [W/m2K]\n", "sections.csv:1:2: unknown key 'aera'; write area"),
        ("name,area [m22],u_value [W/m2K]\n", "sections.csv:1:2: 'm22' is no known unit"),
        (
            "name,area [m],u_value [W/m2K]\nDeck,6.4,1.2\n",
            "sections.csv:2:2: area needs an area, found a length, '6.4 m'",
        ),
        (
            "name,area,u_value [W/m2K]\nDeck,6.4,1.2\n",
            "sections.csv:2:2: area needs a unit, found '6.4'; name the unit in the head of the column, as a",
        ),
        (
            "name,area [m2],u_value [W/m2K]\nDeck,6.4 m2,1.2\n",
            "sections.csv:2:2: area has its unit in the head",
        ),
        (
            'name,area [m2],u_value [W/m2K]\nDeck,"6,4",1.2\n',
            "sections.csv:2:2: area: the figure '6,4 m2' is not read",
        ),
        (
            "name,area [m2],u_value [W/m2K]\nDeck,6,4,1.2\n",
            "sections.csv:2: the row has 4 cells, its heads are 3",
        ),
        ("name,name,area [m2]\n", "sections.csv:1:2: the column 'name' stands twice"),
        ("name,,area [m2]\n", "sections.csv:1:2: a column has no head"),
        ("", "sections.csv:1: the table is empty"),
        (b"name,area\n\xff\x81\n", "sections.csv:2:1: the file is not encoded as UTF-8"),
        (b"name\x00", "sections.csv: the file is not a text"),
        (
            "name,area [m2],u_value [W/m2K]\nDeck,6.4,1.2\nDeck,3,1\n",
            "sections.csv:3:1: the name 'Deck' is given twice",
        ),
        ("name,area [m2],u_value [W/m2K]\nDeck,[,1.2\n", "sections.csv:2:2: area: "),
    ],
)
def test_a_fault_of_a_table_has_its_cell(desk, content, said):
    assert fault(desk, content).startswith(said)


def test_a_table_that_is_not_there_is_told_at_the_line_that_names_it(desk):
    assert desk.fault(SECTIONS).startswith("'sections.csv': there is no such file")
    assert desk.faults(SECTIONS)[0].line == 5


@pytest.mark.parametrize(
    "written", ["{from: [a]}", "{from: {a: b}}", "{frm: sections.csv}", "{from: sections.csv, name: x}"]
)
def test_a_table_is_named_by_one_file(desk, written):
    desk.put("sections.csv", PLAIN)
    desk.fault(SECTIONS.replace("{from: sections.csv}", written))


def test_months(desk):
    desk.put(
        "months.csv", "month,outside_air [degC],sea [degC],hours_aboard [h]\n1,-12.5,0,744\n2,-12.8,-1,672\n"
    )
    project = desk.read("conditions: {months: {from: months.csv}}\n")
    january = project.conditions.months[0]
    assert (january.month, january.outside_air, january.sea) == (
        1,
        pytest.approx(260.65),
        pytest.approx(273.15),
    )
    assert january.hours_aboard == 744 * 3600
    assert [source.name for source in project.files] == ["boat.yaml", "months.csv"]
    assert project.files[1].text.startswith("month,")


def test_components_stand_under_their_tag(desk):
    desk.put(
        "parts.csv",
        "tag,kind,zone,output [kW],at.water_in [degC],at.air_in [degC],at.flow [l/min],kv [m3/h],wetted\n"
        'F1,fan_coil,saloon,4.0,80,18,9,,"copper, brass"\nV1,balancing_valve,,,,,,1.6,\n',
    )
    zones = "zones: [{id: saloon, floats: true}]\n"
    text = zones + "components: {from: parts.csv, V2: {kind: balancing_valve, kv: 2 m3/h}}\n"
    components = desk.read(text).components
    coil, valve = components["F1"], components["V1"]
    assert isinstance(coil, FanCoil)
    assert isinstance(valve, BalancingValve)
    assert (coil.tag, coil.zone, coil.output, coil.wetted) == ("F1", "saloon", 4000, ("copper", "brass"))
    assert coil.at.water_in == pytest.approx(353.15)
    assert (valve.kv, components["V2"].kv) == (1.6, 2)
    assert list(components) == ["F1", "V1", "V2"]


def test_an_overlay_lies_on_the_rows_of_a_table(desk):
    desk.put("parts.csv", "tag,kind,output [kW],power [W]\nF1,fan_coil,4.0,25\nF2,fan_coil,3.0,20\n")
    project = desk.read(
        """
        components: {from: parts.csv}
        alternatives: {one: {components: {F1: {power: 30 W}, F2: none, F3: {kind: fan_coil}}}}
        """
    )
    other = project.alternative("one").components
    assert list(other) == ["F1", "F3"]
    assert (other["F1"].output, other["F1"].power) == (4000, 30)
    assert list(project.components) == ["F1", "F2"]
    assert "the name 'F1' is given twice" in desk.fault("components: {from: parts.csv, F1: {kind: pump}}\n")


def test_short_forms_stand_in_tables_too(desk):
    desk.put("parts.csv", "tag,typical\nF1,fan coil 4 kW\n")
    desk.put("zones.csv", "id,target [degC],air,windows\ncabin,20,tight,2 x 1 m x 1 m single 8 mm\n")
    project = desk.read("zones: {from: zones.csv}\ncomponents: {from: parts.csv}\n")
    assert project.components["F1"].output == 4000
    assert project.zones[0].air_changes == pytest.approx(0.5 / 3600)
    assert project.zones[0].sections[0].area == 2


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("tag,kind\nF1,fan_coil\nF1,pump\n", "parts.csv:3:1: the name 'F1' is given twice"),
        ("kind\nfan_coil\n", "parts.csv:2: the row has no tag"),
        ("tag,kind\nF1,fan\n", "parts.csv:2:2: there is no kind of component 'fan'; write fan_coil"),
        ("tag,kind,kv [m3/h]\nF1,fan_coil,3\n", "parts.csv:2:3: unknown key 'kv'"),
    ],
)
def test_faults_of_a_table_of_parts(desk, content, said):
    assert fault(desk, content, "components: {from: parts.csv}\n", "parts.csv").startswith(said)


def test_openings_with_points_in_one_cell_or_in_three(desk):
    desk.put("a.csv", "name,kind,at [m]\nHatch,hatch,5.2 0.2 1.4\n")
    desk.put("b.csv", "name,kind,at.x [m],at.y [m],at.z [m]\nHatch,hatch,5.2,0.2,1.4\n")
    desk.put("c.csv", 'name,kind,at\nHatch,hatch,"[5.2 m, 0.2 m, 1.4 m]"\n')
    for name in ("a", "b", "c"):
        (opening,) = desk.read(f"layout: {{openings: {{from: {name}.csv}}}}\n").layout.openings
        assert opening.at == (5.2, 0.2, 1.4)


def test_branches_follow_their_rows(desk):
    desk.put(
        "branches.csv",
        "branch,unit,size,length [m],bends\n"
        "saloon,V1,,,\nsaloon,,pex 16x2.0,4.0,5\nsaloon,F1,,,\nbypass,V9,,,\n",
    )
    project = desk.read(
        """
        components: {M1: {kind: manifold}, M2: {kind: manifold}, V1: {kind: balancing_valve},
                     V9: {kind: bypass_valve}, F1: {kind: fan_coil}}
        circuit: {ring: [{between: [M1, M2], branches: {from: branches.csv}}]}
        """
    )
    saloon = project.branches()["saloon"]
    assert [type(item) for item in saloon] == [Unit, Pipe, Unit]
    assert (saloon[1].id, saloon[1].length, saloon[1].bends) == ("saloon_1", 4, 5)
    assert [item.unit for item in project.branches()["bypass"]] == ["V9"]


EPW = "LOCATION,Marsh Haven\n" + "x\n" * 7 + "2001,1,1,1,0,q,-5.0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,4.0\n" * 8760


def test_an_hourly_weather_file(desk):
    desk.put("weather.epw", EPW)
    weather = desk.read("conditions: {weather: {from: weather.epw}}\n").conditions.weather
    assert (len(weather.outside_air), weather.outside_air[0], weather.wind[0]) == (
        8760,
        pytest.approx(268.15),
        4.0,
    )


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("month,sea\n", "weather.epw:1: this is no weather file in EPW or TMY3 format"),
        (EPW.replace("-5.0", "99.9", 1), "weather.epw:9: the hour has 99.9 degC"),
        (EPW.replace("-5.0", "", 1), "weather.epw:9: the hour has no temperature"),
        (EPW.rpartition("2001")[0], "weather.epw:1: the weather file has 8759 hours"),
    ],
)
def test_a_broken_weather_file(desk, content, said):
    assert fault(desk, content, "conditions: {weather: {from: weather.epw}}\n", "weather.epw").startswith(
        said
    )
