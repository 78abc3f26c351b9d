"""A report is resolved once, by somebody who has no part in it, with a statement of reasons."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Decision, Statement, Unit
from teardowns.services.receive_report import receive_report
from teardowns.services.resolve_report import resolve_report, see_reporter
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow
from tests.published import published

pytestmark = pytest.mark.django_db
WHY = {"code": "not_supported", "facts": "The figure is what the photo shows."}


@pytest.fixture
def report(unit, bob):
    published(unit)
    return receive_report(reporter=bob, about=f"unit/{unit.pk}", code="wrong_reading", text="No.")


@pytest.mark.parametrize(("upheld", "state", "decision"), [
    (True, "upheld", Decision.REPORT_UPHELD), (False, "dismissed", Decision.REPORT_DISMISSED)])
def test_its_reporter_gets_the_one_statement(report, bob, mona, upheld, state, decision):
    statement = resolve_report(moderator=mona, report_pk=report.pk, upheld=upheld, **WHY)
    report.refresh_from_db()
    assert report.state == state and report.resolved_at is not None
    assert (statement.decision, statement.addressee) == (decision, bob)
    assert Entry.objects.filter(action="report_resolved").count() == 1


def test_once(report, mona, milo):
    resolve_report(moderator=mona, report_pk=report.pk, upheld=False, **WHY)
    with pytest.raises(NotNow):
        resolve_report(moderator=milo, report_pk=report.pk, upheld=True, **WHY)
    assert Statement.objects.count() == 1


def test_not_about_own_content_nor_one_s_own_report_nor_by_another_role(report, rita, ada, mona,
                                                                        milo):
    Unit.objects.update(contributor=mona)
    report.reporter = milo
    report.save()
    for person in (rita, ada, mona, milo):
        with pytest.raises(Http404):
            resolve_report(moderator=person, report_pk=report.pk, upheld=True, **WHY)


def test_who_reported_is_told_for_a_reason_that_the_log_keeps(report, bob, mona):
    with pytest.raises(NoReason):
        see_reporter(moderator=mona, report_pk=report.pk, reason="")
    assert see_reporter(moderator=mona, report_pk=report.pk, reason="A ring is suspected.") == bob
    assert Entry.objects.get(action="reporter_seen").reason == "A ring is suspected."
