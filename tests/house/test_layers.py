"""Imports point downward only, and `check` stays light."""

from pathlib import Path

import pytest
from importlinter.cli import lint_imports

ROOT = Path(__file__).parents[2]


@pytest.mark.filterwarnings("ignore")
def test_imports_point_downward(monkeypatch):
    monkeypatch.chdir(ROOT)
    assert lint_imports(config_filename=str(ROOT / "pyproject.toml"), no_cache=True) == 0
