"""Columns of what is public, kept in the process and brought up to the clock."""
import pytest

from teardowns.models import ListedUnit
from teardowns.services.listed_numbers import listed_numbers, titles
from teardowns.services.listing_clock import hold_clock, raise_clock
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def listed(unit):
    published(unit)
    change(unit, mass=0.05)
    return unit


def change(unit, **columns):
    number = raise_clock(hold_clock())
    ListedUnit.objects.filter(pk=unit.pk).update(changed=number, **columns)


def test_before_anything_is_public_there_is_nothing(db):
    assert len(listed_numbers().pks) == 0


def test_a_public_unit_is_a_row_and_what_is_unknown_is_not_zero(listed):
    numbers = listed_numbers()
    at = numbers.place(listed.pk)
    assert numbers["mass"][at] == 0.05
    assert str(numbers["bulk_capacitance"][at]) == "nan"


def test_while_nothing_changes_the_clock_alone_is_asked(listed, django_assert_num_queries):
    before = listed_numbers()
    with django_assert_num_queries(1):
        assert listed_numbers() is before


def test_a_change_and_a_unit_out_of_sight_are_followed(listed, django_assert_num_queries):
    listed_numbers()
    change(listed, mass=0.07)
    with django_assert_num_queries(3):               # the clock twice, what changed once
        assert listed_numbers()["mass"].tolist() == [0.07]
    change(listed, is_listed=False)
    assert listed_numbers().place(listed.pk) is None


def test_titles_are_those_of_public_units(listed):
    assert titles([listed.pk, 10**6]) == {listed.pk: listed.title}
    change(listed, is_listed=False)
    assert titles([listed.pk]) == {}
