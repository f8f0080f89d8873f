"""A document of invented data that uses every block, for the tests of pages."""

import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

from dossier.rendering.blocks import (
    Align,
    Anchor,
    Answer,
    Attachment,
    Blank,
    Block,
    Bullets,
    Card,
    CardBand,
    CardFace,
    CardFigure,
    CardLine,
    CardPlaces,
    CardSteps,
    CardTopic,
    Column,
    Contents,
    DocumentTitle,
    DrawingSheet,
    Figure,
    Finding,
    FindingsTable,
    FormBox,
    FormRow,
    FormSheet,
    FormulaLine,
    Heading,
    HoldBar,
    Imprint,
    KeyFigures,
    Listing,
    NewSheet,
    Note,
    Outer,
    PackageHead,
    PageBreak,
    Pair,
    Panel,
    Paragraph,
    Side,
    SideNote,
    SignalWord,
    Signatures,
    Span,
    Steps,
    Table,
    Tick,
    TitleBlock,
    Together,
    WritingLines,
)
from dossier.rendering.charts import Dash, Level, Line, LineChart, Point
from dossier.rendering.layout.measures import MM, column_width
from dossier.rendering.pages import render_pdf
from dossier.rendering.text import (
    boxed,
    italic,
    link,
    name_of,
    page_of,
    reference,
    severity_blocks,
    status_mark,
    strong,
    sub,
    target,
    text,
    writing_line,
)

FOOT = "Maker’s instructions and local rules stand above every limit of common practice."
NUMBER = Align.NUMBER

IMPRINT = Imprint(
    boat="Marsh Heron",
    title="Heating installation dossier",
    number="MH-HEAT-01",
    revision="B",
    status="for construction",
    date="2026-11-20",
    edition="Survey",
    owner="The owner",
    author="The owner",
    approval="the owner signs here",
    subject="Diesel-fired water heating",
    keywords=("boat", "heating"),
    foot=FOOT,
    attachments=(
        Attachment("project.yaml", b"vessel:\n  name: Marsh Heron\n", "application/yaml", "project file"),
    ),
)


class Plate:
    """A drawing: a frame with its diagonal. Sizes in millimetres."""

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width * MM, height * MM

    def draw(self, canvas: Any, x: float, y: float) -> None:
        canvas.setLineWidth(1)
        canvas.rect(x, y, self.width, self.height)
        canvas.line(x, y, x + self.width, y + self.height)


def pump_chart(width: float) -> LineChart:
    """A pump's curves against three circuits."""
    flows = [n * 0.5 for n in range(59)]
    ways = {
        "cold, 2 °C": (0.46, 1.7, Dash.DASH_DOT),
        "warm, 70 °C": (0.2, 1.75, Dash.LONG),
        "plain water, 70 °C": (0.165, 1.77, Dash.SHORT),
    }
    circuits = [
        Line([n * 0.2 for n in range(104)], [k * (n * 0.2) ** p for n in range(104)], name, dash)
        for name, (k, p, dash) in ways.items()
    ]
    return LineChart(
        width,
        85,
        (
            Line(flows, [32 - 0.038 * q * q for q in flows], "pump, 24 V, warm", bold=True),
            Line(flows[:54], [26.5 - 0.036 * q * q for q in flows[:54]], "pump, 22 V, cold", thin=True),
            *circuits,
        ),
        "Flow through the burner [l/min]",
        "Head [kPa]",
        points=(Point(15.4, 23.5, "a", full=True), Point(10, 23.4, "b"), Point(16.3, 22.6, "c")),
        levels=(Level(9, "burner needs 9.0"),),
        x_range=(0, 30),
        y_range=(0, 33.5),
    )


def title_page() -> list[Block]:
    return [
        DocumentTitle("Heating installation dossier", "Marsh Heron", "Survey edition, revision B"),
        Table(
            [Column(""), Column("")],
            [("Boat", "Marsh Heron, steel cruiser"), ("Length, beam, draught", "12.4 m, 3.9 m, 1.1 m")],
            "Identification",
            plain=True,
        ),
        TitleBlock("Heating installation dossier", "Survey edition"),
        PageBreak(),
        Contents("Contents"),
    ]


