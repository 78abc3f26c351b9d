"""How good a set of probabilities is, against what was true."""
from dataclasses import dataclass

import numpy as np

BINS = 10
ENOUGH = 200            # fewer claims in a bin say nothing about it


@dataclass(frozen=True, slots=True)
class Scores:
    claims: int
    brier: float                    # mean squared error of p
    condemned: float                # share of met claims with p < 0.1
    condemned_hard: float           # … with p < 0.01
    reassured: float                # share of claims not met with p > 0.9
    reliability_error: float        # largest |mean p − share met| of the bins with enough claims
    reliability: tuple              # (claims, mean p, share met) a bin


def score(p, met):
    """p, met : (m,) probability that each claim is met, and whether it is."""
    bins = tuple(reliability(p, met))
    return Scores(
        claims=p.size, brier=float(np.mean((p - met) ** 2)),
        condemned=share(p[met] < 0.1), condemned_hard=share(p[met] < 0.01),
        reassured=share(p[~met] > 0.9), reliability=bins,
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
    """Share of the units with an interval whose interval holds the truth."""
    known = ~np.isnan(low)
    return share((truth >= low)[known] & (truth <= high)[known])
