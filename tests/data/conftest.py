"""Lists the tables must agree with: keys of the project file, names of results, verbs of advice."""

import re
from pathlib import Path

import pytest

HERE = Path(__file__).parent


def listed(name: str) -> set[str]:
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    return {line for line in lines if line and not line.startswith("#")}


KEYS = listed("known_keys.txt")
RESULTS = listed("known_results.txt")


def knows_key(path: str) -> bool:
    """Whether the project file knows the key; what all components know stands without their kind."""
    if path in KEYS:
        return True
    parts = path.split(".")
    return (
        len(parts) == 3
        and parts[0] == "components"
        and {f"components.{parts[1]}", f"components.{parts[2]}"} <= KEYS
    )


def knows_result(name: str) -> bool:
    """Whether a name agrees with one of the patterns of results (capitals stand for anything)."""
    pattern_of = {
        "MODE": "(MODE|heating|cold_start)",
        "SEASON": "(SEASON|winter|summer)",
        "RESULT": r"[\w.]+",
    }
    for known in RESULTS:
        parts = [pattern_of.get(part, re.escape(part)) for part in known.split(".")]
        if re.fullmatch(r"\.".join(parts), name):
            return True
    return False


@pytest.fixture
def is_key():
    """Whether the project file knows a key."""
    return knows_key


@pytest.fixture
def is_result():
    """Whether there is a result of a name."""
    return knows_result


@pytest.fixture
def verbs():
    """Verbs with which an advice may begin."""
    return listed("verbs.txt")
