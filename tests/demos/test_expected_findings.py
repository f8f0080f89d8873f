"""Each demonstration boat shows what it was made to show."""

import pytest

from tests.demonstrations import BOATS, assessed
from tests.demos.expected import rows

PLANTED = rows("expected_findings.csv")


@pytest.mark.parametrize("row", PLANTED, ids=lambda row: f"{row['demo']}-{row['check']}")
def test_finding_is_as_planted(row):
    (finding,) = [one for one in assessed(row["demo"]).findings if one.check == row["check"]]
    assert finding.status.value == row["result"]


@pytest.mark.parametrize(
    ("boat", "status"),
    [
        ("lantern_auk", "for construction"),
        ("northern_quill", "as built"),
        ("barley_moth_a", "draft"),
        ("barley_moth_b", "as built"),
        ("puddle_wren", "draft"),
    ],
)
def test_document_bears_the_status_that_its_data_allow(boat, status):
    assert assessed(boat).status.status == status


def test_every_boat_has_expectations():
    assert {row["demo"] for row in PLANTED} == set(BOATS) - {"starter"}
