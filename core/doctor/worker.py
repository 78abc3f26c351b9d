"""Whether a worker is alive, keeps up, and does what happens by the clock."""
from datetime import timedelta

from django.utils import timezone
from django_q.models import OrmQ, Schedule, Task

from core.doctor.findings import examines, fault, good, warning
from core.workers import other_keys, workers_alive

LATE, WAITED, MANY = timedelta(hours=2), timedelta(minutes=10), 500
START = "Start one: manage.py qcluster, or the unit underplate-worker of fixtures/deploy/."


@examines("worker", asks_database=True)
def a_worker_is_alive():
    alive = workers_alive()
    if other_keys():
        yield fault("A worker runs with another SECRET_KEY: what it takes from the queue it cannot "
                    "read, and throws away.", "Stop it, give it the key of the site, start it.")
    elif not alive:
        yield fault("No worker is alive: photos, logs and mails wait.", START)
    else:
        hosts = sorted({each.host for each in alive})
        processes = sum(len(each.workers) for each in alive)
        yield good(f"Worker processes alive on {', '.join(hosts)}: {processes}.")


@examines("worker", asks_database=True)
def the_queue_is_short():
    now = timezone.now()
    waiting, old = OrmQ.objects.count(), OrmQ.objects.filter(lock__lt=now - WAITED).count()
    if old:
        yield warning(f"{old} of {waiting} jobs have waited for longer than "
                      f"{WAITED.seconds // 60} minutes.", f"{START} Or raise WORKERS.")
    elif waiting > MANY:
        yield warning(f"{waiting} jobs wait.", "Raise WORKERS, or run workers on another host.")
    else:
        yield good(f"Jobs that wait: {waiting}, none for long.")


@examines("worker", asks_database=True)
def the_clock_is_kept():
    if not Schedule.objects.exists():
        yield fault("Nothing is set to happen by the clock.", "Run manage.py migrate.")
        return
    late = Schedule.objects.filter(next_run__lt=timezone.now() - LATE).exclude(repeats=0)
    for name in late.values_list("name", flat=True):
        yield warning(f"“{name}” should have run more than two hours ago.", START)


@examines("worker", asks_database=True)
def jobs_succeed():
    day = timezone.now() - timedelta(days=1)
    failed = Task.objects.filter(success=False, stopped__gt=day)
    for func in sorted(set(failed.values_list("func", flat=True))):
        yield warning(f"{failed.filter(func=func).count()} jobs {func} failed since yesterday.",
                      "Their reason stands in the worker's log; they were tried five times.")
