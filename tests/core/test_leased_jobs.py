"""A job stays with whoever works on it while they say so, and comes back soon when they died."""
from datetime import timedelta

import pytest
from django.utils import timezone
from django_q.brokers import get_broker
from django_q.conf import Conf
from django_q.models import OrmQ
from django_q.signals import post_execute_in_worker, pre_execute

from core import leased_jobs
from core.leased_jobs import AT_WORK, LEASE, LeasedJobs, Leases, NotOurs

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def no_thread(monkeypatch):
    """Leases are renewed where a test says so."""
    monkeypatch.setattr("core.leased_jobs.Thread.start", lambda thread: None)
    for name in ("waiting", "at_work"):
        monkeypatch.setattr(leased_jobs, name, Leases(getattr(leased_jobs, name)._lost))


@pytest.fixture
def queue():
    OrmQ.objects.all().delete()
    return get_broker()


@pytest.fixture
def job(queue):
    queue.enqueue("signed")
    (pk, _), = queue.dequeue()
    return {"id": "1" * 32, "name": "drill", "func": "x", "args": (), "kwargs": {}, "ack_id": pk}


def begin(job):
    pre_execute.send(sender="django_q", func=None, task=job)


def end(job, success):
    post_execute_in_worker.send(sender="django_q", func=None, task=job | {"success": success})


def pass_by(seconds):
    """As if so much time had gone by."""
    for row in OrmQ.objects.all():
        OrmQ.objects.filter(pk=row.pk).update(lock=row.lock - timedelta(seconds=seconds))


def left():
    return (OrmQ.objects.get().lock - timezone.now()).total_seconds()


def looked_for(queue):
    queue.looked = 0.0
    return queue.dequeue()


def test_it_is_the_queue_of_the_site(queue):
    assert isinstance(queue, LeasedJobs)


@pytest.mark.parametrize("has_begun", [False, True])
def test_a_job_of_a_process_that_died_is_found_by_the_next_within_half_a_minute(
        queue, job, has_begun):
    if has_begun:
        begin(job)
    assert not looked_for(queue)
    pass_by(LEASE + 1)
    assert looked_for(queue) == [(job["ack_id"], "signed")]
    assert LEASE + leased_jobs.LOOK < 30


def test_a_slow_job_stays_with_its_worker(queue, job):
    begin(job)
    for _ in range(3):
        leased_jobs.at_work.renew()
        assert left() == pytest.approx(LEASE, abs=2)
        assert not looked_for(queue)


def test_a_job_that_waits_behind_another_stays_with_who_took_it(queue, job):
    leased_jobs.waiting.renew()
    assert left() == pytest.approx(LEASE, abs=2) and not looked_for(queue)


def test_one_that_waits_very_long_is_let_go(job, monkeypatch):
    monkeypatch.setattr(leased_jobs.waiting, "_most", -1.0)
    before = OrmQ.objects.get().lock
    leased_jobs.waiting.renew()
    leased_jobs.waiting.renew()
    assert OrmQ.objects.get().lock == before


def test_a_second_copy_does_not_begin_beside_the_first_nor_after_it(queue, job):
    begin(job)
    with pytest.raises(NotOurs):
        begin(job)
    OrmQ.objects.all().delete()                  # done
    with pytest.raises(NotOurs):
        begin(job)


def test_who_lost_a_lease_to_another_ends_at_once(queue, job, monkeypatch):
    ended = []
    monkeypatch.setattr("os._exit", ended.append)
    begin(job)
    pass_by(LEASE + 1)                           # stood still, and another found the job
    looked_for(queue)
    leased_jobs.at_work.renew()
    assert ended == [1]


def test_a_job_that_is_gone_from_the_queue_ends_nobody(job, monkeypatch):
    monkeypatch.setattr("os._exit", pytest.fail)
    begin(job)
    OrmQ.objects.all().delete()
    leased_jobs.at_work.renew()


def test_one_that_failed_comes_back_later_and_nobody_keeps_it(queue, job):
    begin(job)
    end(job, success=False)
    leased_jobs.waiting.renew()
    leased_jobs.at_work.renew()
    assert left() == pytest.approx(Conf.RETRY, abs=2)
    assert OrmQ.objects.get().key == queue.list_key


def test_one_that_is_done_and_not_yet_taken_out_is_found_by_nobody(queue, job):
    begin(job)
    end(job, success=True)
    assert not looked_for(queue) and OrmQ.objects.get().key == AT_WORK


def test_a_job_that_is_run_by_hand_has_no_lease(job):
    job = {name: value for name, value in job.items() if name != "ack_id"}
    begin(job)
    end(job, success=True)
    assert OrmQ.objects.get().key != AT_WORK
