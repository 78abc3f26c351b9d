"""Pictures of all units, beside the same page with its picture drawn and its units chosen already.

python -m tests.bench.population [runs, default 15]

Over the units of DATABASE_URL or UNDERPLATE_DATA_DIR (tests.bench.many_units makes them). Exits 1
when a bar is missed.
"""
from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.conf import settings  # noqa: E402
from django.db import connection  # noqa: E402
from django.template.loader import render_to_string  # noqa: E402
from django.test import Client, override_settings  # noqa: E402
from django.test.utils import CaptureQueriesContext, setup_test_environment  # noqa: E402

from teardowns.models import ListedUnit  # noqa: E402
from teardowns.presenting.population_kinds import KINDS  # noqa: E402
from tests.bench.browse import quickest  # noqa: E402

BAR = 10.0                  # times the rendering alone
MOST_BYTES, MOST_QUERIES = 150_000, 12
TEMPLATE = "teardowns/population.html"
# Static files need not be collected for this.
PLAIN = {"staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}}


@override_settings(STORAGES=settings.STORAGES | PLAIN)
def main(runs: int = 15) -> int:
    setup_test_environment()
    unit = ListedUnit.objects.listed().exclude(mass=None).exclude(measured_power=None).first()
    pages = {kind: f"/population/?of={kind}&unit={unit.pk}" for kind in KINDS}
    pages["narrowed"] = f"{pages['mass']}&verdict=supported&verdict=possible"
    print(f"{connection.vendor}, {ListedUnit.objects.listed().count()} units, the quickest of "
          f"{runs} runs in turns, in time of the processor")
    met = [measured(name, page, runs) for name, page in pages.items()]
    print(f"target: ≤ {BAR:g} × the rendering, ≤ {MOST_BYTES / 1e3:g} kB, ≤ {MOST_QUERIES} "
          "queries:", "met" if all(met) else "missed")
    return int(not all(met))


def measured(name: str, page: str, runs: int) -> bool:
    client = Client(SERVER_NAME="localhost")
    first = timed(lambda: client.get(page))
    with CaptureQueriesContext(connection) as queries:
        found = client.get(page)
    asked = len(queries)                 # before the next request empties the log
    context = {key: value for layer in found.context for one in layer for key, value in one.items()}
    whole, bare = quickest([lambda: client.get(page), lambda: render_to_string(TEMPLATE, context)],
                           runs)
    ratio, size = whole / bare, len(found.content)
    print(f"{name:12} {1e3 * whole:7.1f} ms = {ratio:5.2f} × rendering {1e3 * bare:6.1f} ms; "
          f"the first {first:7.1f} ms; {asked} queries, {size / 1e3:6.1f} kB")
    return ratio <= BAR and size <= MOST_BYTES and asked <= MOST_QUERIES


def timed(call: Callable[[], object]) -> float:
    begun = time.perf_counter()
    call()
    return 1e3 * (time.perf_counter() - begun)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
