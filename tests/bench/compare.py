"""The comparison of two and of six units, beside the page of one of them.

python -m tests.bench.compare [runs, default 15] [numbers of units …]

Over the units of DATABASE_URL or UNDERPLATE_DATA_DIR (tests.bench.many_units makes them); without
numbers, spread over those that are listed. Exits 1 when the bar is missed.
"""
from __future__ import annotations

import os
import sys
import time
from collections.abc import Sequence
from statistics import fmean, median

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.conf import settings  # noqa: E402
from django.db import connection  # noqa: E402
from django.test import Client, override_settings  # noqa: E402
from django.test.utils import CaptureQueriesContext  # noqa: E402

from teardowns.models import ListedUnit  # noqa: E402

SIX, BAR = 6, 3.0                   # times the page of one unit
MOST_QUERIES = 12
# Static files need not be collected for this.
PLAIN = {"staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}}


@override_settings(STORAGES=settings.STORAGES | PLAIN)
def main(runs: int = 15, units: Sequence[int] = ()) -> int:
    units = list(units) or spread()
    pages = {"one unit": [f"/units/{pk}/" for pk in units],
             "two compared": [address(units[:2])], "six compared": [address(units)]}
    queries = {name: max(map(asked, addresses)) for name, addresses in pages.items()}
    times = {name: [] for name in pages}
    for _ in range(runs):
        for name, addresses in pages.items():
            times[name].append(fmean(map(took, addresses)))
    one = median(times["one unit"])
    print(f"{connection.vendor}, {ListedUnit.objects.count()} units, medians of {runs} "
          f"interleaved runs; the page of one unit is the mean over {len(units)}")
    for name, found in times.items():
        print(f"{name:13} {median(found):7.1f} ms   {median(found) / one:5.2f} ×   "
              f"{queries[name]} queries   {size(pages[name][0]) / 1e3:6.1f} kB")
    met = median(times["six compared"]) <= BAR * one and max(queries.values()) <= MOST_QUERIES
    print(f"target: six ≤ {BAR:g} × one unit, ≤ {MOST_QUERIES} queries:",
          "met" if met else "missed")
    return int(not met)


def spread() -> list[int]:
    """Six listed units, as far apart as they are."""
    pks = list(ListedUnit.objects.listed().order_by("pk").values_list("pk", flat=True))
    return [pks[len(pks) * i // SIX] for i in range(SIX)]


def address(units) -> str:
    return f"/compare/?units={','.join(map(str, units))}"


def answer(page):
    found = Client(SERVER_NAME="localhost").get(page)
    if found.status_code != 200:
        raise SystemExit(f"{page} answers {found.status_code}")
    return found


def asked(page) -> int:
    """How many queries a page costs; asked for once before it is timed."""
    with CaptureQueriesContext(connection) as queries:
        answer(page)
    return len(queries)


def took(page) -> float:
    begun = time.perf_counter()
    answer(page)
    return 1e3 * (time.perf_counter() - begun)


def size(page) -> int:
    return len(answer(page).content)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:2]), units=[int(pk) for pk in sys.argv[2:]]))
