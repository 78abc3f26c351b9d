"""Who sees and decides what is proposed to the library."""
import pytest

from teardowns import access
from teardowns.models import Part, PartProposal
from tests.access.stages import who
from tests.library import listed, new_limit

pytestmark = pytest.mark.django_db


def test_a_proposal_is_seen_by_its_proposer_and_by_moderators(people, alice, mona):
    proposal = new_limit(alice, listed(mona))
    assert who(people, lambda one: access.may_see_proposal(one, proposal)) == {"alice", "mona"}
    assert who(people, lambda one: access.proposal_to_see(
        one, PartProposal.objects.all(), proposal.pk)) == {"alice", "mona"}


def test_a_proposal_is_decided_by_moderators(people, alice, mona):
    proposal = new_limit(alice, listed(mona))
    assert who(people, lambda one: access.may_decide_proposal(one, proposal)) == {"mona"}


def test_nobody_decides_their_own_proposal(people, mona, milo):
    people["milo"] = milo
    proposal = new_limit(mona, listed(mona))
    assert who(people, lambda one: access.may_decide_proposal(one, proposal)) == {"milo"}


def test_a_part_that_is_not_listed_is_its_curators_and_moderators(people, alice):
    part = Part.objects.create(marking="VX 1", curator=alice)
    assert who(people, lambda one: access.part_to_see(one, part.pk)) == {"alice", "mona"}
