"""The lowest versions allowed stand in ``oldest.txt``, with which the tests are run too (DEVELOPERS.md)."""

import re
from pathlib import Path

HERE = Path(__file__).parent
BOUND = re.compile(r'"([A-Za-z0-9_-]+)>=([0-9.]+)"')


def test_the_list_holds_each_lower_bound_once():
    project = (HERE.parents[1] / "pyproject.toml").read_text(encoding="utf-8")
    build, _, named = project.partition("[project]")
    bounds = {f"{name.lower()}=={version}" for name, version in BOUND.findall(named)}
    listed = [
        line for line in (HERE / "oldest.txt").read_text(encoding="ascii").splitlines() if line[0] != "#"
    ]
    assert len(listed) == len(set(listed))
    assert set(listed) == bounds
    assert BOUND.findall(build)


def test_every_package_the_program_runs_with_has_a_lower_bound():
    project = (HERE.parents[1] / "pyproject.toml").read_text(encoding="utf-8")
    needed = re.search(r"\ndependencies = \[(.*?)\]", project, re.DOTALL)[1]
    assert len(BOUND.findall(needed)) == needed.count('"') // 2 > 5
