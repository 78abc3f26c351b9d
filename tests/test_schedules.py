"""What the worker does by the clock: every job is there, once, and an operator's choice stays."""
import pytest
from django_q.models import Schedule

from teardowns import jobs
from teardowns.schedules import BY_THE_CLOCK, keep_schedules

pytestmark = pytest.mark.django_db


def test_every_scheduled_job_is_one():
    assert all(callable(getattr(jobs, job)) for job in BY_THE_CLOCK)


def test_it_can_be_run_again():
    keep_schedules()
    keep_schedules()
    assert sorted(Schedule.objects.values_list("name", flat=True)) == sorted(BY_THE_CLOCK)


def test_what_an_operator_changed_stays():
    keep_schedules()
    Schedule.objects.filter(name="send_digests").update(schedule_type=Schedule.WEEKLY)
    keep_schedules()
    assert Schedule.objects.get(name="send_digests").schedule_type == Schedule.WEEKLY
