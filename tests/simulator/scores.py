"""How good a set of probabilities is, against what was true."""
from dataclasses import dataclass

import numpy as np

BINS = 10
ENOUGH = 200            # fewer claims in a bin say nothing about it
HALF_AGAIN, THREEFOLD = 1.5, 3.0        # claim over what the unit reaches


@dataclass(frozen=True, slots=True)
class Scores:
    claims: int
    brier: float                    # mean squared error of p
    condemned: float                # share of met claims with p < 0.1
    condemned_hard: float           # … with p < 0.01
    reassured: float                # share of claims of half again and more with p > 0.9
    noticed: float                  # share of threefold claims on ordinary evidence with p < 0.1
    threefold: int                  # how many those are
    reliability_error: float        # largest |mean p − share met| of the bins with enough claims
    reliability: tuple              # (claims, mean p, share met) a bin


def score(p, met, overstated=None, ordinary=None):
    """p, met : (m,) probability that each claim is met, and whether it is.

    overstated : (m,) claim over truth; ordinary : (m,) bool, whether the usual clues are there.
    """
    overstated = np.where(met, 1.0, HALF_AGAIN) if overstated is None else overstated
    ordinary = np.zeros(p.shape, bool) if ordinary is None else ordinary
    bins = tuple(reliability(p, met))
    gross = ordinary & (overstated >= THREEFOLD)
    return Scores(
        claims=p.size, brier=float(np.mean((p - met) ** 2)),
        condemned=share(p[met] < 0.1), condemned_hard=share(p[met] < 0.01),
        reassured=share(p[overstated >= HALF_AGAIN] > 0.9),
        noticed=share(p[gross] < 0.1), threefold=int(gross.sum()), reliability=bins,
        reliability_error=max((abs(mean - true) for count, mean, true in bins if count >= ENOUGH),
                              default=0.0))


def reliability(p, met):
    """(claims, mean p, share met) of each tenth of the scale; NaN where it is empty."""
    # Rounded first: even odds lie on the edge of a bin, and the last bit must not choose it.
    index = np.minimum((p * BINS).round(6).astype(int), BINS - 1)
    for k in range(BINS):
        inside = index == k
        yield int(inside.sum()), share(p[inside]), share(met[inside])


def share(flags):
    """Mean, NaN of nothing."""
    return float(np.mean(flags)) if len(flags) else float("nan")


def coverage(truth, low, high):
    """Share of the units with an interval, and a truth, whose interval holds the truth."""
    known = ~np.isnan(low) & ~np.isnan(truth)
    return share((truth >= low)[known] & (truth <= high)[known])
