"""A clock that tells whether a state of the listing ever came to be, and what followed it."""
import pytest
from django.db import transaction

from teardowns.models import ListingClock
from teardowns.services.listing_clock import (
    Mark,
    current_mark,
    hold_clock,
    mark_and_whether_it_follows,
    raise_clock,
)

pytestmark = pytest.mark.django_db


def tick(times=1):
    with transaction.atomic():
        for _ in range(times):
            raise_clock(hold_clock())
    return current_mark()


def test_it_begins_with_nothing():
    assert current_mark() == Mark(0, "") and current_mark().is_beginning


def test_each_change_has_the_next_number_and_a_stamp_of_its_own():
    first, second = tick(), tick()
    assert (first.number, second.number) == (1, 2) and first.stamp != second.stamp


def test_a_state_is_followed_by_what_came_from_it():
    known = tick()
    assert mark_and_whether_it_follows(known) == (known, True)
    now = tick(3)
    assert mark_and_whether_it_follows(known) == (now, True)


def test_a_state_that_was_taken_back_is_followed_by_nothing():
    tick()
    point = transaction.savepoint()
    taken_back = tick()
    transaction.savepoint_rollback(point)
    assert not mark_and_whether_it_follows(taken_back)[1]         # the clock is behind it
    tick()
    assert not mark_and_whether_it_follows(taken_back)[1]         # another change has its number
    tick()
    assert not mark_and_whether_it_follows(taken_back)[1]         # and one came after that


def test_what_lies_too_far_back_is_not_followed(monkeypatch):
    monkeypatch.setattr(ListingClock, "KEPT", 3)
    known = tick()
    assert mark_and_whether_it_follows(known)[0] == known
    tick(2)
    assert mark_and_whether_it_follows(known)[1]
    tick()
    assert not mark_and_whether_it_follows(known)[1]


def test_without_a_known_state_there_is_nothing_to_follow():
    tick()
    assert not mark_and_whether_it_follows(None)[1]
