"""One proposal: who sees it, who decides, and what is told when somebody was faster."""
from uuid import uuid4

import pytest

from core.audit.models import Entry
from teardowns.models import PartProposal, ProposalState
from teardowns.services.decide_part import accept_part
from tests.library import changed_limit, contain, listed

pytestmark = pytest.mark.django_db


@pytest.fixture
def part(mona):
    return listed(mona)


@pytest.fixture
def proposal(alice, part):
    return changed_limit(alice, part, 13.0)


def decide(client, proposal, decision="accept", **sent):
    seen = {"seen": 1, "part_seen": 1, "reason": "Looked up.", "decision": decision}
    return client.post(f"/parts/proposals/{proposal.pk}/decide/", seen | sent)


def test_its_proposer_and_moderators_see_it_and_nobody_else(client, alice, bob, rita, mona,
                                                            proposal):
    address = proposal.get_absolute_url()
    assert client.get(address).status_code == 302
    for person, status in ((bob, 404), (rita, 404), (alice, 200), (mona, 200)):
        client.force_login(person)
        assert client.get(address).status_code == status


def test_a_moderator_sees_before_and_after_and_how_many_units_move(client, mona, proposal, unit):
    contain(unit, proposal.part)
    client.force_login(mona)
    page = client.get(proposal.get_absolute_url()).content.decode()
    assert "12\u202fW" in page and "13\u202fW" in page and "1 unit cites the part" in page


@pytest.mark.parametrize(("decision", "state"), [
    ("accept", ProposalState.ACCEPTED), ("decline", ProposalState.DECLINED)])
def test_a_moderator_decides(client, mona, proposal, decision, state):
    client.force_login(mona)
    assert decide(client, proposal, decision).url == proposal.get_absolute_url()
    assert PartProposal.objects.get().state == state
    assert "mona: Looked up." in client.get(proposal.get_absolute_url()).content.decode()


def test_who_may_not_decide_is_refused(client, alice, bob, rita, ada, proposal):
    for person in (alice, bob, rita, ada):
        client.force_login(person)
        assert decide(client, proposal).status_code == 403
    assert PartProposal.objects.get().is_open


def test_a_moderator_is_not_offered_their_own(client, mona, milo, part):
    own = changed_limit(mona, part)
    client.force_login(mona)
    assert not client.get(own.get_absolute_url()).context["may_decide"]
    assert decide(client, own).status_code == 404
    client.force_login(milo)
    assert client.get(own.get_absolute_url()).context["may_decide"]


def test_without_a_reason_nothing_happens_and_the_form_stays(client, mona, proposal):
    client.force_login(mona)
    page = decide(client, proposal, reason="")
    assert page.status_code == 200 and "reason" in page.context["form"].errors
    assert PartProposal.objects.get().is_open


def test_decided_twice_with_one_key_it_is_decided_once(client, mona, proposal):
    client.force_login(mona)
    key = str(uuid4())
    first, second = (decide(client, proposal, once=key) for _ in range(2))
    assert first["Location"] == second["Location"]
    assert Entry.objects.filter(action="part_accepted").count() == 1


def test_somebody_else_was_faster(client, mona, milo, proposal):
    accept_part(moderator=milo, proposal_pk=proposal.pk, version=1, part_version=1, reason="So.")
    client.force_login(mona)
    page = client.post(f"/parts/proposals/{proposal.pk}/decide/", {
        "seen": 1, "part_seen": 1, "reason": "No.", "decision": "decline"}, follow=True)
    assert "was accepted meanwhile" in page.content.decode()
    assert PartProposal.objects.get().decided_by == milo


def test_a_part_that_changed_since_is_shown_and_the_next_try_counts(client, bob, mona, proposal):
    other = changed_limit(bob, proposal.part, 14.0)
    accept_part(moderator=mona, proposal_pk=other.pk, version=1, part_version=1, reason="So.")
    client.force_login(mona)
    page = decide(client, proposal, reason="Rev. 3 it is.")
    assert page.status_code == 200 and "14\u202fW" in page.content.decode()
    assert PartProposal.objects.get(pk=proposal.pk).is_open
    form = page.context["form"]
    assert form["reason"].value() == "Rev. 3 it is."
    decide(client, proposal, part_seen=form["part_seen"].value())
    assert proposal.part.limits.get().value == 13.0


def test_its_proposer_takes_it_back(client, alice, mona, proposal):
    address = f"/parts/proposals/{proposal.pk}/take-back/"
    client.force_login(mona)
    assert client.post(address).status_code == 404
    client.force_login(alice)
    assert client.post(address).url == proposal.get_absolute_url()
    assert PartProposal.objects.get().state == ProposalState.TAKEN_BACK
    assert "Propose it again" in client.get(proposal.get_absolute_url()).content.decode()


def test_the_page_costs_at_most_twelve_queries(client, mona, proposal,
                                               django_assert_max_num_queries):
    client.force_login(mona)
    with django_assert_max_num_queries(12):
        client.get(proposal.get_absolute_url())
