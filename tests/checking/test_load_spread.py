"""The source against the load where the assumptions are off (common practice, no source)."""

import pytest
from scipy import stats

from dossier.checking.heat import load_spread
from dossier.checking.run import limit_of
from dossier.project import load
from dossier.sizing.study import study
from tests.demonstrations import read

CABIN = """
format: 1
defaults: {{basis: measured}}
conditions: {{outside_air: -10 degC}}
zones:
  - {{id: saloon, target: 20 degC, volume: 20 m3, air_changes: 1 1/h, people: 0, sections:
     [{{name: Shell, u_value: {{is: 2 W/m2K, basis: assumed, spread: [1.6 W/m2K, 2.8 W/m2K]}},
       area: 30 m2, faces: air}}]}}
{parts}
"""
P90 = 900 * stats.triang(0.4 / 1.2, 1.6, 1.2).ppf(0.9) + 0.34 * 20 * 30
"""Load of the cabin that only one sample in ten exceeds (W): U·30 m²·30 K and 20 m³ of air each hour."""


def finding(folder, parts):
    (folder / "boat.yaml").write_text(CABIN.format(parts=parts), encoding="utf-8")
    found = study(load(folder / "boat.yaml"))
    return load_spread(found, limit_of(found, "heat.load_spread"))


def burner(watts):
    return f"components: {{B1: {{kind: burner, output: {{max: {watts:.1f} W}}}}}}"


@pytest.mark.parametrize(("part", "status"), [(1.01, "met"), (0.99, "not met")])
def test_the_source_covers_nine_loads_in_ten(tmp_path, part, status):
    found = finding(tmp_path, burner(part * P90))
    assert found.status.value == status
    assert found.found == pytest.approx(P90, rel=1e-3)
    assert found.margin == pytest.approx((part - 1) * P90, abs=1e-3 * P90)
    assert "zones.saloon.sections.Shell.u_value" in found.remark


def test_a_source_may_cover_the_load_and_yet_not_its_spread(tmp_path):
    nominal = 2 * 900 + 0.34 * 20 * 30
    assert nominal < 0.95 * P90
    assert finding(tmp_path, burner(1.01 * nominal)).status.value == "not met"


def test_pipes_outside_the_rooms_take_their_part_of_the_source():
    project = read("starter")
    found = study(project)
    finding = load_spread(found, limit_of(found, "heat.load_spread"))
    assert finding.bound == pytest.approx(5000 - float(found.ring.design.heat.outside), rel=1e-6)


def test_without_burner_or_load_it_is_not_assessed(tmp_path):
    assert finding(tmp_path, "").missing == ("components.burner",)
    (tmp_path / "boat.yaml").write_text(f"format: 1\n{burner(5000)}\n", encoding="utf-8")
    found = study(load(tmp_path / "boat.yaml"))
    assert load_spread(found, limit_of(found, "heat.load_spread")).status.value == "not assessed"
