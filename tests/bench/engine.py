"""Time and memory of the engine: many units at once, one unit, and two baselines of the same run.

python -m tests.bench.engine [units, default 100000]
"""
import os
import resource
import statistics
import sys
import time
from dataclasses import replace
from functools import partial

import numpy as np

from teardowns.engine import pipeline, rulebook
from teardowns.engine.report import report
from tests.simulator.habits import Regime
from tests.simulator.trial import draw

LOOP, REPEATS, POINTS, CHUNK = 200, 50, 400, 2000
REGIME = Regime("bench", 0.6, 0.4)
TARGET_SECONDS, TARGET_UNIT = 15.0, 0.020       # 100 000 units; one unit with its report
TARGET_MEGABYTES = 1000         # of the process at 100 000 units, with what it took to draw them


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


def one(evidence, claims, row):
    """The tables of one unit alone."""
    mine, said = (np.flatnonzero(table.row == row) for table in (evidence, claims))
    alone, its = evidence.take(mine), claims.take(said)
    return (replace(alone, units=np.zeros(1, int), row=np.zeros(len(mine), int)),
            replace(its, row=np.zeros(len(said), int)))


def whole_report(tables, book):
    return report(pipeline.assess(*tables, book), 0)


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
    singles = [one(evidence, claims, row) for row in range(LOOP)]
    loop = seconds(lambda: [pipeline.assess(*tables, book) for tables in singles]) / LOOP * n
    unit = statistics.median(
        seconds(partial(whole_report, tables, book)) for tables in singles[:REPEATS])

    print(f"rulebook {book.version}: {n} units, {claims.row.size} claims, {evidence.row.size} rows")
    print(f"all at once     {bulk:8.2f} s   {n / bulk:9.0f} units/s, {spent:.1f} s of processor")
    print(f"machine         {os.cpu_count():8} processors, load {load:.1f} before the run")
    print(f"memory          {peak:8.0f} MB at the peak, {before:.0f} MB before")
    print(f"one bare grid   {grid:8.2f} s   a claim each; the engine takes {bulk / grid:.0f} ×")
    print(f"one at a time   {loop:8.0f} s   from {LOOP} units; {loop / bulk:.0f} × all at once")
    print(f"one unit        {unit * 1e3:8.1f} ms  with its report, median of {REPEATS} units")
    missed = [name for name, over in {
        "100 000 units in 15 s": bulk / n > TARGET_SECONDS / 100_000,
        "one unit in 20 ms": unit > TARGET_UNIT,
        "1 GB": n <= 100_000 and peak > TARGET_MEGABYTES}.items() if over]
    print("targets: 100 000 units in 15 s and 1 GB, one unit in 20 ms:",
          f"missed: {', '.join(missed)}" if missed else "met")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
