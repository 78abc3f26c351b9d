"""The like of one unit among all, beside comparing it with every one of them; and what is missed.

python -m tests.bench.similar [queries, default 20] [compared in full, default 3]

Over the units of DATABASE_URL or UNDERPLATE_DATA_DIR (tests.bench.many_units makes them). Recall:
of the ten best scores that comparing with everybody finds, how many the index reaches; where many
units tie, any of them will do. Exits 1 when a bar is missed.
"""
from __future__ import annotations

import os
import sys
import time
from random import Random
from statistics import median

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.db import connection  # noqa: E402

from teardowns.likeness.compare import compare  # noqa: E402
from teardowns.likeness.features import from_plain  # noqa: E402
from teardowns.likeness.words import words  # noqa: E402
from teardowns.models import Likeness  # noqa: E402
from teardowns.services.similar_units import rarities_of, similar_units  # noqa: E402

BAR = 0.100                  # s, of one unit against 100 000
BEST = 10
LEAST_RECALL = 0.9


def main(queries: int = 20, in_full: int = 3) -> int:
    pks = list(Likeness.objects.order_by("pk").values_list("pk", flat=True))
    drawn = Random(8).sample(pks, min(queries, len(pks)))
    similar_units(drawn[0])                              # the pages of the index are read once
    times = [_timed(lambda pk=pk: similar_units(pk)) for pk in drawn]
    print(f"{connection.vendor}, {len(pks)} units, {len(drawn)} asked for")
    print(f"by the index   median {1e3 * median(times):7.1f} ms, slowest {1e3 * max(times):7.1f}")
    reached = [_recall(pk) for pk in drawn[:in_full]]
    recall = sum(share for share, _ in reached) / len(reached)
    whole = median(seconds for _, seconds in reached)
    print(f"with everybody median {1e3 * whole:7.1f} ms, {whole / median(times):.0f} times as long")
    print(f"recall of the {BEST} best scores {recall:.3f}")
    met = median(times) <= BAR and recall >= LEAST_RECALL
    print(f"target: {1e3 * BAR:.0f} ms, recall {LEAST_RECALL}:", "met" if met else "missed")
    return int(not met)


def _recall(pk: int) -> tuple[float, float]:
    """The share of the best scores that the index reaches, and how long it takes without."""
    start = time.perf_counter()
    mine = from_plain(Likeness.objects.get(unit=pk).features)
    rarities = rarities_of(words(mine))
    scores = sorted((compare(mine, from_plain(theirs), rarities.units_with, rarities.units).score
                     for theirs in _others(pk)), reverse=True)[:BEST]
    seconds = time.perf_counter() - start
    found = [one.score for one in similar_units(pk, limit=BEST, least=0.0)]
    wanted = [score for score in scores if score > 0]
    reached = sum(score >= best - 1e-9 for score, best in zip(found, wanted, strict=False))
    return (reached / len(wanted) if wanted else 1.0), seconds


def _others(pk):
    return Likeness.objects.exclude(unit=pk).values_list("features", flat=True).iterator(2000)


def _timed(run) -> float:
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:3])))
