"""Time of the rules about safety: many units with eight paths each, beside a bare comparison.

python -m tests.bench.safety [units, default 100000]
"""
import os
import sys
import time

import numpy as np

from teardowns.engine import rulebook
from teardowns.engine.columns import Column, Frame
from teardowns.engine.safety import grade_units, with_derived
from teardowns.engine.subjects import Subjects, SubjectTable

PATHS, LAYERS, TARGET = 8, 6, 10.0        # a unit; seconds for 100 000 units
NAN = float("nan")


def fleet(n):
    """Columns of n units: eight paths, a stack of six layers and two parts each."""
    rng = np.random.default_rng(7)
    frame = Frame(n, {"rated_voltage_high": known(rng.choice([120.0, 240.0, NAN], n)),
                      "touch_current": known(rng.choice([1e-4, NAN], n))})
    paths = table("path", n, PATHS, {
        "barrier": rng.choice(["PRI_SEC", "PRI_ENC", "L_N"], n * PATHS),
        "path": rng.choice(["clearance", "creepage"], n * PATHS),
        "site": rng.choice(["", "board", "transformer"], n * PATHS),
        "shape": rng.choice(["", "", "", "slot", "groove"], n * PATHS),
        "distance": rng.uniform(5e-4, 9e-3, n * PATHS), "distance_u": np.full(n * PATHS, 1e-4),
        "width": rng.uniform(5e-4, 2e-3, n * PATHS), "straight": rng.uniform(1e-3, 4e-3, n * PATHS),
        "from_x": np.full(n * PATHS, -3e-3), "from_y": np.full(n * PATHS, 5e-3),
        "to_x": np.full(n * PATHS, 3e-3), "to_y": np.full(n * PATHS, 5e-3),
        "start": np.zeros(n * PATHS), "end": np.full(n * PATHS, 1e-2)})
    wound = np.tile(["primary", "", "secondary", "", "auxiliary", ""], n)
    layers = table("layer", n, LAYERS, {
        "position": np.tile(np.arange(1.0, LAYERS + 1), n), "winding": wound,
        "kind": np.where(wound == "", "insulation", "winding"),
        "state": np.full(n * LAYERS, "recorded"),
        "wire_insulation": np.where(wound == "", "", rng.choice(["enamel", "triple"], n * LAYERS)),
        "tape_layers": np.where(wound == "", rng.integers(0, 4, n * LAYERS), NAN)})
    parts = table("part", n, 2, {
        "role": np.tile(["barrier_capacitor", "fuse"], n), "state": np.full(2 * n, "recorded"),
        "safety_class": rng.choice(["Y1", "Y2", "X2", ""], 2 * n), "count": np.ones(2 * n),
        "part_voltage": rng.choice([125.0, 250.0], 2 * n)})
    return frame, Subjects({"path": paths, "layer": layers, "part": parts})


def known(values):
    return Column(values, np.where(np.isnan(values), NAN, 0.0), (~np.isnan(values)).astype(np.int8))


def table(on, n, each, columns):
    blank = SubjectTable.of(on, [])
    size = n * each
    filled = {name: columns.get(name, np.full(size, "" if part.dtype.kind == "U" else NAN))
              for name, part in blank.columns.items()}
    return SubjectTable(on, np.repeat(np.arange(n), each), filled,
                        np.full(size, "", object), np.arange(size))


def seconds(work):
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main(arguments):
    n = int(arguments[0]) if arguments else 100_000
    rules = rulebook.load().safety
    frame, subjects = fleet(n)
    load = os.getloadavg()[0]
    bulk = seconds(lambda: grade_units(rules, frame, with_derived(subjects, frame)))
    distance = subjects["path"].columns["distance"]
    bare = seconds(lambda: [(distance >= 3e-3).sum() for _ in rules])
    few = min(n, 200)
    alone = seconds(lambda: [one(rules, frame, subjects, row) for row in range(few)]) / few * n
    print(f"{n} units, {len(distance)} paths, {len(rules)} rules, load {load:.1f} before the run")
    print(f"all at once     {bulk:8.2f} s   {n / bulk:9.0f} units/s")
    print(f"bare comparison {bare:8.3f} s   of every path, once a rule; {bulk / bare:.0f} ×")
    print(f"one at a time   {alone:8.0f} s   from {few} units; {alone / bulk:.0f} × all at once")
    missed = bulk / n > TARGET / 100_000
    print(f"target: 100 000 units with {PATHS} paths in {TARGET:g} s:",
          "missed" if missed else "met")
    return 1 if missed else 0


def one(rules, frame, subjects, row):
    part, mine = frame.take([row]), subjects.of_units(row, row + 1)
    return grade_units(rules, part, with_derived(mine, part))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
