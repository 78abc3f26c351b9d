"""Jobs: thin, in slices, and the same when they run twice."""
from datetime import timedelta

import pytest
from django.contrib.auth import get_user_model
from django.utils import timezone

from teardowns import jobs
from teardowns.models import Assessment, Review, Unit
from teardowns.services.reassess_publications import BEYOND


@pytest.fixture
def three(db):
    alice = get_user_model().objects.create(username="alice")
    return [Unit.objects.create(contributor=alice, title=f"Lamplit L{n}") for n in range(3)]


@pytest.fixture
def queued(monkeypatch):
    calls = []
    monkeypatch.setattr(jobs, "async_task", lambda *call: calls.append(call))
    return calls


def assessed():
    return sorted(Assessment.objects.values_list("unit", flat=True))


def test_named_units_are_assessed_and_missing_ones_left_out(three):
    for _ in range(2):
        jobs.reassess_units([three[0].pk, three[2].pk, 10**6])
    assert assessed() == [three[0].pk, three[2].pk]


def test_all_units_are_assessed_slice_by_slice(three, queued, monkeypatch):
    monkeypatch.setattr(jobs, "SLICE", 2)
    first, second, third = (unit.pk for unit in three)
    jobs.reassess_all()
    assert queued == [("teardowns.jobs.reassess_all", 0, BEYOND)]
    jobs.reassess_all(*queued[0][1:])
    assert assessed() == [first, second]
    assert queued[1:] == [("teardowns.jobs.reassess_all", second, BEYOND)]
    jobs.reassess_all(*queued[1][1:])
    assert assessed() == [first, second, third]
    assert len(queued) == 2


def test_each_worker_has_a_range_of_the_units_of_its_own(three, queued, monkeypatch):
    monkeypatch.setattr(jobs, "workers_at_work", lambda: 2)
    jobs.reassess_all()
    assert queued == [("teardowns.jobs.reassess_all", 0, three[0].pk),
                      ("teardowns.jobs.reassess_all", three[0].pk, BEYOND)]
    for _, *each in queued:
        jobs.reassess_all(*each)
    assert assessed() == [unit.pk for unit in three]
    assert len(queued) == 2


def test_reviews_in_which_nothing_happened_for_a_week_end_once(three, django_user_model):
    rita = django_user_model.objects.create(username="rita", role="reviewer")
    review = Review.objects.create(unit=three[0], reviewer=rita,
                                   active_at=timezone.now() - timedelta(days=8))
    for _ in range(2):
        jobs.lapse_reviews()
    review.refresh_from_db()
    assert review.ending == "lapsed"


def test_the_like_of_new_units_is_looked_for_slice_by_slice(queued, monkeypatch):
    done = iter((jobs.LOOKED_AT, 3))
    monkeypatch.setattr(jobs, "find_due_likenesses", lambda: next(done))
    jobs.find_likenesses()
    jobs.find_likenesses()
    assert queued == [("teardowns.jobs.find_likenesses",)]


def test_sister_boards_are_compared_until_nothing_is_left(queued, monkeypatch):
    done = iter((50, 0))
    monkeypatch.setattr(jobs, "compare_due_sisters", lambda: next(done))
    jobs.compare_sisters()
    jobs.compare_sisters()
    assert queued == [("teardowns.jobs.compare_sisters",)]
