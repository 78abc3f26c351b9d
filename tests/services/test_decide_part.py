"""A moderator decides: what each kind of proposal does, and what is assessed anew."""
import pytest
from django.db import IntegrityError, transaction
from django.http import Http404

from core.audit.models import Entry
from core.stale import Stale
from teardowns.models import Change, Part, PartLimit, PartProposal, ProposalState
from teardowns.services.decide_part import accept_part, decline_part
from teardowns.services.proposals import Refused
from teardowns.services.propose_part import propose_part, take_back_part_proposal
from teardowns.workflow import NotNow
from tests.library import POWER, SOURCE, changed_limit, contain, listed, new_limit

pytestmark = pytest.mark.django_db
DECISIONS = ("accept", "decline", "take_back")


def accept(moderator, proposal, **said):
    part = proposal.part
    return accept_part(**{"moderator": moderator, "proposal_pk": proposal.pk, "version": 1,
                          "part_version": part.version if part else None,
                          "reason": "Looked up."} | said)


def decide(event, proposal, moderator):
    if event == "accept":
        return accept(moderator, proposal)
    if event == "decline":
        return decline_part(moderator=moderator, proposal_pk=proposal.pk,
                            version=proposal.version, reason="Not in that table.")
    return take_back_part_proposal(proposer=proposal.proposer, proposal_pk=proposal.pk)


@pytest.mark.parametrize("first", DECISIONS)
@pytest.mark.parametrize("second", DECISIONS)
def test_a_proposal_is_decided_once_whatever_came_first(alice, mona, first, second):
    proposal = new_limit(alice, listed(mona))
    decide(first, proposal, mona)
    proposal.refresh_from_db()
    entries = Entry.objects.count()
    with pytest.raises(NotNow):
        decide(second, proposal, mona)
    assert Entry.objects.count() == entries


def test_a_changed_limit_changes_in_place_with_its_history(alice, mona):
    part = listed(mona)
    accepted = accept(mona, changed_limit(alice, part, 13.0))
    limit = part.limits.get()
    assert (limit.value, limit.citation) == (13.0, accepted.citation)
    newest = PartLimit.history.latest()
    assert (newest.history_user, newest.history_change_reason) == (
        mona, f"proposal {accepted.pk}")
    assert Part.objects.get().version == 2 and accepted.decided_by == mona


def test_a_new_limit_stands_beside_the_others(alice, mona):
    part = listed(mona)
    accept(mona, new_limit(alice, part))
    assert sorted(part.limits.values_list("value", flat=True)) == [12.0, 13.0]


def test_a_limit_taken_out_is_gone_and_stays_in_the_history(alice, mona):
    part = listed(mona)
    accept(mona, propose_part(proposer=alice, change=Change.LIMIT_REMOVED, part=part,
                              limit=part.limits.get(), seen=1, why="Another part’s sheet."))
    assert not part.limits.exists()
    assert PartLimit.history.latest().history_type == "-"


def test_a_new_part_comes_with_its_first_limit(alice, mona):
    accept(mona, propose_part(
        proposer=alice, change=Change.PART, why="Seen twice.", marking="KR905",
        function="controller", quantity=POWER, value=9.0, **SOURCE))
    part = Part.objects.listed().get()
    assert (part.marking, part.curator, part.limits.get().value) == ("KR905", mona, 9.0)


def test_a_bench_sheet_s_own_entry_is_taken_over_and_no_longer_its_contributor_s(alice, bob, mona):
    own = Part.objects.create(marking="KR905", curator=alice)
    accept(mona, propose_part(proposer=bob, change=Change.PART, why="Seen twice.",
                              marking="KR905", function="controller"))
    own.refresh_from_db()
    assert own.accepted_at and own.curator == mona and own.function == "controller"


def test_a_description_replaces_the_one_before(alice, mona):
    part = listed(mona)
    accept(mona, propose_part(proposer=alice, change=Change.DESCRIPTION, part=part, seen=1,
                              why="Its sheet.", function="switcher", package="SOP-8", note=""))
    part.refresh_from_db()
    assert (part.function, part.package) == ("switcher", "SOP-8")


def test_what_supersedes_it_is_noted(alice, mona):
    part, newer = listed(mona), listed(mona, "PZ6319", None)
    accept(mona, propose_part(proposer=alice, change=Change.SUPERSEDED, part=part, seen=1,
                              why="Notice of 2026.", successor=newer))
    part.refresh_from_db()
    assert part.superseded_by == newer


