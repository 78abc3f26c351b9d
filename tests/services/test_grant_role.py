"""One proposes a role, an administrator who is another decides; nobody about themselves."""
import pytest
from django.http import Http404

from core.accounts.models import Role
from core.audit.models import Entry
from teardowns.models import Statement
from teardowns.services.decide_approval import approve, refuse
from teardowns.services.grant_role import propose_role, roles_to_propose
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow
from tests.cast import person

pytestmark = pytest.mark.django_db


@pytest.fixture
def axel(db):
    return person("axel", Role.ADMINISTRATOR)


def propose(by, whom, role="reviewer"):
    return propose_role(by=by, person_pk=whom.pk, role=role, reason="Twelve sound records.")


def test_a_moderator_proposes_a_reviewer_and_an_administrator_decides(alice, mona, ada):
    asked = propose(mona, alice)
    assert alice.role == Role.CONTRIBUTOR
    approve(by=ada, approval_pk=asked.pk)
    alice.refresh_from_db()
    assert alice.role == Role.REVIEWER and Statement.objects.get().addressee == alice
    assert [one.action for one in Entry.objects.order_by("sequence")] == [
        "approval_asked", "role_changed"]


def test_who_proposed_does_not_decide(alice, ada, axel):
    asked = propose(ada, alice, "moderator")
    with pytest.raises(Http404):
        approve(by=ada, approval_pk=asked.pk)
    approve(by=axel, approval_pk=asked.pk)
    alice.refresh_from_db()
    assert alice.role == Role.MODERATOR


@pytest.mark.parametrize("name", ["bob", "rita", "mona", "milo"])
def test_nobody_but_an_administrator_decides(name, request, alice, ada):
    asked = propose(ada, alice)
    with pytest.raises(Http404):
        approve(by=request.getfixturevalue(name), approval_pk=asked.pk)


def test_nobody_proposes_or_decides_about_their_own_role(ada, axel, mona):
    with pytest.raises(Http404):
        propose(ada, ada, "moderator")
    with pytest.raises(Http404):
        propose(mona, mona, "administrator")
    asked = propose(axel, ada, "contributor")
    with pytest.raises(Http404):
        approve(by=ada, approval_pk=asked.pk)


def test_what_each_may_propose(alice, rita, mona, milo, ada):
    assert roles_to_propose(mona, alice) == ["reviewer"]
    assert roles_to_propose(mona, rita) == ["contributor"]
    assert roles_to_propose(mona, milo) == roles_to_propose(rita, alice) == []
    assert roles_to_propose(ada, milo) == ["contributor", "reviewer", "administrator"]


def test_a_moderator_cannot_make_a_moderator(alice, mona):
    with pytest.raises(Http404):
        propose(mona, alice, "moderator")


def test_asked_once_and_refused_with_a_reason(alice, mona, ada):
    asked = propose(mona, alice)
    with pytest.raises(NotNow, match="already"):
        propose(mona, alice)
    with pytest.raises(NoReason):
        refuse(by=ada, approval_pk=asked.pk, answer="")
    refuse(by=ada, approval_pk=asked.pk, answer="Too early.")
    alice.refresh_from_db()
    assert alice.role == Role.CONTRIBUTOR and propose(mona, alice).pk != asked.pk


def test_a_role_that_changed_meanwhile_is_not_changed(alice, mona, ada):
    asked = propose(mona, alice)
    type(alice).objects.filter(pk=alice.pk).update(role=Role.MODERATOR)
    with pytest.raises(NotNow, match="has changed"):
        approve(by=ada, approval_pk=asked.pk)
    asked.refresh_from_db()
    assert asked.state == "waiting"


def test_the_last_administrator_stays(ada, axel):
    first = propose(ada, axel, "contributor")
    type(ada).objects.filter(pk=axel.pk).update(is_active=False)
    third = person("aino", Role.ADMINISTRATOR)
    approve(by=third, approval_pk=first.pk)
    asked = propose(ada, third, "contributor")
    type(ada).objects.filter(pk=ada.pk).update(is_active=False)
    with pytest.raises(Http404):
        approve(by=third, approval_pk=asked.pk)
