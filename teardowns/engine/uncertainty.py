"""First-order propagation in ln, by stepping each input one standard uncertainty.

GUM (JCGM 100:2008), 5.1.3, note 2: half of f(x + u) − f(x − u).
"""
import numpy as np

from .quantities import QUANTITIES
from .rule import Rule


def within(code: str, values):
    """Values kept to what can exist of a quantity; other columns as they are."""
    if (quantity := QUANTITIES.get(code)) is None:
        return values
    return np.clip(values, quantity.low, quantity.high)


def steps(rule: Rule, columns) -> list[bool]:
    """Whether each input is worth a step: flags and exact numbers are not."""
    return [bool(np.any(column.u > 0)) and not _is_flag(code)
            for code, column in zip(rule.reads, columns, strict=True)]


def _is_flag(code):
    return code in QUANTITIES and QUANTITIES[code].is_flag


def contributions(rule: Rule, columns, value) -> list[np.ndarray]:
    """What each input adds to the standard uncertainty of ln(result), the inputs in order.

    Where a step leaves the formula's range, the other step alone counts.
    """
    inputs = [column.value for column in columns]
    parts = []
    for j, stepped in enumerate(steps(rule, columns)):
        parts.append(_step(rule, inputs, j, columns[j].u, value) if stepped
                     else np.zeros(np.shape(value)))
    return parts


def correlated(rule: Rule, parts, scales, rows) -> np.ndarray:
    """(k,) What is added to the variance where inputs were read from the same photo scale.

    Their errors are taken as wholly common: GUM (JCGM 100:2008), 5.2.2, note 1, with r = 1.
    parts : (reads, k) float; scales : (n,) int by code, −1 none; rows : (k,) int
    """
    extra = np.zeros(len(rows))
    measured = [(j, scales[code][rows]) for j, code in enumerate(rule.reads) if code in scales]
    for at, (j, scale) in enumerate(measured):
        for k, other in measured[at + 1:]:
            extra += np.where((scale >= 0) & (scale == other), 2 * parts[j] * parts[k], 0.0)
    return extra


def _step(rule, inputs, j, u, value):
    above, below = (
        np.log(rule.compute(*inputs[:j], within(rule.reads[j], inputs[j] + step),
                            *inputs[j + 1:]))
        for step in (u, -u)
    )
    middle = np.log(value)
    one_sided = np.where(np.isfinite(above), above - middle, middle - below)
    both = np.isfinite(above) & np.isfinite(below)
    return np.nan_to_num(np.where(both, (above - below) / 2, one_sided),
                         nan=0.0, posinf=0.0, neginf=0.0)