@pytest.mark.parametrize("event", ["accept", "decline"])
def test_a_moderator_decides_nothing_of_their_own(mona, milo, event):
    proposal = new_limit(mona, listed(milo))
    with pytest.raises(Http404):
        decide(event, proposal, mona)
    assert PartProposal.objects.get().is_open
    decide(event, proposal, milo)


@pytest.mark.parametrize("event", ["accept", "decline"])
def test_who_is_no_moderator_decides_nothing(alice, bob, rita, ada, mona, event):
    proposal = new_limit(alice, listed(mona))
    for person in (bob, rita, ada):
        with pytest.raises(Http404):
            decide(event, proposal, person)


def test_the_database_refuses_a_decision_by_the_proposer(alice, mona):
    proposal = new_limit(alice, listed(mona))
    with pytest.raises(IntegrityError), transaction.atomic():
        PartProposal.objects.filter(pk=proposal.pk).update(
            state=ProposalState.ACCEPTED, decided_by=alice, reason="Mine.",
            decided_at=proposal.proposed_at)


@pytest.mark.parametrize("event", [accept_part, decline_part])
def test_a_decision_needs_its_reason(alice, mona, event):
    part = listed(mona)
    proposal = new_limit(alice, part)
    seen = {"part_version": 1} if event is accept_part else {}
    with pytest.raises(Refused, match="Say why"):
        event(moderator=mona, proposal_pk=proposal.pk, version=1, reason="  ", **seen)
    assert part.limits.count() == 1 and PartProposal.objects.get().is_open


def test_a_part_that_changed_since_the_moderator_looked_is_shown_first(alice, bob, mona):
    part = listed(mona)
    mine, other = changed_limit(alice, part, 13.0), changed_limit(bob, part, 14.0)
    accept(mona, mine)
    with pytest.raises(Stale) as stale:
        accept(mona, other, part_version=1)
    assert stale.value.current["value"] == "13.0" and part.limits.get().value == 13.0
    accept(mona, other, part_version=2)
    assert part.limits.get().value == 14.0


def test_a_change_of_a_limit_that_is_gone_is_refused(alice, bob, mona):
    part = listed(mona)
    change = changed_limit(bob, part)
    accept(mona, propose_part(proposer=alice, change=Change.LIMIT_REMOVED, part=part, seen=1,
                              limit=part.limits.get(), why="Another part’s sheet."))
    with pytest.raises(Refused, match="taken out meanwhile"):
        accept(mona, change, part_version=2)


def test_every_unit_that_cites_the_part_is_assessed_anew(
        alice, mona, unit, django_capture_on_commit_callbacks, monkeypatch):
    queued = []
    monkeypatch.setattr("teardowns.services.decide_part.async_task",
                        lambda *job: queued.append(job))
    part = listed(mona)
    contain(unit, part)
    contain(unit, part, "second")
    with django_capture_on_commit_callbacks(execute=True):
        accept(mona, changed_limit(alice, part))
    assert queued == [("teardowns.jobs.reassess_units", [unit.pk])]
    assert Entry.objects.get(action="part_accepted").detail["units"] == 1


def test_a_description_moves_no_number(alice, mona, unit, monkeypatch,
                                       django_capture_on_commit_callbacks):
    queued = []
    monkeypatch.setattr("teardowns.services.decide_part.async_task",
                        lambda *job: queued.append(job))
    part = listed(mona)
    contain(unit, part)
    with django_capture_on_commit_callbacks(execute=True):
        accept(mona, propose_part(proposer=alice, change=Change.DESCRIPTION, part=part, seen=1,
                                  why="Its sheet.", function="switcher"))
    assert queued == []


def test_a_declined_proposal_changes_nothing_and_says_why(alice, mona):
    part = listed(mona)
    declined = decide("decline", new_limit(alice, part), mona)
    assert declined.reason == "Not in that table." and part.limits.count() == 1
    assert Part.objects.get().version == 1


def test_two_proposals_of_one_marking_make_one_entry(alice, bob, mona, monkeypatch):
    first, second = (propose_part(proposer=person, change=Change.PART, why="Seen.",
                                  marking="KR905", function="controller")
                     for person in (alice, bob))
    accept(mona, first)
    with pytest.raises(Refused, match="has this part already"):
        accept(mona, second)
    # As if the other one came in between looking and writing.
    monkeypatch.setattr("teardowns.services.decide_part.check_proposed", lambda proposal: None)
    monkeypatch.setattr("teardowns.services.decide_part.part_to_adopt", lambda marking: None)
    with pytest.raises(Refused, match="has this part already"):
        accept(mona, second)
    assert Part.objects.count() == 1 and PartProposal.objects.open().count() == 1
