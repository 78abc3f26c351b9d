"""Taking a record out of public view: by whom, with what said, and what stays."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Correction, Notice, Statement
from teardowns.services.state_reasons import NoReason
from teardowns.services.withdraw_unit import withdraw_unit
from teardowns.workflow import NotNow
from tests.corrections import corrected, public_unit, write

WHY = {"code": "not_this_unit", "facts": "Photo 3 shows another specimen."}


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def withdraw(unit, by, **why):
    statement = withdraw_unit(by=by, unit_pk=unit.pk, **WHY | why)
    unit.refresh_from_db()
    return statement


def test_its_contributor_retracts_it_and_it_stays_behind_a_tombstone(unit, alice):
    withdraw(unit, alice)
    newest = unit.publications.get()
    assert unit.status == "withdrawn" and not unit.is_public
    assert (newest.withdrawal_code, newest.withdrawal_reason) == tuple(WHY.values())
    assert newest.withdrawn_at and newest.document["claims"]


def test_a_moderator_withdraws_it_and_its_contributor_is_told(unit, alice, mona):
    statement = withdraw(unit, mona)
    assert (statement.by, statement.addressee) == (mona, alice)
    assert Notice.objects.get(person=alice).words == WHY["facts"]


def test_it_is_one_statement_and_one_entry_that_says_by_which_side(unit, alice):
    withdraw(unit, alice)
    entry, = Entry.objects.filter(action="work_withdraw")
    assert Statement.objects.count() == 1 and entry.detail["by_contributor"] is True
    assert entry.detail["statement_digest"] == Statement.objects.get().digest


@pytest.mark.parametrize("name", ["bob", "rita", "ada"])
def test_nobody_else_may(unit, name, request):
    with pytest.raises(Http404):
        withdraw(unit, request.getfixturevalue(name))


def test_a_moderator_does_not_withdraw_what_they_correct(unit, mona):
    corrected(unit, mona)
    with pytest.raises(Http404):
        withdraw(unit, mona)


@pytest.mark.parametrize("why", [{"code": ""}, {"code": "whim"}, {"facts": "  "}])
def test_it_takes_a_reason_of_the_list_and_facts(unit, alice, why):
    with pytest.raises(NoReason):
        withdraw(unit, alice, **why)
    unit.refresh_from_db()
    assert unit.is_public


def test_not_twice(unit, alice):
    withdraw(unit, alice)
    with pytest.raises(NotNow):
        withdraw(unit, alice)


@pytest.mark.parametrize("stage, outcome", [
    ("draft", "discarded"), ("sent_back", "discarded"), ("submitted", "declined"),
    ("in_review", "declined")])
def test_an_open_correction_ends_with_it_and_its_author_keeps_what_was_proposed(
        unit, alice, bob, stage, outcome):
    correction = corrected(unit, bob)
    write(unit)
    Correction.objects.filter(pk=correction.pk).update(status=stage)
    withdraw(unit, alice)
    correction.refresh_from_db()
    assert (correction.status, correction.is_open) == (outcome, False)
    assert correction.proposal["document"] and unit.claims.filter(key="class-2").exists()
    assert Notice.objects.filter(person=bob).count() == 1
