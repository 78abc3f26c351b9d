"""Ages and time left in words."""
from datetime import UTC, datetime, timedelta

import pytest

from teardowns.presenting.moderation_times import age, is_neglected, moment, span, time_left

NOW = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(("length", "words"), [
    ({"seconds": 59}, "0 min"), ({"minutes": 59}, "59 min"), ({"minutes": 60}, "1 h"),
    ({"hours": 47, "minutes": 59}, "47 h"), ({"hours": 48}, "2 days"), ({"days": 14}, "14 days"),
    ({"minutes": -5}, "0 min")])
def test_the_largest_unit_that_says_enough(length, words):
    assert span(timedelta(**length)) == words


def test_nothing_has_no_age():
    assert age(None, NOW) == "none" and moment(None) == ""


def test_time_left_turns_into_time_overdue_on_the_minute():
    assert time_left(NOW + timedelta(hours=3), NOW) == "3 h left"
    assert time_left(NOW, NOW) == "0 min overdue"
    assert time_left(NOW - timedelta(days=3), NOW) == "3 days overdue"


@pytest.mark.parametrize(("owner", "hours", "neglected"), [
    (None, 72, False), (None, 72.1, True), ("", 100, True), ("mona", 100, False)])
def test_after_72_hours_without_an_owner_it_is_neglected(owner, hours, neglected):
    assert is_neglected(owner, NOW - timedelta(hours=hours), NOW) is neglected
