"""A job is in somebody's hands for some seconds, and longer for as long as they say so.

The queue that comes with the workers gives a job back three minutes after it was taken, whatever
became of who took it. Here a job waits behind a worker, or is being done, on a lease that its own
process renews; a process that died renews nothing, and the next that looks for work finds the job.
One that is slow keeps it, and no second copy of a job begins while another is being done.
"""
from __future__ import annotations

import logging
import os
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from math import inf
from threading import Lock, Thread

from django.db import Error, connection
from django.utils import timezone
from django_q.brokers.orm import ORM
from django_q.conf import Conf
from django_q.models import OrmQ

LEASE = 20.0        # s; a job of a process that died comes back after as many
BEAT = 5.0          # s between two words that it is still in hand
LOOK = 2.0          # s between two looks for jobs whose process died
AT_WORK = f"{Conf.CLUSTER_NAME} at work"      # the key of a job that is being done

log = logging.getLogger(__name__)


class NotOurs(Exception):
    """Ends the worker's process, which the cluster starts anew: a second copy of a job that another
    is doing, or that is done."""


class LeasedJobs(ORM):
    """The queue in the database, with leases."""

    looked = 0.0

    def timeout(self, task):
        return _until(LEASE)

    def dequeue(self):
        if time.monotonic() - self.looked > LOOK:
            self.looked = time.monotonic()
            hand_back(self.list_key)
        taken = super().dequeue()
        if taken:
            held = OrmQ.objects.filter(pk__in=[pk for pk, _ in taken])
            for pk, until in held.values_list("pk", "lock"):
                waiting.hold(pk, until)
        return taken


def hand_back(key: str) -> None:
    """Put what nobody works on any more into the queue again. Looks before it writes: SQLite has
    one writer."""
    left = OrmQ.objects.filter(key=AT_WORK, lock__lt=timezone.now())
    if left.exists():
        left.update(key=key)


class Leases:
    """Jobs in the hands of this process, whose leases a thread renews.

    most : s for which one is renewed
    """

    def __init__(self, lost: Callable[[int], None], most: float = inf):
        self._lost, self._most = lost, most
        self._held: dict[int, tuple[datetime, float]] = {}      # until, and since when
        self._lock, self._thread = Lock(), Thread(target=self._go_on, daemon=True)

    def hold(self, pk: int, until: datetime) -> None:
        with self._lock:
            self._held[pk] = until, time.monotonic()
        if not self._thread.is_alive():
            self._thread = Thread(target=self._go_on, daemon=True)
            self._thread.start()

    def let_go(self, pk: int) -> None:
        with self._lock:
            self._held.pop(pk, None)

    def renew(self) -> None:
        with self._lock:
            for pk, (known, since) in list(self._held.items()):
                until = _until(LEASE)
                if time.monotonic() - since > self._most:
                    del self._held[pk]
                elif OrmQ.objects.filter(pk=pk, lock=known).update(lock=until):
                    self._held[pk] = until, since
                else:                   # begun by a worker, done, or taken for lost
                    del self._held[pk]
                    self._lost(pk)

    def _go_on(self):
        while True:
            time.sleep(BEAT)
            try:
                self.renew()
            except Error:
                log.warning("A lease could not be renewed; it is tried again.", exc_info=True)
            finally:
                connection.close()


def _until(seconds: float) -> datetime:
    return timezone.now() + timedelta(seconds=seconds)


def _give_way(pk: int) -> None:
    """Another may be doing our job by now: this process ends before it does more of it."""
    if OrmQ.objects.filter(pk=pk).exists():
        log.error("The lease of job %s was lost; the process ends.", pk)
        os._exit(1)


# Of the process that takes jobs from the queue. A worker that died with one before it began it
# tells nobody, so that one that waits very long is let go.
waiting = Leases(lambda pk: None, 3 * Conf.TIMEOUT)
at_work = Leases(_give_way)             # of a process that does them


def begin(sender, func, task, **kwargs):
    """Receiver of `pre_execute`, in the process that is about to do the job."""
    pk, until = task.get("ack_id"), _until(LEASE)
    if not pk:
        return                          # done by hand, without a queue
    if not OrmQ.objects.filter(pk=pk).exclude(key=AT_WORK).update(key=AT_WORK, lock=until):
        raise NotOurs(task["name"])
    at_work.hold(pk, until)


def end(sender, func, task, **kwargs):
    """Receiver of `post_execute_in_worker`. What is done is taken out of the queue by whoever keeps
    results; what failed comes back later."""
    if not (pk := task.get("ack_id")):
        return
    at_work.let_go(pk)
    again = {"lock": _until(LEASE)} if task["success"] else {
        "key": Conf.CLUSTER_NAME, "lock": _until(Conf.RETRY)}
    try:
        OrmQ.objects.filter(pk=pk, key=AT_WORK).update(**again)
    except Error:                       # it comes back when the lease is over
        log.warning("What became of job %s could not be written.", pk, exc_info=True)
