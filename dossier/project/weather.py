"""Reads an hourly weather file in the open EPW format: dry-bulb temperature and wind of a year."""

import csv
from typing import TYPE_CHECKING

from dossier.notation import ProjectFaults
from dossier.project.model.conditions import Weather
from dossier.project.nodes import Map, Node, Spot, Text, shortened, words
from dossier.project.record import REFERENCE, UNREADABLE, Where
from dossier.project.source_file import LARGEST_TABLE, clean_text

if TYPE_CHECKING:
    from dossier.project.reader import Reader

HEADER_LINES = 8
TEMPERATURE_COLUMN, WIND_COLUMN = 6, 21
HOURS = (8760, 8784)
KELVIN = 273.15
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


def _hours(reader: "Reader", name: str, text: str) -> Weather | None:
    lines = text.split("\n")
    if not lines[0].startswith("LOCATION"):
        reader.record.fault(
            Spot(name, 1), UNREADABLE, "this is no weather file in EPW format", "its first line is LOCATION"
        )
        return None
    air, wind = [], []
    for place, line in enumerate(lines[HEADER_LINES:], HEADER_LINES + 1):
        if not line.strip():
            continue
        try:
            cells = next(csv.reader([line]))
            celsius, speed = float(cells[TEMPERATURE_COLUMN]), float(cells[WIND_COLUMN])
        except (csv.Error, ValueError, IndexError, StopIteration):
            reader.record.fault(
                Spot(name, place), UNREADABLE, "the hour has no temperature and wind", "mend the file"
            )
            return None
        possible = (
            POSSIBLE_TEMPERATURE[0] <= celsius <= POSSIBLE_TEMPERATURE[1]
            and POSSIBLE_WIND[0] <= speed <= POSSIBLE_WIND[1]
        )
        if not possible:
            what = f"the hour has {celsius:g} degC and {speed:g} m/s, which cannot be"
            reader.record.fault(Spot(name, place), UNREADABLE, what, "fill the gaps of the file first")
            return None
        air.append(celsius + KELVIN)
        wind.append(speed)
    if len(air) not in HOURS:
        what = f"the weather file has {len(air)} hours"
        reader.record.fault(Spot(name, 1), UNREADABLE, what, "a year has 8760 hours, or 8784")
        return None
    return Weather(name, tuple(air), tuple(wind))
