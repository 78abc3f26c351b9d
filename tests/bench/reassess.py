"""Re-assessing public units by the way of the command: how long, and how much of the processor.

python -m tests.bench.reassess [units, default 1000] [processes, default all] [of how many]

Over the units of DATABASE_URL or UNDERPLATE_DATA_DIR (tests.bench.many_units makes them), in
processes side by side: assessed, written back, the listing following. All is taken back. Copies
have no assessments of their own, and rows that are not those of their version: each is examined
twice. Exits 1 when so many units as named (100 000) would take more than 15 s.
"""
from __future__ import annotations

import os
import sys
import time
from contextlib import closing, contextmanager

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.db import connection, transaction  # noqa: E402
from django.db.models import Max  # noqa: E402

from teardowns.engine import rulebook  # noqa: E402
from teardowns.models import Assessment, Publication, StandingChange, Unit  # noqa: E402
from teardowns.services.list_units import list_units  # noqa: E402
from teardowns.services.reassess_publications import SLICE  # noqa: E402
from teardowns.services.reassess_together import reassess_together  # noqa: E402

BAR = 15.0                       # s
MOULDS = 200                     # units that the first copies stand behind


def main(units: int = 1000, processes: int = 0, of: int = 100_000) -> int:
    processes = processes or len(os.sched_getaffinity(0))
    rulebook.load()
    first = Unit.objects.published().order_by("pk").values_list("pk", flat=True)[MOULDS]
    with taken_back(first):
        wall, processor, done = timed(first, units, processes)
    seconds = of * wall / done
    print(f"{connection.vendor}, {done} units in slices of {SLICE}, {processes} processes: "
          f"{1e3 * wall / done:.1f} ms a unit, {1e3 * processor / done:.1f} ms of the processor"
          f"{' beside the database’s' if connection.vendor == 'postgresql' else ''}; load "
          f"{os.getloadavg()[0]:.1f}\n{of} units: {seconds:.0f} s (at most {BAR:g}), "
          f"{of / seconds:.0f} a second")
    return int(seconds > BAR)


def timed(first: int, units: int, processes: int) -> tuple[float, float, int]:
    """Seconds by the clock and of the processor, and how many units."""
    begun, before, done = time.perf_counter(), sum(os.times()[:4]), 0
    with closing(reassess_together(first, Unit.objects.count(), processes)) as reached:
        for until in reached:
            done = Unit.objects.filter(pk__gt=first, pk__lte=until).count()
            if done >= units:
                wall = time.perf_counter() - begun
                break
    # What the processes began beyond it is work as well, and counts.
    return wall, sum(os.times()[:4]) - before, done


@contextmanager
def taken_back(first: int):
    newest = {model: model.objects.aggregate(most=Max("pk"))["most"] or 0
              for model in (StandingChange, Assessment)}
    versions = Publication.objects.filter(unit__gt=first).order_by()
    stood = {pk: stand for pk, *stand in versions.values_list("pk", "standing", "standing_all")}
    yield
    with transaction.atomic():
        moved = list(versions.filter(standing__gt=newest[Assessment]).only("unit"))
        for one in moved:
            one.standing_id, one.standing_all_id = stood[one.pk]
        Publication.objects.bulk_update(moved, ["standing", "standing_all"], batch_size=200)
        for model, most in newest.items():
            model.objects.filter(pk__gt=most).delete()
        list_units([one.unit_id for one in moved])


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
