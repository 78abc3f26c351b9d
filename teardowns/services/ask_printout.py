"""Ask for a record on paper: it is made once, by the worker, however often it is asked for."""
from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from django.db import transaction
from django.db.models import Q
from django.utils import timezone
from django_q.tasks import async_task

from teardowns.models import Printout, PrintoutState, Publication

JOB = "teardowns.jobs.make_printout"
STUCK = timedelta(minutes=5)     # a worker that has made one for longer is gone
IDLE = timedelta(seconds=45)     # nobody has begun for longer: perhaps no worker runs


def ask_printout(*, digest: str, versions: Sequence[Publication], language: str = "en"
                 ) -> Printout:
    """The printout of this digest, queued unless it is made or being made. Two who ask at once
    get the same one, and the worker makes it once."""
    now = timezone.now()
    names = [[one.unit_id, one.number] for one in versions]
    with transaction.atomic():
        printout, is_new = Printout.objects.get_or_create(
            digest=digest, defaults={"versions": names, "language": language, "asked_at": now,
                                     "used_on": now.date()})
        if is_new or _begin_again(printout, now):
            transaction.on_commit(lambda: async_task(JOB, printout.pk))
    printout.refresh_from_db()
    return printout


def _begin_again(printout, now):
    """Whether it was put back to its beginning: one row says so to one asker alone."""
    stopped = Q(state=PrintoutState.FAILED) | Q(
        state=PrintoutState.MAKING, began_at__lt=now - STUCK) | Q(
        state=PrintoutState.WAITING, asked_at__lt=now - STUCK)
    return bool(Printout.objects.filter(stopped, pk=printout.pk).update(
        state=PrintoutState.WAITING, step=0, asked_at=now, began_at=None))


def seems_stuck(printout: Printout) -> bool:
    """Whether a worker began it and has not been heard of since."""
    began = printout.began_at or printout.asked_at
    return printout.state == PrintoutState.MAKING and began < timezone.now() - STUCK


def waits_long(printout: Printout) -> bool:
    """Whether nobody has begun for so long that a reader has to be told."""
    return (printout.state == PrintoutState.WAITING
            and printout.asked_at < timezone.now() - IDLE)
