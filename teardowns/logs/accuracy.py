"""What an instrument's stated limits of error make of a mean: a standard uncertainty, by parts."""
from __future__ import annotations

from math import hypot, sqrt

import numpy as np

from teardowns.logs.channels import Channel
from teardowns.logs.conditions import Accuracy, Conditions

# A typical hand-held meter, where nothing is stated: common practice, no source.
ASSUMED = Accuracy(0.005, 0.0, 2.0)
ASSUMED_OF_SCOPE = Accuracy(0.03, 0.0, 2.0)     # 8 bits and a probe: common practice, no source
SPREAD = sqrt(3)        # half-width of a rectangle to its standard deviation, JCGM 100 4.3.7

Budget = tuple[tuple[str, float], ...]


def accuracy_of(channel: Channel, conditions: Conditions) -> tuple[Accuracy, bool]:
    """The limits of error of a channel, and whether they were stated."""
    role = channel.column.role
    if role in conditions.accuracies:
        return conditions.accuracies[role], True
    return (ASSUMED_OF_SCOPE if role == "ripple_voltage" else ASSUMED), False


def limit_of_error(channel: Channel, conditions: Conditions, value: float) -> float:
    """How far a reading may be off at most, in the unit of the channel."""
    stated, _ = accuracy_of(channel, conditions)
    return stated.relative * abs(value) + stated.absolute + stated.digits * channel.step


def scatter_of_mean(values: np.ndarray) -> float:
    """Standard deviation of the mean of readings; those of a slow meter are no independent ones.

    values : (n,) without blanks. Readings that repeat are counted once. 0 for fewer than two.
    """
    if len(values) < 2:
        return 0.0
    fresh = 1 + np.count_nonzero(np.diff(values))
    return float(np.std(values)) / sqrt(fresh)


def reading_budget(channel: Channel, conditions: Conditions, value: float, name: str,
                   scatter: float = 0.0) -> Budget:
    """Source of error and its standard share, for the mean of a channel."""
    stated, is_stated = accuracy_of(channel, conditions)
    basis = "as stated" if is_stated else (
        f"assumed {100 * stated.relative:g} % + {stated.digits:g} digits")
    shares = ((f"{name} meter, {basis}", limit_of_error(channel, conditions, value) / SPREAD),
              (f"{name}, last digit", channel.step / (2 * SPREAD)),
              (f"{name}, scatter", scatter))
    return tuple((source, share) for source, share in shares if share > 0)


def together(budget: Budget) -> float:
    """Root of the sum of squares: shares that do not hang together."""
    return hypot(*(share for _, share in budget)) if budget else 0.0


def scaled(budget: Budget, factor: float) -> Budget:
    return tuple((source, abs(factor) * share) for source, share in budget)
