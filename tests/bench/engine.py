"""Time and memory of the engine: many units at once, one unit, and two baselines of the same run.

python -m tests.bench.engine [units, default 100000]
"""
import os
import resource
import statistics
import sys
import time

import numpy as np

from teardowns.engine import pipeline, rulebook
from tests.simulator.habits import Regime
from tests.simulator.trial import draw

LOOP, REPEATS, POINTS, CHUNK = 200, 50, 400, 2000
REGIME = Regime("bench", 0.6, 0.4)
TARGET_SECONDS, TARGET_UNIT = 20.0, 0.050       # 100 000 units; one unit


def seconds(work):
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def one_grid(claims):
    """Bare numpy: one bell curve on a grid of POINTS for each claim."""
    grid = np.linspace(-3.4, 0.5, POINTS)
    for start in range(0, claims, CHUNK):
        middle = np.linspace(-1, 1, min(CHUNK, claims - start))[:, None]
        np.exp(-0.5 * ((middle - grid) / 0.3) ** 2).sum(axis=1)


def peak_megabytes():
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main(arguments):
    n = int(arguments[0]) if arguments else 100_000
    book = rulebook.load()
    *_, evidence, claims, _ = draw(n, 1, REGIME)
    before = peak_megabytes()
    load, spent = os.getloadavg()[0], time.process_time()
    bulk = seconds(lambda: pipeline.assess(evidence, claims, book))
    spent = time.process_time() - spent
    peak = peak_megabytes()
    grid = seconds(lambda: one_grid(claims.row.size))
    singles = [draw(1, seed, REGIME)[2:4] for seed in range(LOOP)]
    loop = seconds(lambda: [pipeline.assess(*tables, book) for tables in singles]) / LOOP * n
    unit = statistics.median(
        seconds(lambda: pipeline.assess(*singles[0], book)) for _ in range(REPEATS))

    print(f"rulebook {book.version}: {n} units, {claims.row.size} claims, {evidence.row.size} rows")
    print(f"all at once     {bulk:8.2f} s   {n / bulk:9.0f} units/s, {spent:.1f} s of processor")
    print(f"machine         {os.cpu_count():8} processors, load {load:.1f} before the run")
    print(f"memory          {peak:8.0f} MB at the peak, {before:.0f} MB before")
    print(f"one bare grid   {grid:8.2f} s   a claim each; the engine takes {bulk / grid:.0f} ×")
    print(f"one at a time   {loop:8.0f} s   from {LOOP} units; {loop / bulk:.0f} × all at once")
    print(f"one unit        {unit * 1e3:8.1f} ms  median of {REPEATS}")
    missed = bulk / n > TARGET_SECONDS / 100_000 or unit > TARGET_UNIT
    print("targets: 100 000 units in 20 s, one unit in 50 ms:", "missed" if missed else "met")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
