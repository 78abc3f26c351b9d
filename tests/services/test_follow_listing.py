"""What is made of the listing is made anew or brought up to date when the clock moves."""
import pytest
from django.db import transaction

from teardowns.services.follow_listing import Follower
from teardowns.services.listing_clock import hold_clock, raise_clock

pytestmark = pytest.mark.django_db
TOO_MUCH = 3                     # changes at once


@pytest.fixture
def follower():
    """Of what it was asked for: "all", or how many changes since the state held."""
    def with_changes(made, number):
        steps = hold_clock().number - number
        return (*made, steps) if steps < TOO_MUCH else None

    return Follower(lambda: ("all",), with_changes)


def change(times=1):
    for _ in range(times):
        raise_clock(hold_clock())


def test_changes_are_added_to_what_is_held(follower):
    change()
    assert follower.now() == ("all",)
    change(2)
    assert follower.now() == ("all", 2) == follower.now()


def test_after_too_many_changes_all_is_read(follower):
    change()
    follower.now()
    change(1)
    follower.now()
    change(TOO_MUCH)
    assert follower.now() == ("all",)


def test_what_was_taken_back_is_thrown_away(follower):
    change()
    follower.now()
    point = transaction.savepoint()
    change()
    assert follower.now() == ("all", 1)
    transaction.savepoint_rollback(point)
    assert follower.now() == ("all",)


def test_before_anything_was_listed_nothing_is_held(follower):
    first = follower.now()
    change()
    assert first == follower.now() == ("all",)       # read, not followed from nothing
