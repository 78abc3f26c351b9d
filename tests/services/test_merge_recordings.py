"""The mains side that another log holds: found by its steps, laid beside, or left out."""
import pytest

from teardowns.models import Recording, Unit
from teardowns.services.merge_recordings import (
    OffsetUnknown,
    channels_beside,
    input_log_of,
    offset_between,
)
from tests.views.log_page import held

pytestmark = pytest.mark.django_db


@pytest.fixture
def log(alice, unit, tmp_path):
    return held(alice, unit, tmp_path)


def named(log, key):
    log.conditions = log.conditions | {"input_log": key}
    return log


def test_without_another_log_there_are_its_own_columns(log):
    with channels_beside(log) as channels:
        assert [one.column.role for one in channels.channels] == ["output_voltage",
                                                                  "output_current"]


def test_a_log_of_another_unit_is_none_of_its_own(alice, log, tmp_path):
    other = held(alice, Unit.objects.create(contributor=alice, title="Another"), tmp_path, 1.5)
    other.key = "load-sweep-9"
    other.save()
    assert input_log_of(named(log, other.key)) is None
    with pytest.raises(OffsetUnknown, match="not here any more"):
        offset_between(log, other.key)


def test_a_log_that_was_taken_down_is_left_out(log, recording):
    assert input_log_of(named(log, recording.key)) == recording
    Recording.objects.filter(pk=recording.pk).update(taken_down_at=recording.created_at)
    assert input_log_of(log) is None


def test_logs_without_a_common_power_say_what_to_do(log, recording):
    with pytest.raises(OffsetUnknown, match="write the offset by hand"):
        offset_between(log, recording.key)
