"""Reads an hourly weather file in an open format, EPW or TMY3: air temperature and wind of a year.

The libraries that read these formats bring a data-frame library or a whole model of sunlight with them; two
columns of a table need neither. One of them serves the tests.
"""

import csv
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from dossier.notation import ProjectFaults
from dossier.notation.records import dataclass
from dossier.project.model.conditions import Weather
from dossier.project.nodes import Map, Node, Spot, Text, shortened, words
from dossier.project.record import REFERENCE, UNREADABLE, Where
from dossier.project.source_file import LARGEST_TABLE, clean_text

if TYPE_CHECKING:
    from dossier.project.reader import Reader

EPW_HEADER_LINES, EPW_TEMPERATURE, EPW_WIND, EPW_MONTH = 8, 6, 21, 1
TMY3_HEADER_LINES, TMY3_TEMPERATURE, TMY3_WIND, TMY3_DATE = (
    2,
    "Dry-bulb (C)",
    "Wspd (m/s)",
    "Date (MM/DD/YYYY)",
)
LEAST_LINES = 3
HOURS = (8760, 8784)
KELVIN = 273.15
MONTHS = 12
POSSIBLE_TEMPERATURE, POSSIBLE_WIND = (-90.0, 60.0), (0.0, 110.0)


def read_weather(reader: "Reader", node: Node, where: Where) -> Weather | None:
    """Hours of ``{from: weather.epw}`` in kelvin and metres a second."""
    written = node.get("from") if isinstance(node, Map) else node
    if not isinstance(written, Text):
        what = f"{where.label} names a weather file, found {words(node)}"
        reader.record.fault(node.spot, UNREADABLE, what, f"write {where.label}: {{from: weather.epw}}")
        return None
    for key, pair in node.pairs.items() if isinstance(node, Map) else ():
        if key != "from":
            reader.unknown(key, pair.spot, frozenset({"from"}))
    path = reader.folder.path_of(written.text)
    if isinstance(path, str):
        what = f"'{shortened(written.text)}': {path}"
        reader.record.fault(written.spot, REFERENCE, what, "check the name of the file")
        return None
    try:
        source = reader.folder.read(written.text, LARGEST_TABLE)
        text = clean_text(source.content or b"", source.name, windows=True)
    except ProjectFaults as error:
        reader.record.faults.extend(error.faults)
        return None
    return _hours(reader, source.name, text)


@dataclass(frozen=True)
class _Layout:
    """Where a format has its hours: lines before them, columns of temperature, wind and date."""

    header: int
    temperature: int
    wind: int
    month: int

    def figures(self, cells: Sequence[str]) -> tuple[float, float, int]:
        """Temperature (°C), wind (m/s) and month of an hour."""
        month = int(cells[self.month].partition("/")[0])
        return float(cells[self.temperature]), float(cells[self.wind]), month


def _layout(lines: Sequence[str]) -> _Layout | None:
    """Layout of a file by its first lines; None where it is no format of ours."""
    if lines[0].startswith("LOCATION,"):
        return _Layout(EPW_HEADER_LINES, EPW_TEMPERATURE, EPW_WIND, EPW_MONTH)
    if len(lines) < LEAST_LINES:
        return None
    names = [name.strip() for name in next(csv.reader([lines[1]]), [])]
    wanted = (TMY3_TEMPERATURE, TMY3_WIND, TMY3_DATE)
    if any(name not in names for name in wanted):
        return None
    return _Layout(TMY3_HEADER_LINES, *(names.index(name) for name in wanted))


def _rows(lines: Sequence[str], layout: _Layout) -> Iterator[tuple[int, tuple[float, float, int] | None]]:
    """Hours of a file, each with the number of its line; None for one that cannot be read."""
    for place, line in enumerate(lines[layout.header :], layout.header + 1):
        if line.strip():
            try:
                yield place, layout.figures(next(csv.reader([line])))
            except (csv.Error, ValueError, IndexError, StopIteration):
                yield place, None


def _hours(reader: "Reader", name: str, text: str) -> Weather | None:
    """The year of a file; a fault at the first hour that cannot be."""
    lines = text.split("\n")
    layout = _layout(lines)

    def refuse(place: int, what: str, instead: str) -> None:
        reader.record.fault(Spot(name, place), UNREADABLE, what, instead)

    if layout is None:
        what = "this is no weather file in EPW or TMY3 format"
        refuse(1, what, "an EPW file begins with LOCATION, a TMY3 file names its columns in the second line")
        return None
    air, wind, latest = [], [], 1
    for place, figures in _rows(lines, layout):
        if figures is None:
            refuse(place, "the hour has no temperature and wind", "mend the file")
            return None
        celsius, speed, month = figures
        possible = (
            POSSIBLE_TEMPERATURE[0] <= celsius <= POSSIBLE_TEMPERATURE[1]
            and POSSIBLE_WIND[0] <= speed <= POSSIBLE_WIND[1]
        )
        if not possible:
            what = f"the hour has {celsius:g} degC and {speed:g} m/s, which cannot be"
            refuse(place, what, "fill the gaps of the file first")
            return None
        if not latest <= month <= MONTHS:
            refuse(place, f"month {month} follows month {latest}", "a year runs from January to December")
            return None
        latest = month
        air.append(celsius + KELVIN)
        wind.append(speed)
    if len(air) not in HOURS:
        refuse(1, f"the weather file has {len(air)} hours", "a year has 8760 hours, or 8784")
        return None
    return Weather(name, tuple(air), tuple(wind))
