"""Each check has one number for life."""

from dossier.data.catalogue import catalogue
from dossier.data.check_numbers import check_numbers, number_of

FIRST = {"exhaust.length": 1, "exhaust.outlet_height": 7, "safety.co_alarm": 33, "document.residual": 175}
"""Numbers given with the first version, typed here so that nobody renumbers: a rule of this dossier."""


def test_every_check_of_the_catalogue_has_a_number_of_its_own():
    assert set(check_numbers()) >= set(catalogue())
    assert len(set(check_numbers().values())) == len(check_numbers())


def test_numbers_are_counted_on_and_none_is_left_out():
    assert sorted(check_numbers().values()) == list(range(1, len(check_numbers()) + 1))


def test_numbers_once_given_stay():
    for check, number in FIRST.items():
        assert number_of(check) == number
