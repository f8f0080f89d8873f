"""The circuit handed to EPANET 2.2 (through wntr): read whole, the same flows found by another solver.

EPANET has Swamee-Jain's friction factor, up to 3 % from Colebrook's root near Re 4000, and one temperature
for all.
"""

import warnings
from importlib import import_module
from pathlib import Path

import numpy as np
import pytest

from dossier.cli import main
from dossier.notation import DossierError
from dossier.physics.network_elements import Pump
from dossier.physics.pump import PumpCurve
from dossier.sizing import epanet_input as module
from dossier.sizing.epanet_input import epanet_input
from tests.demonstrations import studied

PROJECTS = Path(__file__).parents[2] / "projects"
FLOW = 8


@pytest.fixture(scope="module")
def wntr():
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import_module("wntr.epanet.toolkit")
        return import_module("wntr")  # slow to load


@pytest.fixture(scope="module")
def studies():
    return [studied("lantern_auk"), studied("northern_quill")]


def links_in(text):
    for section in text.split("\n["):
        head, *lines = section.strip("[").splitlines()
        if head.rstrip("]") in {"PIPES", "PUMPS", "VALVES"}:
            yield from (line.split()[0] for line in lines if line.strip())


def flows_of_epanet(wntr, text, folder):
    """Flow of every link in m³/s."""
    path = folder / "circuit.inp"
    path.write_text(text, encoding="ascii")
    epanet = wntr.epanet.toolkit.ENepanet(version=2.2)
    epanet.ENopen(str(path), str(path.with_suffix(".rpt")), str(path.with_suffix(".bin")))
    try:
        epanet.ENopenH()
        epanet.ENinitH(0)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            epanet.ENrunH()
        return {
            name: epanet.ENgetlinkvalue(epanet.ENgetlinkindex(name), FLOW) / 1000 for name in links_in(text)
        }
    finally:
        epanet.ENclose()


def test_another_solver_finds_the_flows_of_every_mode(wntr, studies, tmp_path):
    compared = 0
    for study in studies:
        for name, operation in study.ring.operations.items():
            theirs = flows_of_epanet(wntr, epanet_input(study, name), tmp_path)
            ours = {tag: float(edge.flow) for tag, edge in operation.flows.edges.items() if tag in theirs}
            largest = max(abs(flow) for flow in ours.values())
            for tag, flow in ours.items():
                assert abs(theirs[tag] - flow) < 0.03 * largest, f"{name}, {tag}"
            compared += len(ours)
    assert compared > 100


def test_at_one_temperature_both_agree_to_a_hundredth(wntr, studies, tmp_path):
    study = studies[0]
    operation, network = study.ring.design, study.ring.hydraulics.network
    outcome = operation.outcome
    same = network.solve(
        np.full_like(outcome.density, outcome.density.mean()),
        np.full_like(outcome.viscosity, outcome.viscosity.mean()),
        kv=outcome.kv,
        shut=operation.setting.shut,
    )
    theirs = flows_of_epanet(wntr, epanet_input(study), tmp_path)
    for number, run in enumerate(network.runs):
        ours = float(same.mass_flow[number]) / float(outcome.density.mean())
        for element in run.elements:
            assert theirs[element.name] == pytest.approx(ours, rel=0.01), element.name


def test_a_general_reader_takes_the_file_and_runs_it(wntr, tmp_path):
    out = tmp_path / "circuit.inp"
    assert main(["network", str(PROJECTS / "lantern_auk" / "lantern_auk.yaml"), "-o", str(out)]) == 0
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        model = wntr.network.WaterNetworkModel(str(out))
        found = wntr.sim.EpanetSimulator(model).run_sim(file_prefix=str(tmp_path / "run"))
    assert {"P1"} == set(model.pump_name_list)
    assert {"B1", "X1", "V1", "F1"} <= set(model.valve_name_list)
    flows = found.link["flowrate"].iloc[0]
    assert flows["P1"] == pytest.approx(flows["B1"], rel=1e-4)
    branches = sum(flows[tag] for tag in ("V1", "V2", "V3", "V4", "V9"))
    assert branches == pytest.approx(flows["P1"], rel=1e-4)
    assert model.options.hydraulic.headloss == "D-W"


def test_a_slip_in_the_mode_is_answered(studies):
    with pytest.raises(DossierError, match="did you mean 'heating'"):
        epanet_input(studies[0], "heatng")


def test_a_boat_without_a_circuit_says_what_is_missing():
    study = studied("puddle_wren")
    with pytest.raises(DossierError, match="circuit"):
        epanet_input(study)


def test_names_are_ascii_and_unlike_each_other():
    lines = module._Lines()
    names = [lines.name(tag) for tag in ("Pümpe 1", "Pömpe 1", "x" * 60, "x" * 50, "P1", "p1")]
    assert len({name.casefold() for name in names}) == len(names)
    assert all(name.isascii() and len(name) <= 31 and " " not in name for name in names)


def test_a_pump_of_three_points_keeps_its_straight_lines():
    points = list(module._points(Pump("P", PumpCurve((0.0, 2e-4, 4e-4), (4e4, 3e4, 0.0)))))
    assert points[1] == (1e-4, 3.5e4)
    assert len(points) == 4


def test_nothing_in_a_title_is_read_as_a_section():
    assert module._plain('a]\n[END]; "é"') == "a_ _END__ ___"
