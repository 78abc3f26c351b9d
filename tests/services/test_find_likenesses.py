"""Pairs that look alike are kept as candidates, and joined by nobody."""
import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from teardowns.models import BoardFamilyMember, CandidateState, Likeness, Lookalike
from teardowns.services.find_likenesses import find_likeness, find_likenesses
from teardowns.services.index_likeness import index_likeness
from tests.library import family as opened
from tests.likenesses import board, strangers
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def pair(alice):
    made = [board(alice, "One"), board(alice, "Two")]
    index_likeness([unit.pk for unit in (*made, *strangers(alice))])
    return made


def alike(unit):
    return [row[0] for row in Likeness.objects.get(unit=unit).alike]


def test_a_pair_is_kept_once_and_told_on_both_sides(pair):
    assert find_likenesses() == 7
    kept = Lookalike.objects.get()
    assert (kept.first, kept.second) == tuple(pair)
    assert alike(pair[0]) == [pair[1].pk] and alike(pair[1]) == [pair[0].pk]
    assert find_likenesses() == 0


def test_a_weaker_likeness_is_for_moderators_alone(pair, monkeypatch):
    monkeypatch.setattr("teardowns.services.find_likenesses.SHOWN", 0.99)
    find_likenesses()
    assert Lookalike.objects.count() == 1 and alike(pair[0]) == [] == alike(pair[1])


def test_nobody_joins_a_family_by_it(pair):
    find_likenesses()
    assert not BoardFamilyMember.objects.exists()


def test_it_keeps_what_speaks_for_it_from_the_older_record(alice, pair):
    pair[1].components.filter(role="core").update(marking="ee 16")
    published(pair[1])
    index_likeness([pair[1].pk])
    find_likeness(pair[1].pk)
    kept = {row[0]: row for row in Lookalike.objects.get().speaks_for}
    assert kept["marking/core"][1:3] == ["EE16", "ee 16"]


def test_two_boards_that_a_moderator_told_apart_are_not_proposed_again(pair, mona):
    find_likenesses()
    Lookalike.objects.update(state=CandidateState.APART, decided_by=mona, reason="Two layouts.",
                             decided_at=timezone.now())
    Likeness.objects.update(is_new=True, alike=[])
    find_likenesses()
    assert Lookalike.objects.get().state == CandidateState.APART
    assert alike(pair[0]) == []


def test_a_family_that_was_opened_for_a_pair_stays_with_it(pair, mona):
    find_likenesses()
    Lookalike.objects.update(family=opened(mona))
    published(pair[1])
    find_likenesses()
    assert Lookalike.objects.get().family is not None


def test_a_pair_that_is_alike_no_more_is_dropped(pair):
    find_likenesses()
    pair[1].components.all().delete()
    published(pair[1])
    find_likenesses()
    assert not Lookalike.objects.exists()


def test_it_goes_on_where_it_stopped(pair):
    assert [find_likenesses(most=4), find_likenesses(most=4), find_likenesses(most=4)] == [4, 3, 0]


def test_units_are_locked_before_what_is_said_of_them(pair):
    """As a publication does: the other way round, each would wait for the other."""
    with CaptureQueriesContext(connection) as asked:
        find_likeness(pair[0].pk)
    tables = [re.search(r'FROM "teardowns_(\w+)"', one["sql"]) for one in asked
              if "ORDER BY" in one["sql"] and "JOIN" not in one["sql"]]
    names = [found[1] for found in tables if found]
    assert "unit" in names and names.index("unit") < len(names) - 1 - names[::-1].index("likeness")
