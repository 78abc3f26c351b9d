"""What waits is read in few queries, each list in its order."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Appeal, Report, Status, Unit
from teardowns.services.moderation_desk import (
    open_appeals,
    open_reports,
    piles,
    waiting_units,
    with_since_and_owner,
)
from teardowns.services.state_reasons import give_reasons
from teardowns.services.take_charge import take_charge

pytestmark = pytest.mark.django_db
NOW = timezone.now()


def report(unit, harm, hours, **other):
    return Report.objects.create(about=f"unit/{unit.pk}", unit=unit, code="spam", harm=harm,
                                 text="Ads.", due_at=NOW + timedelta(hours=hours), **other)


def test_reports_come_by_harm_and_then_by_time_left(unit, mona):
    late, urgent, soon = report(unit, 1, 9), report(unit, 3, 20), report(unit, 1, 2)
    report(unit, 3, 1, state="upheld", resolved_at=NOW)
    assert list(open_reports(mona)) == [urgent, soon, late]


def test_records_come_by_how_long_they_wait_and_drafts_do_not(alice, mona):
    first, second, draft = (Unit.objects.create(contributor=alice, title=str(n)) for n in range(3))
    for unit, hours in ((first, 5), (second, 50)):
        Unit.objects.filter(pk=unit.pk).update(status=Status.SUBMITTED,
                                               submitted_at=NOW - timedelta(hours=hours))
    assert list(waiting_units(mona)) == [second, first]


def test_a_quarantined_record_waits_whatever_its_state(unit, mona):
    Unit.objects.update(status=Status.PUBLISHED, quarantined_at=NOW)
    assert waiting_units(mona).get().since == NOW


def test_appeals_come_by_their_clock_with_their_owner(unit, alice, mona):
    opened = [Appeal.objects.create(
        statement=give_reasons(decision="quarantine", code="spam", facts="Ads.", unit=unit, by=mona,
                               subject=f"unit/{unit.pk}", addressee=alice),
        author=alice, text="No.", due_at=NOW + timedelta(days=days)) for days in (9, 3)]
    take_charge(moderator=mona, subject=f"appeal/{opened[0].pk}")
    found = list(open_appeals())
    assert found == opened[::-1] and [one.owner for one in found] == [None, "mona"]


def test_one_query_counts_all_piles(unit, django_assert_num_queries):
    report(unit, 1, 9)
    with django_assert_num_queries(1):
        found = piles()
    assert found["reports"].count == 1 and found["reports"].oldest is not None
    assert found["parts"].count == 0 and found["parts"].oldest is None


def test_a_case_that_is_closed_keeps_its_owner(unit, mona):
    case = report(unit, 1, 9, state="upheld", resolved_at=NOW)
    take_charge(moderator=mona, subject=f"report/{case.pk}")
    assert with_since_and_owner(Report.objects.filter(pk=case.pk)).get().owner == "mona"


def test_what_a_moderator_has_a_part_in_waits_for_another(unit, mona, milo):
    Unit.objects.update(status=Status.SUBMITTED, contributor=mona, submitted_at=NOW)
    case = report(unit, 1, 9)
    assert not waiting_units(mona) and not open_reports(mona)
    assert waiting_units(milo).get() == unit and open_reports(milo).get() == case


def test_an_own_report_waits_for_another(unit, mona, milo):
    case = report(unit, 1, 9, reporter=mona)
    assert not open_reports(mona) and open_reports(milo).get() == case
