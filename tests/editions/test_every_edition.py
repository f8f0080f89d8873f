"""Each edition of some demonstration project: no page shows what no page may show.

``every_edition.py`` goes through all demos, papers and units.
"""

import pytest

from tests.editions.every_edition import EDITIONS, audited

CASES = [
    ("puddle_wren/puddle_wren.yaml", "full", "A4", "metric"),
    ("puddle_wren/puddle_wren.yaml", "survey", "letter", "imperial"),
    ("starter/boat.yaml", "aboard", "A5", "metric"),
    ("puddle_wren/puddle_wren.yaml", "yard", "A4", "metric"),
    ("lantern_auk/lantern_auk.yaml", "measure", "letter", "metric"),
    ("puddle_wren/puddle_wren.yaml", "proof", "A4", "imperial"),
]


def test_each_edition_is_among_the_cases():
    assert {edition for _, edition, _, _ in CASES} == set(EDITIONS)


@pytest.mark.parametrize(("demo", "edition", "paper", "units"), CASES)
def test_pages_bear_nothing_they_may_not(demo, edition, paper, units, tmp_path):
    assert audited(demo, edition, paper, units, tmp_path) == []
