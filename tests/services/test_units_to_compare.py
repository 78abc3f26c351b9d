"""What the page that helps to choose offers."""
import pytest

from teardowns.services.units_to_compare import units_to_compare
from tests.views.opened import opened

pytestmark = pytest.mark.django_db


def test_without_words_the_newest_come_first_and_the_chosen_are_left_out(alice):
    first, second, third = (opened(alice) for _ in range(3))
    assert [row.pk for row in units_to_compare("", {second.pk})] == [third.pk, first.pk]


def test_words_find_units_and_leave_out_the_chosen(alice):
    first, second = opened(alice), opened(alice)
    assert {row.pk for row in units_to_compare("veltrice", set())} == {first.pk, second.pk}
    assert [row.pk for row in units_to_compare("VQ-45", {first.pk})] == [second.pk]
    assert units_to_compare("nothing-like-this", set()) == []


def test_what_is_not_public_is_not_offered(alice):
    opened(alice, "in_review")
    assert units_to_compare("", set()) == [] and units_to_compare("veltrice", set()) == []


