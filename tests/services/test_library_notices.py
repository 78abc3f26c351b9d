import pytest

from teardowns.models import Notice, Unit
from teardowns.services.decide_part import accept_part, decline_part
from teardowns.services.edit_family import decide_member, propose_member, remove_member
from teardowns.services.watch import watch
from tests.library import changed_limit, contain, family, listed, new_limit
from tests.published import published

pytestmark = pytest.mark.django_db


def told():
    rows = Notice.objects.order_by("pk").values_list("person__username", "kind", "words")
    return list(rows)


def test_a_proposer_and_who_watches_the_part_hear_of_it(alice, bob, mona):
    part = listed(mona)
    watch(person=bob, thing=part)
    watch(person=alice, thing=part)
    proposal = new_limit(alice, part)
    accept_part(moderator=mona, proposal_pk=proposal.pk, version=1, part_version=1, reason="So.")
    assert told() == [("alice", "proposal", "a new limit: PZ6318: accepted"),
                      ("bob", "part", "a new limit: PZ6318")]


def test_a_declined_proposal_is_told_to_its_proposer_alone(alice, bob, mona):
    part = listed(mona)
    watch(person=bob, thing=part)
    decline_part(moderator=mona, proposal_pk=new_limit(alice, part).pk, version=1, reason="So.")
    assert [row[:2] for row in told()] == [("alice", "proposal")]


def test_who_watches_a_family_hears_what_comes_and_what_goes(alice, bob, mona, unit):
    published(unit)
    made = family(mona)
    watch(person=alice, thing=made)
    member = propose_member(proposer=bob, family_pk=made.pk, unit_pk=unit.pk, why="So.")
    said = {"moderator": mona, "member_pk": member.pk, "reason": "So."}
    decide_member(version=1, accepted=True, **said)
    remove_member(version=2, **said)
    assert [row for row in told() if row[0] == "alice"] == [
        ("alice", "family", f"Board HB-12: unit {unit.pk} taken in"),
        ("alice", "family", f"Board HB-12: unit {unit.pk} removed")]
    assert sum(row[0] == "bob" for row in told()) == 2


def test_a_contributor_hears_which_published_units_rest_on_the_former_limit(
        alice, bob, mona, unit):
    part = listed(mona)
    contain(unit, part)
    draft = Unit.objects.create(contributor=bob, title="Not public")
    contain(draft, part)
    published(unit)
    proposal = changed_limit(bob, part)
    accept_part(moderator=mona, proposal_pk=proposal.pk, version=1, part_version=1, reason="So.")
    row, = [row for row in told() if row[1] == "part"]
    assert row[0] == "alice" and row[2].endswith(f"perhaps to be corrected: unit {unit.pk}")
