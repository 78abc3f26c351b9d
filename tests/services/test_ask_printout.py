"""Asking for a record on paper."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Printout
from teardowns.services import ask_printout as subject
from tests.published import published

pytestmark = pytest.mark.django_db
DIGEST = "ab" * 32


@pytest.fixture
def ask(unit, monkeypatch, django_capture_on_commit_callbacks):
    """Ask; how often it was queued."""
    calls, version = [], published(unit)
    monkeypatch.setattr(subject, "async_task", lambda *call: calls.append(call))

    def asked():
        with django_capture_on_commit_callbacks(execute=True):
            subject.ask_printout(digest=DIGEST, versions=[version])
        return len(calls)
    return asked


def put(**changes):
    Printout.objects.update(**changes)


def test_it_is_queued_once_however_often_it_is_asked_for(ask):
    assert [ask(), ask(), ask()] == [1, 1, 1]


@pytest.mark.parametrize("state", ["making", "made"])
def test_one_that_is_made_or_being_made_is_left_alone(ask, state):
    ask()
    put(state=state, began_at=timezone.now())
    assert ask() == 1


@pytest.mark.parametrize("state", ["failed", "making", "waiting"])
def test_one_that_came_to_nothing_is_begun_again(ask, state):
    ask()
    long_ago = timezone.now() - timedelta(minutes=6)
    put(state=state, began_at=long_ago, asked_at=long_ago)
    assert ask() == 2
    assert Printout.objects.get().state == "waiting"


def test_whoever_waits_is_told_after_a_while_and_not_before(ask):
    ask()
    assert not subject.waits_long(Printout.objects.get())
    put(asked_at=timezone.now() - timedelta(minutes=1))
    assert subject.waits_long(Printout.objects.get())
    assert not subject.seems_stuck(Printout.objects.get())