FINDINGS = (
    ("danger", "not met", "Outlet stays out of the water", "−60 mm", "≥ 0 mm", "−60 mm", "at 8° of heel"),
    ("danger", "not met", "Gap round the exhaust in the hull", "1 mm", "≥ 25 mm", "−24 mm", "in 50 mm oak"),
    ("danger", "not assessed", "Burner locks out when it overheats", "—", "fitted", "a test", ""),
    (
        "fault",
        "not met",
        "Header stands above every wet part",
        "−350 mm",
        "≥ 0 mm",
        "−350 mm",
        "bathroom rail",
    ),
    (
        "danger",
        "accepted deviation",
        "Room to service the burner above its lid",
        "100 mm",
        "≥ 150 mm",
        "−50 mm",
        "",
    ),
    ("attention", "not met", "Battery lasts a day without charge", "185 Ah", "≤ 110 Ah", "−75 Ah", ""),
    ("attention", "met", "Runs are long enough", "12.7 min", "≥ 10.0 min", "+2.7 min", ""),
    ("fault", "not applicable", "Vessel holds its charge", "—", "—", "—", ""),
)


def findings(wide: float) -> list[Block]:
    statuses = ("not met", "not assessed", "accepted deviation", "not applicable", "met")
    return [
        Heading(1, "Findings first", key="findings", number="2"),
        Side(
            [
                KeyFigures(
                    "Key figures",
                    [
                        ("Design load", "3.9 kW"),
                        ("Coldest day held", "−31 °C"),
                        ("Carbon monoxide", italic("not assessed")),
                    ],
                )
            ]
        ),
        Answer("Not to be fired as found. Four dangers stand open and two could not be looked at."),
        Paragraph(
            "A diesel burner of 8 kW heats four rooms by a ring of hose and pipe, with a plate exchanger for "
            "tap water. It keeps the boat warm at −6 °C with 4.1 kW in hand. The outlet goes under at 6° of "
            "heel, the hull behind it may char, no alarm would warn a sleeper, and the tap can scald."
        ),
        FindingsTable(
            [
                Finding(
                    str(number),
                    severity,
                    status,
                    title,
                    "Common practice, no source; measured",
                    found,
                    limit,
                    margin,
                    "Raise it, nearer the middle.",
                    "Yard, before firing.",
                    note,
                    page_of("route"),
                    f"finding {number}",
                )
                for number, (severity, status, title, found, limit, margin, note) in enumerate(FINDINGS, 1)
            ],
            "Findings, worst first. Numbers stay with a finding for life.",
            key="all findings",
        ),
        Pair(
            [
                Table(
                    [Column("Grade"), *[Column(s, group=status_mark(s), align=NUMBER) for s in statuses]],
                    [
                        (text(severity_blocks(g), " ", g), "4", "2", "1", "6", "28")
                        for g in ("danger", "fault", "attention")
                    ],
                    "Tally of 175 checks, grade by result",
                    totals=[("together", "12", "6", "3", "18", "84")],
                )
            ],
            [
                Table(
                    [
                        Column("Check"),
                        Column("Found", align=NUMBER),
                        Column("In hand", align=NUMBER, strong=True),
                    ],
                    [
                        ("Flow at burner, cold start", "7.0 l/min", "0.3 l/min"),
                        ("Exhaust length", "1.68 m", "0.32 m"),
                    ],
                    "Met, with least in hand",
                ),
                Note(text(strong("Whose limit:"), " local rule 1, common practice 2.")),
            ],
            left_width=80 if wide > 150 else None,
        ),
    ]


