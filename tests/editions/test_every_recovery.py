"""A dossier gives back its project, and that builds the same bytes.

``every_recovery.py`` goes through all demos and editions.
"""

import pytest

from tests.editions.every_recovery import built_again


@pytest.mark.parametrize(
    ("demo", "edition"), [("puddle_wren/puddle_wren.yaml", "full"), ("starter/boat.yaml", "proof")]
)
def test_a_recovered_project_builds_the_same_bytes(demo, edition):
    assert built_again(demo, edition)
