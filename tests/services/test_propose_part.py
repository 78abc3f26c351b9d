"""Proposals to the part library: what may be proposed, and what is told instead."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from core.stale import Stale
from teardowns.models import Change, Part, PartLimit, PartProposal, ProposalState
from teardowns.services.decide_part import decline_part
from teardowns.services.proposals import MOST_OPEN, Refused
from teardowns.services.propose_part import propose_part, take_back_part_proposal
from teardowns.workflow import NotNow
from tests.library import POWER, SHEET, SOURCE, changed_limit, listed, new_limit

pytestmark = pytest.mark.django_db


def new_part(proposer, marking="KR905", **said):
    return propose_part(proposer=proposer, change=Change.PART, why="On three boards.",
                        marking=marking, function="optocoupler", **said)


def test_a_proposal_waits_and_the_library_stays_as_it_is(alice, mona):
    part = listed(mona)
    made = changed_limit(alice, part, 13.0)
    assert made.state == ProposalState.PROPOSED and made.before_value == 12.0
    assert made.citation == "PZ6318 data sheet, rev. 3, table 1, page 4"
    assert part.limits.get().value == 12.0 and Part.objects.get().version == 1


def test_each_proposal_is_logged_once(alice, mona):
    made = new_limit(alice, listed(mona))
    entry = Entry.objects.get(action="part_proposed")
    assert (entry.actor, entry.subject) == (alice, f"part_proposal/{made.pk}")


def test_a_new_part_is_proposed_without_being_in_the_library(alice):
    made = new_part(alice)
    assert made.part is None and made.named == "KR905" and not Part.objects.exists()


def test_a_marking_that_the_library_has_is_not_proposed_again(alice, mona):
    listed(mona, "KR905")
    with pytest.raises(Refused, match="has this part already"):
        new_part(alice)


def test_what_a_bench_sheet_brought_in_can_be_proposed_for_everybody(alice, bob):
    Part.objects.create(marking="KR905", curator=alice)
    assert new_part(bob).named == "KR905"


@pytest.mark.parametrize(("said", "field"), [
    ({"why": " "}, "why"), ({"document": ""}, "document"), ({"place": "", "page": ""}, "place"),
    ({"document": "d" * 300}, "document")])
def test_a_value_needs_reasons_and_a_source_that_can_be_looked_up(alice, mona, said, field):
    with pytest.raises(Refused) as refused:
        new_limit(alice, listed(mona), **said)
    assert list(refused.value.errors) == [field] and not PartProposal.objects.exists()


def test_the_same_quantity_from_the_same_source_is_a_change_not_a_new_limit(alice, mona):
    part = listed(mona)
    PartLimit.objects.create(part=part, quantity=POWER, value=13.0,
                             citation=", ".join([*SOURCE.values()][:3]) + ", page 4")
    with pytest.raises(Refused, match="has this quantity with this source"):
        new_limit(alice, part)


def test_proposing_what_stands_already_is_told(alice, mona):
    part = listed(mona)
    for change, said in ((Change.DESCRIPTION, {"function": part.function}),
                         (Change.SUPERSEDED, {"successor": None})):
        with pytest.raises(Refused):
            propose_part(proposer=alice, change=change, part=part, seen=1, why="So.", **said)


def test_a_part_that_changed_meanwhile_is_shown_beside_what_was_written(alice, mona):
    part = listed(mona)
    Part.objects.update(version=2)
    with pytest.raises(Stale) as stale:
        changed_limit(alice, part)
    assert stale.value.current == {"value": "12.0", "document": SHEET}


def test_a_limit_that_was_taken_out_meanwhile_is_told(alice, mona):
    part = listed(mona)
    limit = part.limits.get()
    PartLimit.objects.filter(pk=limit.pk).delete()
    with pytest.raises(Refused, match="taken out meanwhile"):
        propose_part(proposer=alice, change=Change.LIMIT_REMOVED, part=part, limit=limit, seen=1,
                     why="Another part’s sheet.")


def test_nobody_floods_the_moderators(alice, bob, mona):
    part = listed(mona)
    PartProposal.objects.bulk_create(PartProposal(
        proposer=alice, change=Change.DESCRIPTION, part=part, why=str(n))
        for n in range(MOST_OPEN))
    with pytest.raises(Refused, match="wait for a moderator"):
        new_limit(alice, part)
    assert new_limit(bob, part).is_open


def test_its_proposer_takes_it_back_and_nobody_else_does(alice, bob, mona):
    made = new_limit(alice, listed(mona))
    with pytest.raises(Http404):
        take_back_part_proposal(proposer=bob, proposal_pk=made.pk)
    assert take_back_part_proposal(
        proposer=alice, proposal_pk=made.pk).state == ProposalState.TAKEN_BACK


def test_what_is_decided_or_taken_back_cannot_be_taken_back(alice, mona):
    made = new_limit(alice, listed(mona))
    decline_part(moderator=mona, proposal_pk=made.pk, version=1, reason="Not in that table.")
    with pytest.raises(NotNow, match="declined"):
        take_back_part_proposal(proposer=alice, proposal_pk=made.pk)
