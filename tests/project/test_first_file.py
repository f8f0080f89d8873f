"""A first project file out of answers: it can be read whatever was answered, and every guess says so."""

from itertools import product

import pytest

from dossier import assess, load
from dossier.data.first_file import questions
from dossier.notation import Basis
from dossier.project.first_file import BadAnswer, first_project, read_answer

ASKED = {question.name: question for question in questions()}
HULLS, INSULATIONS, PANES = (ASKED[name].choices for name in ("hull", "insulation", "panes"))


@pytest.fixture
def project(tmp_path):
    def read(**answers):
        told = {name: read_answer(ASKED[name], text) for name, text in answers.items()}
        file = tmp_path / "boat.yaml"
        file.write_text(first_project(told, "2026-11-25"), encoding="utf-8")
        return load(file)

    return read


@pytest.mark.parametrize(("hull", "insulation", "panes"), list(product(HULLS, INSULATIONS, PANES)))
def test_every_answer_gives_a_file_without_fault_or_doubt(project, hull, insulation, panes):
    found = project(hull=hull, insulation=insulation, panes=panes)
    assert found.warnings == ()
    assert found.build_ups.keys() == {"hull", "deck", "sole", "bulkhead"}


def test_more_insulation_loses_less(project):
    loads = [
        float(assess(project(hull="steel", insulation=word)).results["heat_loss.total"].value)
        for word in ("none", "thin", "ordinary", "thick")
    ]
    assert loads == sorted(loads, reverse=True)
    assert len(set(loads)) == len(loads)


def test_answers_stand_in_the_file_and_guesses_are_marked_with_their_source(project):
    found = project(
        boat="Søren's “Gös” # 1",
        cabins="saloon 14 ft 5 in x 3.2 m x 6 ft 5 in\nfore cabin 2 m x 2 m x 1.9 m",
        climate="-11 degC",
        burner="17000 BTU/h",
        battery="24 V 400 Ah",
        tank="50 gal",
    )
    numbers = found.numbers()
    assert found.vessel.name == "Søren's “Gös” # 1"
    assert [zone.id for zone in found.zones] == ["saloon", "fore_cabin"]
    assert float(numbers["zones.saloon.room.long"]) == pytest.approx(4.3942)
    assert float(numbers["conditions.outside_air"]) == pytest.approx(262.15)
    assert float(numbers["components.B1.output.max"]) == pytest.approx(17000 * 1055.05585262 / 3600)
    assert float(numbers["electrics.battery"]) == pytest.approx(400 * 3600)
    assert all(number.origin.basis is Basis.ASSUMED for number in numbers.values())
    guessed = [number.origin for number in numbers.values() if number.origin.note.startswith("guess: ")]
    assert {"conditions.sea", "exhaust.length", "zones.saloon.target"} <= {line.key for line in guessed}
    assert all("source" in line.note and line.spread is not None for line in guessed)


def test_inner_walls_are_entered_once(project):
    found = project(cabins="a 2 m x 2 m x 2 m; b 2 m x 2 m x 2 m; c 2 m x 2 m x 2 m")
    ends = [(zone.aft, zone.fore) for zone in found.zones]
    assert ends == [("air", "b"), (None, "c"), (None, "air")]
    assert found.warnings == ()


@pytest.mark.parametrize(
    ("name", "text", "why"),
    [
        ("hull", "stell", "steel"),
        ("length", "11,2 m", "11.2"),
        ("length", "11", "needs a unit"),
        ("cabins", "saloon 4 m x 3 m", "three measures"),
        ("cabins", "saloon 4 m x 3 m x 2 kg", "length"),
        ("cabins", "a 2 m x 2 m x 2 m; a 2 m x 2 m x 2 m", "two cabins"),
        ("climate", "freezing", "mild, cool, cold, hard"),
        ("climate", "-10 K", "outside air cannot be"),
        ("battery", "200 Ah", "12 V, 200 Ah"),
        ("burner", "5", "kW"),
        ("boat", "Heron\u202e", "invisible"),
    ],
)
def test_an_answer_that_cannot_be_read_says_what_would_be_right(name, text, why):
    from dossier.notation import DossierError

    with pytest.raises((BadAnswer, DossierError), match=why):
        read_answer(ASKED[name], text)
