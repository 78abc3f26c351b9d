"""Time of cutting the longest plate text that the form takes, beside a quarter of it.

python -m tests.bench.plate_text [characters, default 4000]
"""
import sys
import time

from teardowns.reading.plates.tokens import tokenise
from tests.reading.plates.hostile import PIECES

RATIO = 8.0          # four times the text; a quadratic pattern takes sixteen times as long


def seconds(text):
    best = float("inf")
    for _ in range(5):
        started = time.process_time()
        tokenise(text)
        best = min(best, time.process_time() - started)
    return best


def main(arguments):
    size = int(arguments[0]) if arguments else 4000
    worst = 0.0
    for piece in PIECES:
        short, long = (seconds((piece * length)[:length]) for length in (size // 4, size))
        worst = max(worst, long / short)
        print(f"{piece!r:16} {1e3 * long:7.1f} ms   {long / short:5.1f} × a quarter of it")
    missed = worst > RATIO
    print(f"target: at most {RATIO:g} ×:", "missed" if missed else "met")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
