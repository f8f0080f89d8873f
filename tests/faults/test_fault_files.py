"""Bad files that say in comments what is wrong with them.

``area: 6.4  # fault 13: area needs a unit`` claims a fault in this line, at column 13, that begins with these
words; ``| fault 20: …`` adds another, ``doubt`` claims a warning. All that is claimed must be told, and
nothing else.
"""

import re
from pathlib import Path

import pytest

from dossier.notation import ProjectFaults
from dossier.project import load

FILES = sorted(Path(__file__).parent.glob("*.yaml"))
CLAIM = re.compile(r"(fault|doubt) (\d+): (.+)")


def claims(path):
    """What a file says of itself: kind, line, column, words."""
    found = set()
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        for part in line.partition("  # ")[2].split(" | "):
            claim = CLAIM.fullmatch(part.strip())
            if claim:
                found.add((claim[1], number, int(claim[2]), claim[3]))
    return found


def told(path):
    """What the reader says: kind, line, column, and the whole message."""
    try:
        project = load(path)
    except ProjectFaults as error:
        return [
            ("fault", fault.line, fault.column, f"{fault.what}; {fault.instead}") for fault in error.faults
        ]
    return [
        ("doubt", doubt.line, doubt.column, f"{doubt.what}; {doubt.instead}") for doubt in project.warnings
    ]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_all_that_a_bad_file_claims_is_told_and_nothing_else(path):
    claimed, said = claims(path), told(path)
    for kind, line, column, message in said:
        match = {
            claim for claim in claimed if claim[:3] == (kind, line, column) and message.startswith(claim[3])
        }
        assert match, f"told, not claimed: {kind} {line}:{column}: {message}"
        claimed -= match
    assert not claimed, "claimed, not told"


def test_there_are_bad_files():
    assert len(FILES) > 8
    assert all(claims(path) for path in FILES)
