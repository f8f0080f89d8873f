"""Circuits that cannot work: each is refused at its own line, and told what would be right."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.notation import NotAssessed, ProjectFaults
from tests.written_boat import as_text, in_full


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).parents[1] / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("ring_boat")
RING = boat.changed({})["circuit"]["ring"]
SMALL_PUMP = {"kind": "pump", "curve": [["0 l/min", "5 kPa"], ["5 l/min", "0 kPa"]]}
HOSE = {"size": "hose 10", "length": "1 m"}
BUFFER = {"kind": "buffer", "volume": "5 l"}


def without(tag):
    return [item for item in RING if item != {"unit": tag}]


CASES = {
    "no pump": ({"circuit.ring": without("P1")}, "  ring:", "the circuit has no pump"),
    "two pumps against each other": (
        {
            "components.P2": SMALL_PUMP,
            "components.M3": {"kind": "manifold"},
            "components.M4": {"kind": "manifold"},
            "circuit.ring": [
                {
                    "between": ["M3", "M4"],
                    "branches": {"strong": [{"unit": "P1"}], "weak": [{"unit": "P2"}]},
                },
                *without("P1"),
            ],
        },
        "  heating:",
        "P2 is driven backward by P1",
    ),
    "all valves shut in the design mode": (
        {"modes.heating": {"shut": ["V1", "V2", "V3", "V9"]}},
        "  heating:",
        "P1 pushes against closed valves (V1, V2, V3, V9)",
    ),
    "an emitter without a path": (
        {"components.F9": {"kind": "fan_coil", "zone": "saloon"}},
        "  F9:",
        "no coolant reaches F9",
    ),
    "a curve that rises": (
        {"components.P1.curve": [["0 l/min", "20 kPa"], ["5 l/min", "25 kPa"]]},
        "    curve:",
        "the pressure of the curve rises with the flow",
    ),
    "a loop without resistance": (
        {
            "components.T8": BUFFER,
            "components.T9": BUFFER,
            f"{boat.BRANCH}.bypass": [{"unit": "T8"}],
            f"{boat.BRANCH}.spare": [{"unit": "T9"}],
            "modes": None,
        },
        "      - unit: T8",
        "a loop has no resistance, so its flow has no limit: T8, T9",
    ),
    "a link back to where it leaves": (
        {"circuit.links": [{"from": "V32", "to": "X1", "pipe": HOSE}]},
        "  - from: V32",
        "the link from V32 to X1 leads back to where it leaves",
    ),
    "a mode that sets what is not in the ring": (
        {
            "components.V77": {"kind": "shut_valve", "kv": "3 m3/h"},
            "modes.heating.shut": ["V77"],
        },
        "    shut:",
        "mode heating names V77, which stands nowhere in the circuit",
    ),
    "a valve set to more than it has": (
        {"modes.heating.set.V9": "3 m3/h"},
        "    set:",
        "mode heating sets V9 to 3 m3/h, and it has 2.5 m3/h fully open",
    ),
    "a check valve that is set": (
        {
            "components.V5": {"kind": "check_valve", "kv": "3 m3/h"},
            "circuit.ring": [{"unit": "V5"}, *RING],
            "modes.heating.set.V5": "1 m3/h",
        },
        "    set:",
        "V5 is a check valve and cannot be set",
    ),
    "a three-way valve between two groups": (
        {
            "components.V12": {
                "kind": "three_way_valve",
                "kv": "3 m3/h",
                "setting": "50 degC",
                "ways": ["saloon", "near"],
            },
            "components.V6": {"kind": "bypass_valve", "kv": "1 m3/h"},
            "components.V7": {"kind": "bypass_valve", "kv": "1 m3/h"},
            "components.M3": {"kind": "manifold"},
            "components.M4": {"kind": "manifold"},
            "circuit.ring": [
                {"unit": "V12"},
                {
                    "between": ["M3", "M4"],
                    "branches": {"near": [{"unit": "V6"}], "other": [{"unit": "V7"}]},
                },
                *RING,
            ],
        },
        "    ways:",
        "V12 serves saloon and near, which lie in two groups",
    ),
}


@pytest.mark.parametrize(("changes", "line", "what"), CASES.values(), ids=CASES)
def test_refused_at_its_line(changes, line, what):
    text = as_text(boat.changed(changes))
    with pytest.raises(ProjectFaults) as refused:
        boat.study_of_project(in_full(text)).ring  # noqa: B018 - calculated when asked for
    fault = refused.value.faults[0]
    assert what in fault.what
    assert fault.instead
    assert fault.column > 0
    found = text.splitlines()[fault.line - 1]
    assert found.startswith(line) or text.splitlines()[fault.line - 2].startswith(line)


def test_all_faults_are_told_at_once():
    changes = {**CASES["no pump"][0], **CASES["an emitter without a path"][0]}
    with pytest.raises(ProjectFaults) as refused:
        boat.study_of(changes).ring  # noqa: B018 - calculated when asked for
    assert len(refused.value.faults) == 2


def test_a_pump_beyond_its_curve_leaves_the_mode_without_numbers():
    short = {"components.P1.curve": [["0 l/min", "24 kPa"], ["2 l/min", "22 kPa"]]}
    ring = boat.study_of(short).ring
    assert not ring.operations
    assert "beyond the last point of its curve (2 l/min)" in ring.not_solved["heating"]
    assert ring.not_solved["night"].startswith("waits for the presets of heating")


@pytest.mark.parametrize(
    ("key", "missing"),
    [
        ("components.P1.curve", "components.P1.curve"),
        ("components.V1.kv", "components.V1.kv"),
        ("components.F1.pressure_drop", "components.F1.pressure_drop"),
        ("circuit.coolant.base", "circuit.coolant.base"),
        ("circuit.coolant.share", "circuit.coolant.share"),
    ],
)
def test_what_the_flow_waits_for_is_named(key, missing):
    ring = boat.study_of({key: None}).ring
    assert isinstance(ring, NotAssessed)
    assert missing in ring.needs


def test_a_part_alone_makes_no_ring():
    alone = {"circuit.ring": [{"unit": "P1"}], "circuit.header": None, "modes": None}
    alone |= dict.fromkeys(("components.F1", "components.F2", "components.R3"))
    ring = boat.study_of(alone).ring
    assert isinstance(ring, NotAssessed)
    assert "P1 stands alone" in ring.why
