"""Re-assessing public units, slice after slice, and what of it the engine takes.

python -m tests.bench.reassess [units, default 300] [of how many, default 100000]

Over the units of DATABASE_URL or UNDERPLATE_DATA_DIR (tests.bench.many_units makes them), by the
way of the job: assessed, written back, the listing following. All is taken back. Exits 1 when
so many units as named would take more than 15 s.
"""
from __future__ import annotations

import os
import sys
import time

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.db import connection, transaction  # noqa: E402

from teardowns.engine import rulebook  # noqa: E402
from teardowns.models import Unit  # noqa: E402
from teardowns.services import assess_units  # noqa: E402
from teardowns.services.reassess_publications import SLICE, reassess_slice  # noqa: E402

BAR = 15.0                       # s
# With SQLite all is done in this process: what else runs on the machine does not count.
CLOCK = time.perf_counter if connection.vendor == "postgresql" else time.process_time


def main(units: int = 300, of: int = 100_000) -> int:
    rulebook.load()
    in_engine, inner = [], assess_units.verdicts

    def verdicts(*asked):
        begun = CLOCK()
        try:
            return inner(*asked)
        finally:
            in_engine.append(CLOCK() - begun)

    assess_units.verdicts = verdicts
    try:
        taken, done = slices(units)
    finally:
        assess_units.verdicts = inner
    seconds = of * taken / done
    print(f"{connection.vendor}, {done} units in slices of {SLICE}: {1e3 * taken / done:.1f} ms a "
          f"unit, of it in the engine {1e3 * sum(in_engine) / done:.1f} ms; load "
          f"{os.getloadavg()[0]:.1f}\n{of} units one after the other: {seconds:.0f} s (at most "
          f"{BAR:g}), {of / seconds:.0f} a second")
    return int(seconds > BAR)


def slices(units: int) -> tuple[float, int]:
    """Seconds, and how many units; copies have no assessments of their own, so all are computed."""
    at = Unit.objects.published().order_by("pk").values_list("pk", flat=True)[200]
    with transaction.atomic():
        begun, done = CLOCK(), 0
        while done < units and at is not None:
            at = reassess_slice(at)
            done += SLICE
        taken = CLOCK() - begun
        transaction.set_rollback(True)
    return taken, done


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
