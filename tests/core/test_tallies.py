"""Reads that are let through on a process's word: few writes, and no more than the bucket holds."""
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from core import buckets, tallies
from core.buckets import MINUTE, left_of
from core.tallies import Tallies

pytestmark = pytest.mark.django_db
NOW = 1_790_000_000.0
HELD = 100          # a twentieth, 5, may be owed; below a fifth, 20, nothing


class Clock:
    now = NOW

    def __call__(self):
        return self.now


@pytest.fixture
def clock(monkeypatch):
    clock = Clock()
    monkeypatch.setattr(buckets, "time", clock)
    monkeypatch.setattr(tallies, "time", clock)
    return clock


def granted(process, times, amount=HELD, owner="7"):
    return sum(process.take("reads", owner, amount, MINUTE)[0] == 0 for _ in range(times))


def left(amount=HELD):
    return left_of("reads", "7", amount, MINUTE, NOW)


def test_most_of_them_write_nothing_and_each_says_what_is_left(clock):
    process = Tallies(clock)
    with CaptureQueriesContext(connection) as captured:
        said = [process.take("reads", "7", HELD, MINUTE) for _ in range(13)]
    assert said == [(0, each) for each in range(99, 86, -1)]
    writes = [each["sql"] for each in captured if each["sql"].startswith(("UPDATE", "INSERT"))]
    assert len(writes) == 5                      # the first: two tries and a row; then each sixth
    assert left() == 87


def test_the_bucket_holds_for_one_process_and_for_four(clock):
    assert granted(Tallies(clock), 150) == HELD
    four = [Tallies(clock) for _ in range(4)]
    assert sum(granted(one, 1, owner="8") for _ in range(50) for one in four) == HELD


def test_a_small_bucket_is_asked_each_time(clock):
    process = Tallies(clock)
    assert granted(process, 1, amount=19) == 1 and left(19) == 18
    assert granted(process, 25, amount=19) == 18


def test_what_is_owed_is_taken_with_the_next_one(clock):
    process = Tallies(clock)
    granted(process, 4)
    assert left() == 99
    clock.now += tallies.LONGEST
    granted(process, 1)
    # Five in all; in that second 100/60 came back, and a bucket that held 99 has room for 1 of it.
    assert left() == pytest.approx(100 - 4)


def test_what_came_back_meanwhile_is_owed_no_more(clock):
    process = Tallies(clock)
    granted(process, 4)
    clock.now += MINUTE
    assert process.take("reads", "7", HELD, MINUTE) == (0, 99)


def test_refused_it_says_how_long_to_wait(clock):
    process = Tallies(clock)
    granted(process, HELD)
    # 100 a minute is one in 0.6 s; a whole second is the least that is said.
    assert process.take("reads", "7", HELD, MINUTE) == (1, 0)


def test_who_asked_longest_ago_is_forgotten(clock, monkeypatch):
    monkeypatch.setattr(tallies, "MOST_OWNERS", 1)
    process = Tallies(clock)
    for owner in "78":
        granted(process, 1, owner=owner)
    assert [key for _, key in process._tallies] == ["8"]
