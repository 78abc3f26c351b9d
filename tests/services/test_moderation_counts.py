"""Counts for everybody, without a name."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Report
from teardowns.services.appeal import decide_appeal, open_appeal
from teardowns.services.hide_now import hide_now
from teardowns.services.moderation_counts import moderation_counts
from teardowns.services.receive_report import receive_report
from teardowns.services.resolve_report import resolve_report, see_reporter
from tests.cast import person
from tests.published import published

pytestmark = pytest.mark.django_db
NOW = timezone.now()
DAY = timedelta(days=1)


def test_a_day_s_decisions_reports_and_appeals_are_counted(unit, mona, milo):
    published(unit)
    reports = [receive_report(reporter=person(name), about=f"unit/{unit.pk}", code="spam",
                              text="Ads.") for name in ("ann", "ben", "cat")]
    first = resolve_report(moderator=mona, report_pk=reports[0].pk, upheld=False,
                           code="not_supported", facts="No ad.")
    resolve_report(moderator=mona, report_pk=reports[1].pk, upheld=True, code="spam", facts="Ad.")
    see_reporter(moderator=mona, report_pk=reports[2].pk, reason="A ring is suspected.")
    hide_now(by=None, about=f"unit/{unit.pk}", reason="two reports")
    appeal = open_appeal(author=first.addressee, uid=first.uid, text="Look again.")
    decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=False, facts="No ad.")
    counts = moderation_counts(NOW - DAY, timezone.now() + DAY)
    assert (counts.reports, counts.upheld, counts.dismissed, counts.open) == (3, 1, 1, 1)
    assert sum(n for _, n in counts.decisions) == 4 and counts.automated == 1
    assert (counts.appeals, counts.reversed, counts.names_looked_up) == (1, 0, 1)


def test_the_median_is_of_the_hours_from_receipt_to_decision(unit, mona):
    for hours in (2, 4, 30):        # median of 2, 4 and 30 is 4
        at = NOW - timedelta(hours=40)
        report = Report.objects.create(about=f"unit/{unit.pk}", unit=unit, code="spam", harm=1,
                                       text="Ads.", due_at=NOW)
        Report.objects.filter(pk=report.pk).update(
            state="upheld", received_at=at, resolved_at=at + timedelta(hours=hours))
    assert moderation_counts(NOW - 2 * DAY, NOW + DAY).median_hours == pytest.approx(4)


def test_nothing_decided_is_no_number(db, django_assert_max_num_queries):
    with django_assert_max_num_queries(5):
        counts = moderation_counts(NOW - DAY, NOW)
    assert counts.median_hours is None and counts.decisions == ()
