"""What a check asks for in a word or two: known for every check without a figure, and short."""

import pytest

from dossier.data.asked import asked_of
from dossier.data.catalogue import CheckKind, catalogue
from dossier.data.tables import rows

LOOKED_AT = {CheckKind.PRESENCE, CheckKind.GEOMETRY, CheckKind.RECORD}
LONGEST = 24
"""Characters for a narrow column: common practice, no source."""


def test_every_check_without_a_figure_says_what_it_asks_for():
    listed = [row["check"] for row in rows("asked")]
    assert len(listed) == len(set(listed))
    assert set(listed) <= set(catalogue())
    without = {c for c, row in catalogue().items() if row.kind in LOOKED_AT and row.limit is None}
    assert without <= set(listed)


@pytest.mark.parametrize("row", rows("asked"), ids=lambda row: row["check"])
def test_it_is_short(row):
    assert 0 < len(row["asked"]) <= LONGEST
    assert asked_of(row["check"]) == row["asked"]