def survey(wide: float) -> list[Block]:
    return [
        Heading(1, "Survey part", number="5"),
        Heading(
            2,
            "Exhaust route and outlet",
            number="5.1",
            key="route",
            running="5 Survey part · exhaust",
            question="Can the sea run in, and can the gas come back?",
        ),
        Side([SideNote("Basis", "Route from the drawing of 2026-11-10. To be measured aboard at Hold 1.")]),
        Answer(
            "The outlet stays clear of the sea to 20° of heel, by 98 mm. At 22.5° it goes under:",
            "stop the burner before that.",
        ),
        Table(
            [
                Column("Leg", strong=True),
                *[Column(italic(c), group="From [mm]", align=NUMBER, wide_only=True) for c in "xyz"],
                Column("Length", "mm", NUMBER),
                Column("Rise", "mm", NUMBER),
                Column("Bend at end", "degrees", NUMBER),
            ],
            [
                ("1", "5,600", "−1,350", "420", "520", "+520", "86"),
                ("2", "5,600", "−1,350", "940", "1,100", "+80", "39"),
                ("3", "4,600", "−1,800", "1,020", "353", "−150", "—"),
            ],
            "Legs of the route, pipe axis",
            key="legs",
            totals=[("together", "", "", "", "1,973", "+450", "")],
            span=Span.FULL,
        ),
        Figure(
            Plate(wide, 80),
            "Elevation looking forward, 1 : 20",
            "the pipe rises from the burner and falls out",
            key="elevation",
            notes="Heights in millimetres over the loaded waterline.",
        ),
        Pair(
            [Figure(Plate(min(98, wide), 60), "Plan, 1 : 40", "the outlet lies beside the wheelhouse")],
            [
                Table(
                    [Column("Boat"), Column("Found", align=NUMBER), Column("Limit", align=NUMBER)],
                    [("upright", "851", "≥ 250"), ("heeled 20°", "98", "≥ 0")],
                    "Outlet above the sea [mm]",
                ),
                Note(
                    text(
                        status_mark("met"),
                        " ",
                        strong("met"),
                        " all eight, grade ",
                        severity_blocks("danger"),
                        " danger",
                    )
                ),
            ],
            left_width=98 if wide > 150 else None,
        ),
    ]


def calculation(column: float) -> list[Block]:
    heads = ("Wanted", "Found", "Margin", "Speed", "Pipe", "Unit", "Valve", "Sum")
    units = ("l/min", "l/min", "l/min", "m/s", "kPa", "kPa", "kPa", "kPa")
    return [
        Heading(1, "Calculation part", number="6", key="calculation"),
        Heading(2, "Flow", number="6.7", key="flow", question="Does each branch get its share?"),
        Side([SideNote("Feeds", "Checks of flow: branch share, burner flow, cold start, pipe velocity.")]),
        Answer("Yes. Once balanced, every branch gets 1.5 times what it wants.", "Cold it still gets 10.0."),
        Paragraph(
            text(
                "The saloon is the worst branch; see ",
                reference("route"),
                ", ",
                name_of("legs"),
                " and ",
                link("findings", "the findings"),
                ". R",
                sub("si"),
                " is 0.13 m²K/W.",
            )
        ),
        Table(
            [
                Column("Branch"),
                Column("Tag"),
                *[Column(h, u, NUMBER) for h, u in zip(heads, units, strict=True)],
            ],
            [
                ("Wheelhouse", "V1 · F1", "2.9", "4.2", "+1.3", "0.62", "5.4", "1.5", "6.6", "13.5"),
                (
                    text("Saloon ", boxed("W")),
                    "V2 · F2",
                    "3.1",
                    "4.6",
                    "+1.5",
                    "0.68",
                    "8.9",
                    "1.7",
                    "2.9",
                    "13.5",
                ),
                ("Bypass", "V9", "—", "3.6", "—", "0.53", "0.5", "—", "13.0", "13.5"),
            ],
            "Branches in mode heating, all calling; coolant 40 % propylene glycol at 70 °C",
            key="branches",
            totals=[("Burner", "B1", "9.0", "15.4", "+6.4", "", "", "", "", "23.5")],
            notes=text(strong("W"), " worst branch. Wanted: for 10 K of cooling at the design load."),
        ),
        Side([SideNote("Limit", "Least flow 9.0 l/min: burner instructions.")]),
        Figure(
            pump_chart(column),
            "Pump P1 against the whole circuit",
            "three circuits cross two pump curves",
            key="pump",
        ),
        Table(
            [
                Column("Valve", strong=True),
                Column("Turns open", align=Align.DECIMAL),
                Column("Ready", align=Align.CENTRE),
            ],
            [("V1", "3.25", "yes"), ("V2", "12.5", "no"), ("V3", "2", "yes")],
            "Presets",
        ),
        Heading(3, "Below the smallest load"),
        Paragraph("The burner rests. " * 30),
        Together([Paragraph("These two stay together."), Note("As this note with its paragraph.")]),
    ]


