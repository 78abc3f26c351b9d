"""Work goes back to its author with remarks item by item, and a statement of reasons."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Decision, ReviewRemark, Statement, Status, Unit
from teardowns.services.decline_correction import decline_correction
from teardowns.services.send_back_unit import send_back_unit
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import EVENTS, STATES, NotNow

pytestmark = pytest.mark.django_db
WHY = {"code": "incomplete", "facts": "The transformer was not opened."}
EVENT = {"send_back": send_back_unit, "decline": decline_correction}


def test_remarks_stand_at_their_items(unit, alice, mona):
    Unit.objects.update(status=Status.IN_REVIEW)
    statement = send_back_unit(moderator=mona, unit_pk=unit.pk, **WHY, remarks=[
        ("measurement/mass", "Weigh it without the cable."), ("", "Fine otherwise."), ("a/b", " ")])
    assert list(ReviewRemark.objects.values_list("ref", "text")) == [
        ("measurement/mass", "Weigh it without the cable."), ("", "Fine otherwise.")]
    assert (statement.decision, statement.addressee) == (Decision.SEND_BACK, alice)
    assert Entry.objects.of_unit(unit).count() == 1


@pytest.mark.parametrize("event", sorted(EVENT))
@pytest.mark.parametrize("state", [state for state in STATES if state != "discarded"])
def test_each_state_allows_what_the_table_says_and_nothing_else(unit, mona, state, event):
    Unit.objects.update(status=state)
    after = EVENTS.get((state, event))
    if after:
        EVENT[event](moderator=mona, unit_pk=unit.pk, **WHY)
        assert Unit.objects.get().status == after
    else:
        with pytest.raises(NotNow):
            EVENT[event](moderator=mona, unit_pk=unit.pk, **WHY)
        assert Unit.objects.get().status == state
    assert Statement.objects.count() == Entry.objects.count() == bool(after)


@pytest.mark.parametrize("event", sorted(EVENT))
@pytest.mark.parametrize("name", ["alice", "bob", "rita", "ada"])
def test_nobody_but_a_moderator_may(unit, request, name, event):
    Unit.objects.update(status=Status.SUBMITTED)
    with pytest.raises(Http404):
        EVENT[event](moderator=request.getfixturevalue(name), unit_pk=unit.pk, **WHY)


@pytest.mark.parametrize("event", sorted(EVENT))
def test_none_about_their_own(unit, mona, event):
    Unit.objects.update(status=Status.SUBMITTED, contributor=mona)
    with pytest.raises(Http404):
        EVENT[event](moderator=mona, unit_pk=unit.pk, **WHY)


def test_without_facts_nothing_moves(unit, mona):
    Unit.objects.update(status=Status.SUBMITTED)
    with pytest.raises(NoReason):
        send_back_unit(moderator=mona, unit_pk=unit.pk, code="incomplete", facts="")
    assert Unit.objects.get().status == Status.SUBMITTED
