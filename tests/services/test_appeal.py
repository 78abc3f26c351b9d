"""An appeal is decided by somebody else, and undoes what can be undone by itself."""
from datetime import timedelta

import pytest
from django.http import Http404
from django.utils import timezone

from teardowns.models import Appeal, Report, Statement, Unit
from teardowns.models.statements import StatementQuerySet
from teardowns.services.appeal import decide_appeal, open_appeal
from teardowns.services.hide_now import hide_now
from teardowns.services.quarantine_unit import quarantine_unit
from teardowns.services.receive_report import receive_report
from teardowns.services.resolve_report import resolve_report
from teardowns.services.state_reasons import NoReason
from teardowns.services.suspend_account import suspend_account
from teardowns.workflow import NotNow
from tests.published import published

pytestmark = pytest.mark.django_db
WHY = {"code": "not_this_unit", "facts": "Photo 2 shows another board."}


@pytest.fixture
def public(unit):
    published(unit)
    return unit


@pytest.fixture
def quarantined(public, mona):
    return quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)


@pytest.fixture
def appeal(quarantined, alice):
    return open_appeal(author=alice, uid=quarantined.uid, text="It is the same board, cleaned.")


def test_it_has_fourteen_days(appeal):
    assert (appeal.due_at - appeal.opened_at).total_seconds() == pytest.approx(14 * 86400, abs=5)


def test_another_moderator_reverses_it_and_the_first_statement_stays(
        appeal, quarantined, mona, milo):
    with pytest.raises(Http404):
        decide_appeal(moderator=mona, appeal_pk=appeal.pk, reverse=True, facts="Looked again.")
    answer = decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=True, facts="The same.")
    assert Unit.objects.published().exists() and answer.answers == quarantined
    assert Statement.objects.get(pk=quarantined.pk).facts == WHY["facts"]


def test_upheld_nothing_changes(appeal, milo):
    decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=False, facts="Another board.")
    assert not Unit.objects.published().exists()
    assert Appeal.objects.get().state == "upheld"


def test_once_decided_and_once_opened(appeal, quarantined, alice, milo):
    decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=False, facts="Another board.")
    with pytest.raises(NotNow):
        decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=True, facts="Hm.")
    with pytest.raises(NotNow):
        open_appeal(author=alice, uid=quarantined.uid, text="Again.")


def test_nobody_appeals_for_another(quarantined, bob, milo):
    with pytest.raises(Http404):
        open_appeal(author=bob, uid=quarantined.uid, text="Not mine.")
    with pytest.raises(NotNow):
        open_appeal(author=milo, uid=quarantined.uid, text="Not mine.")


def test_it_takes_words_and_comes_within_six_months(quarantined, alice):
    with pytest.raises(NoReason):
        open_appeal(author=alice, uid=quarantined.uid, text=" ")
    super(StatementQuerySet, Statement.objects.all()).update(
        at=timezone.now() - timedelta(days=184))
    with pytest.raises(NotNow, match="six months"):
        open_appeal(author=alice, uid=quarantined.uid, text="Late.")


def test_a_suspended_person_appeals_and_writes_again_when_it_is_reversed(alice, mona, milo):
    statement = suspend_account(moderator=mona, person_pk=alice.pk, code="abuse", facts="Floods.")
    alice.refresh_from_db()
    appeal = open_appeal(author=alice, uid=statement.uid, text="It was not me.")
    decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=True, facts="It was not her.")
    alice.refresh_from_db()
    assert not alice.is_suspended


def test_what_the_rule_of_two_reports_hid_can_be_appealed_against(public, alice, mona):
    hide_now(by=None, about=f"unit/{public.pk}", reason="two reports")
    appeal = open_appeal(author=alice, uid=Statement.objects.get().uid, text="There is nothing.")
    decide_appeal(moderator=mona, appeal_pk=appeal.pk, reverse=True, facts="Nothing is there.")
    assert Unit.objects.published().exists()


def test_a_reporter_has_a_dismissed_report_looked_at_again(public, bob, mona, milo):
    report = receive_report(reporter=bob, about=f"unit/{public.pk}", code="spam", text="Ads.")
    first = resolve_report(moderator=mona, report_pk=report.pk, upheld=False,
                           code="not_supported", facts="No ad is there.")
    appeal = open_appeal(author=bob, uid=first.uid, text="Look at the notes.")
    decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=True, facts="The notes have one.")
    assert Report.objects.get().state == "open"