def drawings(paper: str) -> list[Block]:
    size = (240, 100) if paper != "A5" else (170, 45)
    return [
        Heading(1, "Drawings", number="7"),
        Paragraph("Each drawing stands on a sheet of its own."),
        DrawingSheet(
            "Heating circuit",
            "Drawing 1, schematic",
            "the ring with its branches",
            "drawing 1",
            drawing=Plate(*size),
            scale="not to scale",
            notes="Mode heating, −10 °C outside.",
        ),
        DrawingSheet(
            "Valve plan",
            "Drawing 8",
            "which valve is open",
            "drawing 8",
            landscape=False,
            whole=lambda number: Plate(100 + len(number), 100),
        ),
        NewSheet(landscape=True, outer=Outer.NONE),
        Heading(3, "Inputs by basis"),
        Table(
            [Column("Group"), Column("Measured", align=NUMBER)],
            [("exhaust", "12")],
            "On a sheet turned sideways",
        ),
    ]


def yard() -> list[Block]:
    return [
        Heading(1, "Yard part", number="9"),
        Paragraph("Packages start a new sheet each."),
        PackageHead(
            "Package 3",
            "Exhaust and hull fitting",
            [
                ("By whom", "The yard, when the burner is on its bracket"),
                ("Drawings", "Drawing 3 exhaust"),
                ("Must be met", "Exhaust: 14 checks"),
            ],
            "package 3",
        ),
        Panel(
            SignalWord.DANGER,
            "Exhaust gas kills without smell.",
            "A leak or a low outlet brings carbon monoxide or sea water aboard.",
            "Make every joint gas-tight, keep the outlet where Hold 1 put it.",
            "Maker’s instructions and local rules come first.",
        ),
        Panel(SignalWord.WARNING, "Hot pipe chars wood.", "It may burn weeks later.", "Keep 25 mm of air."),
        Panel(SignalWord.CAUTION, "Coolant makes decks slippery.", "People fall.", "Wipe it up."),
        Panel(
            SignalWord.NOTICE, "Plain water freezes.", "The exchanger bursts.", "Fill the mix before frost."
        ),
        HoldBar(
            "Hold 1",
            "Before any hole.",
            "Centre of outlet marked, 870 mm above the loaded waterline.",
            ["Owner", "Surveyor"],
            "hold 1",
        ),
        Steps(
            [
                text("Cut the hull: ", strong("60 mm"), " round at the mark."),
                text("Lay the pipe by ", name_of("legs"), "."),
                "Two clamps a joint, sealing paste.",
            ],
            checkbox=True,
            fields=("yard.step_1", "yard.step_2", ""),
        ),
        FormRow(
            [
                FormBox(
                    "Outlet above water", "expected 851, least 250 mm", "mm", "commissioning.outlet_height"
                ),
                FormBox("Gap at hull", "least 25 mm", "mm", "commissioning.gap"),
                FormBox("Nearest wood", "least 50 mm", "mm", entered="70"),
            ]
        ),
        Signatures(["Yard", "Owner"]),
        Heading(1, "Aboard part", number="8"),
        Steps(["Open the fuel shut-off.", "Switch on at S1."], large=True),
        Bullets(
            ["Ring: the loop of pipe that serves all rooms.", "Header: the tank that takes the swelling."]
        ),
    ]


