"""A suspended account reads and appeals; it does not write, and its sessions end."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Decision, Statement
from teardowns.services.suspend_account import lift_suspension, suspend_account
from teardowns.workflow import NotNow
from tests.core.accounts.pages import sign_in

pytestmark = pytest.mark.django_db
WHY = {"code": "abuse", "facts": "Forty records of one leaflet in an hour."}


@pytest.mark.parametrize("name", ["alice", "rita"])
def test_a_contributor_and_a_reviewer_can_be_suspended(name, request, mona):
    person = request.getfixturevalue(name)
    statement = suspend_account(moderator=mona, person_pk=person.pk, **WHY)
    person.refresh_from_db()
    assert person.is_suspended and not person.in_good_standing
    assert (statement.decision, statement.addressee) == (Decision.SUSPEND, person)
    assert Entry.objects.get().action == "account_suspended"


@pytest.mark.parametrize("name", ["mona", "milo", "ada"])
def test_nobody_suspends_a_peer_nor_themselves(name, request, mona):
    person = request.getfixturevalue(name)
    with pytest.raises(Http404):
        suspend_account(moderator=mona, person_pk=person.pk, **WHY)


@pytest.mark.parametrize("name", ["alice", "rita", "ada"])
def test_nobody_else_may(name, request, bob):
    with pytest.raises(Http404):
        suspend_account(moderator=request.getfixturevalue(name), person_pk=bob.pk, **WHY)


def test_their_sessions_end(client, alice, mona):
    sign_in(client, "alice")
    assert client.get("/bench/").status_code == 200
    suspend_account(moderator=mona, person_pk=alice.pk, **WHY)
    assert client.get("/bench/").status_code == 302


def test_it_is_lifted_with_a_statement_of_its_own(alice, mona, milo):
    suspend_account(moderator=mona, person_pk=alice.pk, **WHY)
    lift_suspension(moderator=milo, person_pk=alice.pk, code="put_right", facts="Explained.")
    alice.refresh_from_db()
    assert not alice.is_suspended and alice.suspended_reason == ""
    assert [one.decision for one in Statement.objects.all()] == [Decision.LIFT, Decision.SUSPEND]


def test_twice_is_refused(alice, mona):
    with pytest.raises(NotNow):
        lift_suspension(moderator=mona, person_pk=alice.pk, **WHY)
    suspend_account(moderator=mona, person_pk=alice.pk, **WHY)
    with pytest.raises(NotNow):
        suspend_account(moderator=mona, person_pk=alice.pk, **WHY)
    assert Statement.objects.count() == 1
