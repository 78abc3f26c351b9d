import pytest

from teardowns.models import Unit

pytestmark = pytest.mark.django_db


def test_logs_are_counted_once_they_can_be_seen(unit, recording):
    assert Unit.objects.with_logs().get(pk=unit.pk).logs == 1


def test_a_log_that_is_not_read_yet_is_not_counted(unit, laid_out):
    assert Unit.objects.with_logs().get(pk=unit.pk).logs == 0
