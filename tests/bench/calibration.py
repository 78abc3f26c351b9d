"""Scores the engine's probabilities on drawn chargers of known capability; exit 1 below the bars.

python -m tests.bench.calibration [chargers a regime, default 20000] [--variants]
"""
import sys
import time

import numpy as np

from tests.simulator.habits import REGIMES, USUAL, VARIANTS
from tests.simulator.scores import coverage, score
from tests.simulator.tables import CLAIMS
from tests.simulator.trial import join, run

CONDEMNED, CONDEMNED_HARD, RELIABILITY, COVERED = 0.005, 0.0005, 0.10, (0.85, 0.95)
MOST_POWER = (0, 1)     # the claims of most power, without and with a voltage; both are judged
VARIANT_SHARE = 3       # a variant draws so many times fewer chargers
HEADER = (f"{'regime':12} {'claims':16} {'n':>6} {'Brier':>6} {'met p<.1':>8} {'met p<.01':>9} "
          f"{'not met p>.9':>12} {'reliability':>11} {'90 % covers':>11}  missed (not judged)")


def misses(scores, covered):
    """Names of the bars that a set of scores misses: those on honest units, and the others."""
    honest = {"p<.1": scores.condemned > CONDEMNED,
              "p<.01": scores.condemned_hard > CONDEMNED_HARD}
    others = {"reliability": scores.reliability_error > RELIABILITY,
              "coverage": not COVERED[0] <= covered <= COVERED[1]}
    return [[name for name, missed in bars.items() if missed] for bars in (honest, others)]


def report(trial, regime, claims, mine, whole=False):
    """Print the scores of one group of claims; how many bars were missed.

    Honest units are protected in every row. Reliability and coverage are judged for the whole
    population: within one regime they also tell how far the drawn odds are from even odds.
    """
    covered = coverage(trial.capability, trial.low, trial.high)
    of = np.isin(trial.group, mine)
    scores = score(trial.p[of], trial.met[of])
    judged, others = misses(scores, covered)
    if whole:
        judged, others = judged + others, []
    shown = judged + [f"({name})" for name in others]
    print(f"{regime:12} {claims:16} {scores.claims:6} {scores.brier:6.4f} "
          f"{scores.condemned:8.4f} {scores.condemned_hard:9.5f} {scores.reassured:12.4f} "
          f"{scores.reliability_error:11.3f} {covered:11.3f}  {', '.join(shown) or '-'}")
    return len(judged)


def bins(trial):
    """Print the ten bins of the claims of most power."""
    of = np.isin(trial.group, MOST_POWER)
    print("\np from  claims  mean p  met")
    for k, (count, mean, true) in enumerate(score(trial.p[of], trial.met[of]).reliability):
        print(f"{k / 10:6.1f} {count:7} {mean:7.3f} {true:6.3f}")


def population(name, n, habits):
    print(f"\n{name}, {n} chargers a regime\n{HEADER}")
    trials = [run(n, seed, regime, habits) for seed, regime in enumerate(REGIMES, 1)]
    missed = sum(report(trial, regime.name, label, (k,))
                 for trial, regime in zip(trials, REGIMES, strict=True)
                 for k, label in enumerate(CLAIMS))
    together = join(trials)
    missed += sum(report(together, "all", CLAIMS[k], (k,), whole=True) for k in MOST_POWER)
    return missed, together


def main(arguments):
    n = next((int(word) for word in arguments if word.isdigit()), 20_000)
    start = time.perf_counter()
    missed, together = population("usual habits", n, USUAL)
    bins(together)
    if "--variants" in arguments:       # shown, not judged: makers other than the engine expects
        for name, habits in VARIANTS.items():
            population(name, n // VARIANT_SHARE, habits)
    print(f"\n{missed} bars missed under usual habits; {time.perf_counter() - start:.0f} s")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
