"""Two records of one specimen: the younger becomes a tombstone that names the other."""
import pytest
from django.http import Http404

from core.accounts.models import Role
from core.audit.models import Entry
from teardowns.models import (
    Approval,
    BoardFamilyMember,
    Decision,
    Measurement,
    ProposalState,
    Statement,
    Status,
    Unit,
    Watch,
)
from teardowns.services.appeal import decide_appeal, open_appeal
from teardowns.services.decide_approval import approve
from teardowns.services.merge_units import ask_merge
from teardowns.workflow import NotNow
from tests.cast import person
from tests.library import family as opened
from tests.published import published

pytestmark = pytest.mark.django_db
REASON = "The same serial number and the same scratch on the case."


@pytest.fixture
def older(unit):
    published(unit)
    return unit


@pytest.fixture
def younger(older, bob):
    unit = Unit.objects.create(contributor=bob, title="VQ-45 by Veltrice")
    Measurement.objects.create(unit=unit, key="mass", quantity="mass_total", value=0.05,
                               how="measured", author=bob)
    published(unit)
    return unit


@pytest.fixture
def asked(younger, older, mona):
    return ask_merge(moderator=mona, unit_pk=younger.pk, into_pk=older.pk, reason=REASON)


def test_asked_for_nothing_happens(asked):
    assert Unit.objects.published().count() == 2 and not Statement.objects.exists()


def test_approved_by_another_the_younger_is_a_tombstone_with_its_successor(
        asked, younger, older, bob, milo):
    approve(by=milo, approval_pk=asked.pk)
    younger.refresh_from_db()
    assert younger.status == Status.WITHDRAWN and younger.successor == older
    statement = Statement.objects.get()
    assert (statement.decision, statement.addressee) == (Decision.MERGE, bob)
    assert Entry.objects.get(action="work_withdraw").detail["into"] == older.pk


def test_no_evidence_is_mixed(asked, younger, older, milo):
    approve(by=milo, approval_pk=asked.pk)
    assert Measurement.objects.get().unit == younger and not older.measurements.exists()


def test_watchers_move_and_nobody_watches_twice(asked, younger, older, alice, rita, milo):
    Watch.objects.bulk_create(Watch(person=person, unit=unit) for person, unit in (
        (alice, younger), (rita, younger), (rita, older)))
    approve(by=milo, approval_pk=asked.pk)
    assert set(Watch.objects.about(older).values_list("person", flat=True)) == {alice.pk, rita.pk}


def joined(family, unit, rita, mona, state=ProposalState.ACCEPTED):
    said = {} if state == ProposalState.PROPOSED else {
        "decided_by": mona, "decided_at": unit.published_at, "reason": "One layout."}
    return BoardFamilyMember.objects.create(family=family, unit=unit, proposer=rita,
                                            why="The same board.", state=state, **said)


@pytest.mark.parametrize("state", [ProposalState.ACCEPTED, ProposalState.PROPOSED])
def test_its_place_in_a_family_is_the_other_record_s_from_then_on(
        asked, younger, older, rita, mona, milo, state):
    member = joined(opened(mona), younger, rita, mona, state)
    approve(by=milo, approval_pk=asked.pk)
    member.refresh_from_db()
    assert (member.unit, member.state) == (older, state)
    assert member.history.first().history_user == milo


@pytest.mark.parametrize(("state", "end"), [
    (ProposalState.ACCEPTED, ProposalState.REMOVED),
    (ProposalState.PROPOSED, ProposalState.DECLINED)])
def test_where_both_stand_in_a_family_one_place_ends_with_its_reason(
        asked, younger, older, rita, mona, milo, state, end):
    family = opened(mona)
    joined(family, older, rita, mona)
    member = joined(family, younger, rita, mona, state)
    approve(by=milo, approval_pk=asked.pk)
    member.refresh_from_db()
    assert member.state == end and f"unit {older.pk}" in (member.removal_reason or member.reason)
    assert family.memberships.current().count() == 1


def test_a_proposal_of_whoever_approves_is_taken_back_and_not_decided(
        asked, younger, older, rita, mona, milo):
    family = opened(mona)
    joined(family, older, rita, mona)
    member = joined(family, younger, milo, mona, ProposalState.PROPOSED)
    approve(by=milo, approval_pk=asked.pk)
    member.refresh_from_db()
    assert member.state == ProposalState.TAKEN_BACK


def test_who_asked_does_not_decide_nor_who_owns_one_of_them(asked, older, mona, milo, rita, ada):
    Unit.objects.filter(pk=older.pk).update(contributor=milo)
    for one in (mona, milo, rita, ada):
        with pytest.raises(Http404):
            approve(by=one, approval_pk=asked.pk)
    assert Unit.objects.published().count() == 2


def test_the_older_is_not_merged_into_the_younger(younger, older, mona):
    with pytest.raises(NotNow, match="younger"):
        ask_merge(moderator=mona, unit_pk=older.pk, into_pk=younger.pk, reason=REASON)


@pytest.mark.parametrize("state", ["sent_back", "withdrawn", "declined"])
def test_what_is_not_waiting_or_public_is_not_merged(younger, older, mona, state):
    Unit.objects.filter(pk=younger.pk).update(status=state)
    with pytest.raises(NotNow):
        ask_merge(moderator=mona, unit_pk=younger.pk, into_pk=older.pk, reason=REASON)


def test_itself_and_what_is_not_there_are_refused(older, mona):
    for into in (older.pk, 999):
        with pytest.raises(NotNow):
            ask_merge(moderator=mona, unit_pk=older.pk, into_pk=into, reason=REASON)
    assert not Approval.objects.exists()


def test_a_record_that_waits_is_declined_in_favour_of_the_public_one(younger, older, mona, milo):
    Unit.objects.filter(pk=younger.pk).update(status="submitted", published_at=None)
    asked = ask_merge(moderator=mona, unit_pk=younger.pk, into_pk=older.pk, reason=REASON)
    approve(by=milo, approval_pk=asked.pk)
    younger.refresh_from_db()
    assert (younger.status, younger.successor) == (Status.DECLINED, older)


def test_reversed_on_appeal_by_a_third_both_are_public_again(asked, younger, bob, mona, milo):
    approve(by=milo, approval_pk=asked.pk)
    appeal = open_appeal(author=bob, uid=Statement.objects.get().uid, text="Two specimens.")
    for one in (mona, milo):
        with pytest.raises(Http404):
            decide_appeal(moderator=one, appeal_pk=appeal.pk, reverse=True,
                          facts="Two serial numbers.")
    decide_appeal(moderator=person("mina", Role.MODERATOR), appeal_pk=appeal.pk, reverse=True,
                  facts="Two serial numbers.")
    younger.refresh_from_db()
    assert younger.is_public and younger.successor is None
