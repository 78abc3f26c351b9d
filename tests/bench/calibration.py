"""Scores the engine's probabilities on drawn chargers of known capability; exit 1 below the bars.

python -m tests.bench.calibration [chargers a regime, default 20000]
    [--variants]    other makers one by one, shown and not judged
    [--no-lines]    without the table of what each line of evidence is worth
    [--plot FILE]   reliability as SVG
"""
import sys
import time
from pathlib import Path

from tests.simulator.habits import REGIMES, UNSEEN, USUAL, VARIANTS
from tests.simulator.plot import bars, svg
from tests.simulator.scores import coverage
from tests.simulator.tables import CLAIMS
from tests.simulator.trial import MOST_POWER, join, run
from tests.simulator.worth import weigh_lines

CONDEMNED, CONDEMNED_HARD, RELIABILITY, COVERED = 0.003, 0.0003, 0.07, (0.88, 0.93)
REASSURED, NOTICED = 0.005, 0.97
UNSEEN_SEED = 4711
VARIANT_SHARE = 3       # a variant draws so many times fewer chargers
WORTH = 700             # chargers a regime for the worth of lines, at most
HEADER = (f"{'regime':15}{'claims':17}{'n':>6}  {'Brier':>6}  {'met<.1':>7} {'met<.01':>7}  "
          f"{'1.5x>.9':>7}  {'3x<.1':>6} {'of':>5}  {'reliab.':>7} {'90 %':>6}  "
          "missed (not judged)")


def misses(scores, covered):
    """Names of the bars that a set of scores misses: those on honest units, and the others."""
    honest = {"p<.1": scores.condemned > CONDEMNED,
              "p<.01": scores.condemned_hard > CONDEMNED_HARD}
    others = {"reassured": scores.reassured > REASSURED,
              "threefold": scores.noticed < NOTICED,
              "reliability": scores.reliability_error > RELIABILITY,
              "coverage": not COVERED[0] <= covered <= COVERED[1]}
    return [[name for name, missed in bars.items() if missed] for bars in (honest, others)]


def report(trial, regime, claims, mine, whole=False):
    """Print the scores of one group of claims; how many bars were missed.

    Honest units are protected in every row. The other bars are judged for the whole population:
    within one regime they also tell how far the drawn odds are from even odds.
    """
    covered = coverage(trial.capability, trial.low, trial.high)
    scores = trial.score(mine)
    judged, others = misses(scores, covered)
    if whole:
        judged, others = judged + others, []
    shown = judged + [f"({name})" for name in others]
    print(f"{regime:15}{claims:17}{scores.claims:6}  {scores.brier:6.4f}  {scores.condemned:7.4f} "
          f"{scores.condemned_hard:7.5f}  {scores.reassured:7.4f}  {scores.noticed:6.3f} "
          f"{scores.threefold:5}  {scores.reliability_error:7.3f} {covered:6.3f}  "
          f"{', '.join(shown) or '-'}")
    return len(judged)


def population(name, n, makers, seed=1):
    """Print a population's scores; how many bars it missed, and its trials as one.

    makers : habits, each of which draws its share of the chargers
    """
    print(f"\n{name}, {n} chargers a regime\n{HEADER}")
    trials = [join([run(n // len(makers), seed + 100 * k + place, regime, habits)
                    for place, habits in enumerate(makers)])
              for k, regime in enumerate(REGIMES)]
    missed = sum(report(trial, regime.name, label, (k,))
                 for trial, regime in zip(trials, REGIMES, strict=True)
                 for k, label in enumerate(CLAIMS))
    together = join(trials)
    missed += sum(report(together, "all", CLAIMS[k], (k,), whole=True) for k in MOST_POWER)
    print("\np from claims  mean p     met")
    print("\n".join(bars(together.score().reliability)))
    return missed, together


def lines(n):
    """Print what each line of evidence is worth."""
    print(f"\nworth of the lines, {n} chargers a regime; without a line: Brier, honest p < .1, "
          f"reliability\n{'line':36}{'seen':>6} {'met':>7} {'not met':>8}   {'Brier':>7} "
          f"{'met<.1':>7} {'reliab.':>8}")
    for one in sorted(weigh_lines(n, 900, REGIMES), key=lambda one: -one.brier):
        print(f"{one.line:36}{one.seen:6.2f} {one.met:+7.2f} {one.not_met:+8.2f}   "
              f"{one.brier:+7.4f} {one.condemned:7.4f} {one.reliability:8.3f}")


def main(arguments):
    n = next((int(word) for word in arguments if word.isdigit()), 20_000)
    start = time.perf_counter()
    missed, usual = population("usual habits", n, (USUAL,))
    more, unseen = population("makers nobody tuned to", n // 2, UNSEEN, UNSEEN_SEED)
    if "--variants" in arguments:
        for name, habits in VARIANTS.items():
            population(name, n // VARIANT_SHARE, (habits,))
    if "--no-lines" not in arguments:
        lines(min(n, WORTH))
    if "--plot" in arguments:
        curves = {"usual habits": usual, "other makers": unseen}
        Path(arguments[arguments.index("--plot") + 1]).write_text(
            svg({name: trial.score().reliability for name, trial in curves.items()}))
    print(f"\n{missed} bars missed under usual habits, {more} by makers nobody tuned to; "
          f"{time.perf_counter() - start:.0f} s")
    return 1 if missed + more else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
