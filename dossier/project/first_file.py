"""Writes a first project file out of some answers; what nobody answered is a guess with its source.

``read_answer(question, text)`` checks one answer; ``first_project(answers, date)`` gives the file's text.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from string import Template
from typing import Any

from dossier.data.first_file import Guess, Question, guess, questions, template
from dossier.notation import DossierError, q
from dossier.notation.records import dataclass
from dossier.project.editing import quoted
from dossier.project.figures import Misread
from dossier.project.model.entry import Figure
from dossier.project.nearest import nearest
from dossier.project.quantities import Field, number

FILE = "boat.yaml"
MOST_CABINS = 20
SIDE_FOR_A_WINDOW = 1.5
"""Length of side (m) for each window that is guessed."""
FIELDS = {
    "length": Field("length", q("L", "m", "length", low=2, high=200)),
    "power": Field("output", q("Φ", "W", "output", low=300, high=1e6)),
    "volume": Field("tank", q("V", "m3", "tank", low=0.001, high=100)),
    "measure": Field("a measure", q("l", "m", "measure of a cabin", low=0.2, high=60)),
    "temperature": Field("outside air", q("θ", "K", "outside air", low=203, high=313), Figure.TEMPERATURE),
    "voltage": Field("system", q("U", "V", "system", low=6, high=60)),
    "charge": Field("battery", q("Q", "C", "battery", low=3600, high=3.6e8)),
}
_ROOM = re.compile(r"(?P<name>.*?[^\W\d_][^\d]*?)[\s,:]+(?P<measures>[0-9½¼¾.].*)")


class BadAnswer(DossierError):
    """An answer that cannot be read; the message says what would be right."""


@dataclass(frozen=True)
class Cabin:
    """A cabin as it was told."""

    name: str
    long: str
    wide: str
    high: str


def read_answer(question: Question, text: str) -> Any:
    """An answer as it goes into the file; raises BadAnswer."""
    said = " ".join(text.split()) or question.otherwise
    readers = {
        "text": _text,
        "choice": _choice,
        "figure": _figure,
        "rooms": _rooms,
        "climate": _climate,
        "battery": _battery,
    }
    return readers[question.kind](question, text if question.kind == "rooms" and text.strip() else said)


def _text(_question: Question, said: str) -> str:
    return quoted(said[:80])


def _choice(question: Question, said: str) -> str:
    word = said.casefold()
    if word in question.choices:
        return word
    near = nearest(word, question.choices)
    raise BadAnswer(f"{said!r} is none of {', '.join(question.choices)}" + (f": {near}?" if near else ""))


def _figure(question: Question, said: str) -> str:
    return _measured(said, question.unit) if said else ""


def _measured(said: str, unit: str) -> str:
    """A figure that can be read as a quantity, as it was written."""
    try:
        number(said, FIELDS[unit])
    except Misread as error:
        raise BadAnswer(f"{error.what}; {error.instead}" if error.instead else error.what) from None
    return quoted(said)


def _rooms(_question: Question, said: str) -> tuple[Cabin, ...]:
    found: dict[str, Cabin] = {}
    for line in filter(None, (part.strip() for part in re.split(r"[\n;]", said))):
        room = _ROOM.fullmatch(line)
        measures = re.split(r"\s+x\s+|\s*×\s*", room["measures"]) if room else []
        if room is None or len(measures) != len(("long", "wide", "high")):
            raise BadAnswer(f"{line!r} is no cabin with three measures; write saloon 4.4 m x 3.2 m x 1.95 m")
        name = re.sub(r"\W+", "_", room["name"].strip().casefold()).strip("_")
        if name in found:
            raise BadAnswer(f"two cabins are called {name}; give each a name of its own")
        found[name] = Cabin(name, *(_measured(measure, "measure") for measure in measures))
    if not 0 < len(found) <= MOST_CABINS:
        raise BadAnswer(f"write one to {MOST_CABINS} cabins, each on a line of its own")
    return tuple(found.values())


def _climate(question: Question, said: str) -> str:
    known = guess("climate", said.casefold())
    if known is not None:
        return _guessed(known)
    if said[:1].isalpha():
        return _choice(question, said)
    return _measured(said, "temperature")


def _battery(_question: Question, said: str) -> tuple[str, str]:
    parts = [part.strip() for part in said.replace(" and ", ",").split(",") if part.strip()]
    if len(parts) == 1:
        parts = re.split(r"(?<=[vV])\s+", parts[0])
    if len(parts) != len(("system", "battery")):
        raise BadAnswer("write the voltage and the charge: 12 V, 200 Ah")
    return _measured(parts[0], "voltage"), _measured(parts[1], "charge")


def _guessed(found: Guess) -> str:
    """A guess in the long form of a value, with its basis, spread and source."""
    spread = f", spread: {found.spread}" if found.spread else ""
    return f"{{is: {found.value}, basis: assumed{spread}, note: {quoted(f'guess: {found.source}')}}}"


def _of(name: str, of: str = "") -> Guess:
    found = guess(name, of)
    if found is None:
        raise KeyError(f"no guess of {name} for {of!r}")
    return found


def first_project(answers: Mapping[str, Any], date: str) -> str:
    """Text of the file; ``answers`` by the names of the questions, as ``read_answer`` gives them."""
    told: dict[str, Any] = {
        question.name: answers[question.name] if question.name in answers else read_answer(question, "")
        for question in questions()
    }
    hull, thick = told["hull"], guess("insulation", told["insulation"])
    frames = guess("frames", hull)
    material = _of("insulation_material", hull).value
    system, battery = told["battery"]
    return Template(template("first_project")).substitute(
        boat=told["boat"].strip('"'),
        boat_written=told["boat"],
        type_written=told["type"],
        file=FILE,
        date=date,
        hull=hull,
        length=told["length"],
        outside=told["climate"],
        sea=_guessed(_of("sea")),
        plate=_of("plate", hull).value,
        deck_plate=_of("deck_plate", hull).value,
        plate_source=_of("plate", hull).source,
        deck_source=_of("deck_plate", hull).source,
        bulkhead_source=_of("bulkhead").source,
        insulation=f", insulation: {material} {thick.value}" if thick else "",
        frames=f", frames: {frames.value}" if frames and thick else "",
        lining=_of("lining").value,
        sole=_of("sole").value,
        bulkhead=_of("bulkhead").value,
        zones="".join(_zones(told["cabins"], told["panes"])),
        components=_components(told["burner"]),
        exhaust=_guessed(_of("exhaust")),
        tank=told["tank"],
        system=system,
        battery=battery,
    )


def _zones(cabins: Sequence[Cabin], panes: str) -> Iterator[str]:
    for place, cabin in enumerate(cabins):
        ends = ["aft: air"] if place == 0 else []
        ends.append("fore: air" if place == len(cabins) - 1 else f"fore: {cabins[place + 1].name}")
        count = 2 * max(1, ceil(number(cabin.long, FIELDS["measure"]).amount / SIDE_FOR_A_WINDOW) - 1)
        window = f"{count} x {_of('window').value} {panes} {_of('pane').value}"
        yield Template(template("first_zone")).substitute(
            id=cabin.name,
            target=_guessed(_of("target")),
            long=cabin.long,
            wide=cabin.wide,
            high=cabin.high,
            under_water=_guessed(_of("under_water")),
            ends="".join(f"    {end}\n" for end in ends),
            windows=f'"{window}"',
            window_source=_of("window").source,
        )


def _components(burner: str) -> str:
    if not burner:
        return "# components: no burner yet; dossier check says how much heat she needs\n"
    return f"components:\n  B1: {{kind: burner, output: {{max: {burner}}}}}\n"
