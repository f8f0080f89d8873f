"""A row of the catalogue and a function of its name are one check."""

import inspect

import pytest

from dossier.checking.run import AFTER_ALL_OTHERS, written_checks
from dossier.data.catalogue import catalogue

CHECKS = written_checks()


def test_every_check_of_the_catalogue_is_written_and_no_other():
    assert list(CHECKS) == list(catalogue())


@pytest.mark.parametrize("name", sorted(CHECKS))
def test_a_check_takes_the_study_and_its_limit_and_says_why_it_matters(name):
    parameters = list(inspect.signature(CHECKS[name]).parameters)
    asked = ["study", "limit", "findings"] if name in AFTER_ALL_OTHERS else ["study", "limit"]
    assert parameters == asked
    reason = inspect.getdoc(CHECKS[name]) or ""
    assert reason.endswith(".")
    assert len(reason.split()) > 4
