import pytest

from teardowns.models import Assessment, Unit

pytestmark = pytest.mark.django_db


def assessed(unit, day):
    row = Assessment.objects.create(unit=unit, rulebook=f"3-{day}", evidence_digest=f"{day:064d}",
                                    payload={"day": day})
    Assessment.objects.filter(pk=row.pk).update(created_at=f"2026-11-{day:02d}T12:00:00Z")


def test_a_unit_that_was_assessed_often_comes_once_and_with_the_newest(unit):
    for day in (3, 9, 5):
        assessed(unit, day)
    found, = Unit.objects.with_stored("payload")
    assert found.stored_payload == {"day": 9}


def test_one_that_was_never_assessed_comes_without(unit):
    found, = Unit.objects.with_stored("payload")
    assert found.stored_payload is None


def test_logs_are_counted_once_they_can_be_seen(unit, recording):
    assert Unit.objects.with_logs().get(pk=unit.pk).logs == 1


def test_a_log_that_is_not_read_yet_is_not_counted(unit, laid_out):
    assert Unit.objects.with_logs().get(pk=unit.pk).logs == 0
