"""Random load sweeps of known truth: how many are read right, and none falsely.

python -m tests.bench.load_tests [sweeps, default 2000]
"""
import sys
import time

from tests.logs.load_tests.scores import LEAST, LEAST_READ, is_enough, scores_of, shares


def main(sweeps=2000):
    begun = time.perf_counter()
    counts, missed = scores_of(range(sweeps))
    took = time.perf_counter() - begun
    is_missed = False
    for asked, count in counts.items():
        right, read = shares(count)
        is_missed |= not is_enough(asked, count)
        print(f"{asked:5} right {100 * right:6.2f} % of what was read, read {100 * read:5.1f} % "
              f"(asked {100 * LEAST_READ[asked]:g} %), false {count['false']}")
    for (asked, result), seeds in sorted(missed.items()):
        print(f"{asked} {result}: {len(seeds)}, seeds {seeds[:12]}")
    print(f"{sweeps} sweeps in {took:.0f} s; asked: {100 * LEAST:g} % right, and no power said "
          "to be lost that was not")
    return 1 if is_missed else 0


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
