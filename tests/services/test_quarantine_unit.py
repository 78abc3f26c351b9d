"""Quarantine hides a record and stops its writing; somebody else puts it back as it was."""
from datetime import timedelta

import pytest
from django.http import Http404
from django.utils import timezone

from core.audit.models import Entry
from teardowns import access
from teardowns.models import Decision, HiddenNow, Statement, Status, Unit
from teardowns.services.appeal import decide_appeal, open_appeal
from teardowns.services.hide_now import hide_now
from teardowns.services.quarantine_unit import quarantine_unit, quarantined_by, release_unit
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow
from tests.published import published

pytestmark = pytest.mark.django_db
WHY = {"code": "not_this_unit", "facts": "Photo 2 shows another board."}


@pytest.fixture
def public(unit):
    published(unit)
    return unit


def test_nobody_else_sees_it_nothing_is_lost_and_one_statement_says_why(public, bob, mona):
    before = public.title, public.status
    statement = quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    public.refresh_from_db()
    assert not Unit.objects.published().exists() and (public.title, public.status) == before
    assert Statement.objects.get() == statement and statement.addressee == public.contributor
    with pytest.raises(Http404):
        access.unit_to_see(bob, public.pk)


def test_its_author_sees_it_and_cannot_write(unit, alice, mona):
    Unit.objects.update(status=Status.SENT_BACK)
    quarantine_unit(moderator=mona, unit_pk=unit.pk, **WHY)
    assert access.unit_to_see(alice, unit.pk) == unit
    with pytest.raises(Http404):
        access.unit_to_change(alice, unit.pk)


def test_another_moderator_releases_it_and_the_first_statement_stays(public, mona, milo):
    first = quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    with pytest.raises(NotNow, match="somebody else"):
        release_unit(moderator=mona, unit_pk=public.pk, **WHY)
    release_unit(moderator=milo, unit_pk=public.pk, code="put_right", facts="Photo 2 is gone.")
    assert Unit.objects.published().get() == public
    assert Statement.objects.get(pk=first.pk).facts == WHY["facts"]


def test_each_is_logged_once_with_the_digest_of_its_statement(public, mona, milo):
    first = quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    release_unit(moderator=milo, unit_pk=public.pk, **WHY)
    entries = Entry.objects.of_unit(public).order_by("sequence")
    assert [one.action for one in entries] == ["unit_quarantined", "unit_released"]
    assert entries[0].detail["statement_digest"] == first.digest
    assert WHY["facts"] not in entries[0].reason       # everybody reads it; facts may name people


def test_twice_is_refused_with_a_sentence(public, mona, milo):
    quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    with pytest.raises(NotNow, match="already"):
        quarantine_unit(moderator=milo, unit_pk=public.pk, **WHY)
    assert Statement.objects.count() == 1


def test_what_is_not_in_quarantine_is_not_released(public, mona):
    with pytest.raises(NotNow):
        release_unit(moderator=mona, unit_pk=public.pk, **WHY)


@pytest.mark.parametrize("wrong", [{"code": "made_up"}, {"facts": "  "}])
def test_without_a_reason_of_the_list_and_facts_nothing_happens(public, mona, wrong):
    with pytest.raises(NoReason):
        quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY | wrong)
    assert not Entry.objects.filter(action="unit_quarantined").exists()
    assert Unit.objects.published().exists()


def test_nobody_but_a_moderator_and_none_for_their_own(public, alice, rita, ada, mona):
    Unit.objects.update(contributor=mona)
    for person in (alice, rita, ada, mona):
        with pytest.raises(Http404):
            quarantine_unit(moderator=person, unit_pk=public.pk, **WHY)
    assert Unit.objects.published().exists()


def test_it_takes_the_place_of_a_hiding_which_then_does_not_lapse(public, rita, mona):
    hide_now(by=rita, about=f"unit/{public.pk}", reason="a parcel label in photo 1")
    quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    public.refresh_from_db()
    assert quarantined_by(public).decision == Decision.QUARANTINE
    assert not public.hidden_now.in_force().exists()


def test_after_a_reversal_on_appeal_a_later_hiding_is_no_quarantine(
        public, alice, rita, mona, milo):
    first = quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    appeal = open_appeal(author=alice, uid=first.uid, text="The same board.")
    decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=True, facts="The same board.")
    hide_now(by=rita, about=f"unit/{public.pk}", reason="a parcel label in photo 1")
    HiddenNow.objects.update(until=timezone.now() - timedelta(seconds=1))
    public.refresh_from_db()
    assert public.quarantined_at is not None and quarantined_by(public) is None
