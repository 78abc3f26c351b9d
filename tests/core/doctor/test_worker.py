from datetime import timedelta

import pytest
from django.core.cache import caches
from django.utils import timezone
from django_q import core_signing
from django_q.conf import Conf
from django_q.models import OrmQ, Schedule, Task
from django_q.signing import PickleSerializer, SignedPackage
from django_q.status import Status

from tests.core.doctor.found import bad, found

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def clock(db):
    Schedule.objects.all().delete()
    return Schedule.objects.create(name="daily", func="x", next_run=timezone.now())


def says_it_is_alive(signed):
    caches[Conf.CACHE].set("cluster:1", signed, 3)
    caches[Conf.CACHE].set(Conf.Q_STAT, ["cluster:1"], None)


@pytest.fixture
def worker():
    said = Status(pid=1, cluster_id=1)
    said.workers, said.host = [2, 3], "web-1"
    says_it_is_alive(SignedPackage.dumps(said))
    return said


def test_a_worker_that_says_so_is_alive(worker):
    assert ("good", "Worker processes alive on web-1: 2.") in found("worker")
    assert bad("worker") == ""


def test_none_that_says_so_is_a_fault():
    assert "No worker is alive" in bad("worker")


def test_a_worker_with_another_key_is_a_fault(worker):
    says_it_is_alive(core_signing.dumps(worker, key="another", salt=Conf.PREFIX,
                                        serializer=PickleSerializer))
    assert "another SECRET_KEY" in bad("worker")


def test_jobs_that_wait_for_long_are_said(worker):
    OrmQ.objects.create(key="x", payload="x", lock=timezone.now() - timedelta(minutes=11))
    assert "1 of 1 jobs have waited" in bad("worker")


def test_very_many_jobs_are_said(worker):
    now = timezone.now()
    OrmQ.objects.bulk_create([OrmQ(key="x", payload="x", lock=now)] * 501)
    assert "501 jobs wait" in bad("worker")


def test_what_is_late_by_the_clock_is_named(worker, clock):
    Schedule.objects.update(next_run=timezone.now() - timedelta(hours=3))
    assert "“daily” should have run" in bad("worker")
    clock.delete()
    assert "Nothing is set to happen" in bad("worker")


def test_jobs_that_failed_are_named(worker):
    now = timezone.now()
    Task.objects.create(id="1", name="n", func="teardowns.jobs.x", started=now, stopped=now,
                        success=False)
    assert "1 jobs teardowns.jobs.x failed" in bad("worker")
