"""What is known of the log's newest entries, read once for all pages of a process."""
from dataclasses import replace
from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from teardowns.services import log_tail
from teardowns.services.log_tail import LogTail
from teardowns.services.page_state import page_state
from teardowns.services.write_comment import write_comment
from tests.corrections import public_unit


@pytest.fixture
def units(alice, bob):
    made = [public_unit(alice), public_unit(alice, title="Hurdlop TurboGaN 45", uid=str(uuid4()))]
    write_comment(author=bob, thing=made[0], text="Where was it bought?")
    return made


@pytest.fixture
def moments(units, bob):
    """Of both units: before and after somebody wrote about the second."""
    then = [page_state([unit.pk]) for unit in units]
    write_comment(author=bob, thing=units[1], text="Is it sold here?")
    return [*zip(then, [page_state([unit.pk]) for unit in units], strict=True)]


def queries(ask):
    with CaptureQueriesContext(connection) as captured:
        ask()
    return len(captured)


def test_an_entry_about_one_unit_concerns_that_one(moments):
    tail = LogTail()
    assert [tail.concerns(then, now) for then, now in moments] == [False, True]


def test_each_entry_is_read_once(moments):
    tail = LogTail()
    assert [queries(lambda both=both: tail.concerns(*both)) for both in moments] == [1, 0]


def test_who_looks_further_back_is_answered_as_well(moments, units, bob):
    tail, (first, _) = LogTail(), moments[1]
    later = page_state([units[1].pk])
    write_comment(author=bob, thing=units[0], text="In a shop.")
    now = page_state([units[1].pk])
    assert not tail.concerns(later, now)
    assert tail.concerns(first, now)


def test_in_another_log_everything_concerns(moments):
    (then, now), tail = moments[0], LogTail()
    assert tail.concerns(replace(then, end="f" * 64), now)
    assert tail.concerns(then, replace(now, end="f" * 64))
    assert tail.concerns(now, then) and not tail.concerns(then, now)


def test_a_log_that_went_back_and_on_is_read_anew(moments, units, bob):
    (then, now), tail = moments[0], LogTail()
    tail.concerns(then, now)
    tail._ends[now.sequence] = "f" * 64                  # as an entry that was rolled back
    write_comment(author=bob, thing=units[1], text="Not any more.")
    assert not tail.concerns(then, page_state([units[0].pk]))


def test_beyond_so_many_entries_nobody_looks(moments, monkeypatch):
    monkeypatch.setattr(log_tail, "MOST", 0)
    assert LogTail().concerns(*moments[0])