def records() -> list[Block]:
    rows = [
        (
            f"V{n}",
            "Wheelhouse",
            "4.2",
            Blank("l/min", f"commissioning.flows.V{n}", "4.1" if n == 1 else ""),
            Tick(),
        )
        for n in range(1, 4)
    ]
    return [
        Heading(1, "Records", number="10"),
        Paragraph("Sheets to fill in."),
        FormSheet(
            "Test 6",
            "Flows at the branches",
            "test 6",
            Table(
                [
                    Column("Tag", strong=True),
                    Column("What"),
                    Column("Expected", "l/min", NUMBER),
                    Column("Measured"),
                    Column("Seen"),
                ],
                rows,
                "Flows",
                key="flows sheet",
            ),
            "All branches calling, pump on full.",
            [("Before", "Hold 6 signed")],
            ["Yard", "Owner"],
        ),
        WritingLines(4, "Remarks"),
    ]


def appendices() -> list[Block]:
    return [
        Heading(1, "Appendices", number="11"),
        Heading(2, "Workings"),
        Anchor("workings", "the workings"),
        *[
            FormulaLine(
                "Φ_T = U · A · (θ_i − θ_e)",
                "= 1.08 W/m²K · 12.4 m² · (293 K − 263 K)",
                "402 W",
                "ISO 7345:2018",
                "transmission loss",
                str(n),
                f"working {n}",
            )
            for n in range(60, 66)
        ],
        Paragraph(
            text(
                target("in words", "The ring"),
                " is told in ",
                name_of("workings"),
                ", on page ",
                page_of("in words"),
                "; see ",
                reference("finding 3"),
                ".",
            )
        ),
        Heading(2, "The project file"),
        Listing(
            ["vessel:", "  name: 'Marsh & <Heron>'   # the boat", *[f"  key_{n}: {n} m2" for n in range(80)]],
            "project.yaml, as it is attached",
            key="listing",
        ),
    ]


def card() -> Card:
    steps = [
        text(strong("Everybody out into the open air."), " Wake all. Take nothing."),
        text(strong("Count."), " If one is missing, do not go in alone."),
        text(strong("Mayday, VHF 16."), " Position: ", writing_line()),
    ]
    return Card(
        CardFace(
            [
                CardBand("CARBON MONOXIDE", "Alarm, or headache, dizziness"),
                CardSteps(steps),
                CardBand("FIRE"),
                CardSteps(steps),
            ]
        ),
        CardFace(
            [
                CardTopic("Fuel leaks", text(strong("STOP S1, fuel off V20."), " Touch no switch.")),
                CardTopic("Where things are"),
                CardFigure(Plate(100, 30), "plan of the boat with six places"),
                CardPlaces(
                    [("1", "stop", "S1"), ("2", "fuel shut-off", "V20"), ("3", "isolator", "")],
                    "write the place here",
                ),
                CardLine(text("Restart only after the carbon monoxide test, page ", page_of("test 6"), ".")),
            ]
        ),
        "Emergency card",
        "card",
    )


def document(paper: str = "A4") -> list[Block]:
    """All of it, its figures as wide as the paper lets them be."""
    wide, column = column_width(paper, Span.FULL), column_width(paper)
    return [
        card(),
        *title_page(),
        *findings(wide),
        *survey(wide),
        *calculation(column),
        *drawings(paper),
        *yard(),
        *records(),
        *appendices(),
    ]


def imprint(paper: str = "A4") -> Imprint:
    """The imprint; on A5 it is the edition for the crew."""
    return replace(IMPRINT, large=True, edition="Aboard") if paper == "A5" else IMPRINT


if __name__ == "__main__":
    render_pdf(document(sys.argv[1]), imprint(sys.argv[1]), Path(sys.argv[2]), paper=sys.argv[1])
