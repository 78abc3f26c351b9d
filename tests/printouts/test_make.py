"""The worker's part: once, of what still stands, and told when it came to nothing."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Printout, Status, Unit
from teardowns.printouts import make
from teardowns.printouts.key import printout_key
from teardowns.services.public_versions import public_versions
from teardowns.typesetting.typeset import NotSet
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def asked(unit):
    published(unit)
    versions = public_versions([(unit.pk, None)])
    now = timezone.now()
    return Printout.objects.create(digest=printout_key(versions), versions=[[unit.pk, 1]],
                                   asked_at=now, used_on=now.date())


@pytest.fixture
def typeset(monkeypatch):
    """In place of the typesetter, whose own tests look at what it makes; how often it was asked."""
    calls = []

    def pretend(document, pictures):
        calls.append(document)
        return b"%PDF"
    monkeypatch.setattr(make, "typeset", pretend)
    return calls


def state_of(printout):
    printout.refresh_from_db()
    return printout.state


def test_a_job_that_is_delivered_twice_makes_it_once(asked, typeset):
    make.make_printout(asked.pk)
    make.make_printout(asked.pk)
    assert state_of(asked) == "made" and len(typeset) == 1


def test_it_is_in_the_language_in_which_it_was_asked_for(asked, typeset, unit):
    german = printout_key(public_versions([(unit.pk, None)]), "de")
    assert german != asked.digest
    Printout.objects.filter(pk=asked.pk).update(digest=german, language="de")
    make.make_printout(asked.pk)
    document, = typeset
    assert state_of(asked) == "made" and document["meta"]["language"] == "de"
    assert "Zerlegungsakte" in document["meta"]["title"] and document["meta"]["pages"] == "1 von 1"


def test_a_key_of_another_language_is_not_made(asked, typeset):
    Printout.objects.filter(pk=asked.pk).update(language="de")
    make.make_printout(asked.pk)
    assert state_of(asked) == "failed" and typeset == []


def test_what_was_withdrawn_meanwhile_is_not_made(asked, typeset):
    Unit.objects.update(status=Status.WITHDRAWN)
    make.make_printout(asked.pk)
    assert state_of(asked) == "failed" and typeset == []


def test_what_changed_meanwhile_is_another_document(asked, typeset, unit):
    published(unit)
    make.make_printout(asked.pk)
    assert state_of(asked) == "failed" and typeset == []


def test_what_could_not_be_set_can_be_asked_for_again(asked, monkeypatch):
    def refuse(*args):
        raise NotSet("no letters")
    monkeypatch.setattr(make, "typeset", refuse)
    make.make_printout(asked.pk)
    assert state_of(asked) == "failed"


def test_a_run_of_a_worker_that_is_gone_is_taken_over_and_one_at_work_is_not(asked, typeset):
    Printout.objects.update(state="making", began_at=timezone.now())
    make.make_printout(asked.pk)
    assert typeset == []
    Printout.objects.update(began_at=timezone.now() - timedelta(minutes=3))
    make.make_printout(asked.pk)
    assert state_of(asked) == "made"


def test_one_that_is_gone_is_left_alone(db):
    make.make_printout(10**6)
