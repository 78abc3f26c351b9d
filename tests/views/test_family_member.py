"""A unit proposed for a family: seen by few, decided by another, removed with a reason."""
from uuid import uuid4

import pytest

from core.audit.models import Entry
from teardowns.models import BoardFamilyMember, ProposalState
from teardowns.services.edit_family import propose_member
from tests.library import family as opened
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def member(mona, bob, unit):
    published(unit)
    return propose_member(proposer=bob, family_pk=opened(mona).pk, unit_pk=unit.pk,
                          why="The same board number.")


def decide(client, member, decision, **sent):
    return client.post(f"/families/units/{member.pk}/decide/",
                       {"seen": 1, "reason": "Looked.", "decision": decision} | sent)


def test_its_proposer_and_moderators_see_it_and_nobody_else(client, alice, bob, rita, mona, member):
    for person, status in ((None, 302), (alice, 404), (rita, 404), (bob, 200), (mona, 200)):
        if person:
            client.force_login(person)
        assert client.get(member.get_absolute_url()).status_code == status


@pytest.mark.parametrize(("decision", "state"), [
    ("accept", ProposalState.ACCEPTED), ("decline", ProposalState.DECLINED)])
def test_a_moderator_decides(client, mona, member, decision, state):
    client.force_login(mona)
    assert decide(client, member, decision).url == member.get_absolute_url()
    assert BoardFamilyMember.objects.get().state == state


def test_an_accepted_unit_is_removed_with_a_reason_once(client, mona, member):
    client.force_login(mona)
    decide(client, member, "accept")
    assert decide(client, member, "remove", seen=2, reason=" ").status_code == 200
    key = str(uuid4())
    for _ in range(2):
        decide(client, member, "remove", seen=2, once=key)
    assert BoardFamilyMember.objects.get().state == ProposalState.REMOVED
    assert Entry.objects.filter(action="member_removed").count() == 1


@pytest.mark.parametrize("decision", ["accept", "decline", "remove"])
def test_who_is_no_moderator_is_refused(client, alice, bob, rita, ada, member, decision):
    for person in (alice, bob, rita, ada):
        client.force_login(person)
        assert decide(client, member, decision).status_code == 403


def test_an_unknown_decision_is_not_found(client, mona, member):
    client.force_login(mona)
    assert decide(client, member, "burn").status_code == 404


def test_a_moderator_is_not_offered_their_own(client, mona, member):
    BoardFamilyMember.objects.update(proposer=mona)
    client.force_login(mona)
    assert not client.get(member.get_absolute_url()).context["may_decide"]
    assert decide(client, member, "accept").status_code == 404


def test_a_stale_decision_keeps_the_words_and_counts_when_sent_again(client, mona, member):
    client.force_login(mona)
    page = decide(client, member, "accept", seen=7, reason="My words.")
    assert page.status_code == 200 and "Somebody changed it" in page.content.decode()
    form = page.context["form"]
    assert form["reason"].value() == "My words."
    decide(client, member, "accept", seen=form["seen"].value())
    assert BoardFamilyMember.objects.get().state == ProposalState.ACCEPTED


def test_somebody_else_was_faster(client, mona, member):
    client.force_login(mona)
    decide(client, member, "decline")
    page = client.post(f"/families/units/{member.pk}/decide/",
                       {"seen": 1, "reason": "Yes.", "decision": "accept"}, follow=True)
    assert "was declined meanwhile" in page.content.decode()


def test_its_proposer_takes_it_back(client, bob, mona, member):
    address = f"/families/units/{member.pk}/take-back/"
    client.force_login(mona)
    assert client.post(address).status_code == 404
    client.force_login(bob)
    client.post(address)
    assert BoardFamilyMember.objects.get().state == ProposalState.TAKEN_BACK
    assert "was taken back meanwhile" in client.post(address, follow=True).content.decode()
