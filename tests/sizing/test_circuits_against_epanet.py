"""Random project files against EPANET 2.2 (through wntr): nested groups, links, check valves, units, valves.

Water at one temperature. EPANET has Swamee-Jain's friction factor above Re 4000, up to 3 % from Colebrook's
root near Re 4000 and some per mille beyond 1e4; flows have half of that at most. So every flow is compared to
1 % of the largest, and with EPANET's friction put in place of ours to 1 part in 200 even of small ones.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest

from dossier.physics import network_laws
from dossier.sizing.circuit import circuit
from dossier.sizing.coolant import coolant_study
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.ring import ring_study
from tests.written_boat import as_text, in_full

HERE = Path(__file__).parent
DRAWN = 24
"""Random circuits that are compared."""


def _module(path):
    if path.stem not in sys.modules:
        spec = spec_from_file_location(path.stem, path)
        sys.modules[path.stem] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[path.stem])
    return sys.modules[path.stem]


rings = _module(HERE / "random_rings.py")
boat = _module(HERE.parent / "ring_boat.py")
oracle = _module(HERE.parent / "physics" / "epanet_oracle.py")
against = _module(HERE.parent / "physics" / "test_network_against_epanet.py")


def project_of(drawn):
    return in_full(as_text(rings.as_project(drawn)))


def ring_of(project):
    graph = circuit(project)
    return ring_study(project, graph, heat_loss(project), coolant_study(project, graph))


def flows_of_epanet(drawn, density, viscosity):
    text, tags = rings.as_epanet(drawn, density, viscosity)
    with oracle.Epanet(text) as epanet:
        epanet.toolkit.ENopenH()
        epanet.solve()
        flows = epanet.flows(tags)
        epanet.toolkit.ENcloseH()
    return dict(zip(tags, flows.tolist(), strict=True))


def compared(ring, theirs):
    """Flows of both, in one order (m³/s)."""
    edges = ring.operations["heating"].flows.edges
    tags = [tag for tag in theirs if tag in edges]
    assert len(tags) == len(theirs)
    return np.array([float(edges[tag].flow) for tag in tags]), np.array([theirs[tag] for tag in tags])


@pytest.mark.parametrize("seed", range(DRAWN))
def test_project_file_has_the_flows_of_epanet(seed, monkeypatch):
    drawn = rings.Drawing(seed).circuit()
    project = project_of(drawn)
    ring = ring_of(project)
    outcome = ring.operations["heating"].outcome
    theirs = flows_of_epanet(drawn, float(outcome.density[0]), float(outcome.viscosity[0]))
    ours, wanted = compared(ring, theirs)
    largest = np.abs(wanted).max()
    assert np.abs(ours - wanted).max() < 0.01 * largest

    monkeypatch.setattr(network_laws, "friction", against.friction_of_epanet)
    same, wanted = compared(ring_of(project), theirs)
    size = np.maximum(np.abs(wanted), 0.05 * largest)
    assert (np.abs(same - wanted) / size).max() < 0.005


def test_the_drawn_circuits_are_not_all_alike():
    """Nested groups, links, check valves: each stands in a good share of the files."""
    drawn = [rings.Drawing(seed).circuit() for seed in range(DRAWN)]
    nested = sum(any(_depth(item) > 1 for item in each.ring) for each in drawn)
    assert nested > DRAWN / 3
    assert sum(bool(each.links) for each in drawn) > DRAWN / 3
    assert sum(any(tag[0] == "C" for tag in each.components) for each in drawn) > DRAWN / 3
    assert max(len(each.components) for each in drawn) > 60


def _depth(item):
    if isinstance(item, rings.Part):
        return 0
    return 1 + max(_depth(part) for parts in item.branches.values() for part in parts)
