"""A job whose worker dies each time stops coming back; one that is done is begun as ever."""
import pytest
from django_q.conf import Conf
from django_q.models import OrmQ, Task
from django_q.signals import pre_execute

from core.jobs_given_up import GivenUp
from tests.core.test_leased_jobs import no_thread  # noqa: F401

pytestmark = pytest.mark.django_db


@pytest.fixture
def job():
    row = OrmQ.objects.create(key="underplate", payload="", lock=None)
    return {"id": "1" * 32, "name": "drill", "func": "teardowns.jobs.sweep_records", "args": (),
            "kwargs": {}, "ack_id": row.pk}


def begin(job):
    OrmQ.objects.update(key="underplate")               # the process that had it is dead
    pre_execute.send(sender="django_q", func=None, task=job)


def test_it_is_begun_as_often_as_one_that_fails_and_then_given_up(job):
    for _ in range(Conf.MAX_ATTEMPTS):
        begin(job)
    assert OrmQ.objects.filter(pk=job["ack_id"]).exists()
    with pytest.raises(GivenUp):
        begin(job)
    parked = Task.objects.get(id=job["id"])
    assert not parked.success and "without a word" in parked.result
    assert not OrmQ.objects.filter(pk=job["ack_id"]).exists()


def test_another_job_is_not_counted_with_it(job):
    for number in range(2 * Conf.MAX_ATTEMPTS):
        begin(job | {"id": f"{number:032}"})
    assert not Task.objects.exists()


def test_a_job_that_is_run_by_hand_is_not_counted(job):
    for _ in range(2 * Conf.MAX_ATTEMPTS):
        begin(job | {"sync": True})
