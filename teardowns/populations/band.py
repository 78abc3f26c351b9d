"""Where one more unit of a population would be expected, from a relation of two of its quantities.

The line is a robust one in ln against ln; its prediction interval counts how far units lie from
the line and how well the line is known. It says nothing beyond the smallest and largest unit.
"""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.engine.habits import LEAST_RANGE, LEAST_UNITS
from teardowns.engine.physics.robust_fit import huber_fit, prediction_half_width

COVERAGE = 0.9          # of further units expected inside, as the site's intervals of capability
TOO_FEW, TOO_ALIKE, UNRELATED = "too few", "too alike", "unrelated"     # why there is no band


@dataclass(frozen=True, slots=True)
class Band:
    """ln y = intercept + slope·(ln x − middle), with the spread of single units around it.

    n : units of the fit; square : Σ(ln x − middle)²; residual_sd : n − 2 degrees of freedom [ln y]
    smallest, largest : x of the fit; outside of them everything is NaN
    """

    n: int
    intercept: float
    slope: float
    middle: float
    square: float
    residual_sd: float
    smallest: float
    largest: float

    def line(self, x: np.ndarray) -> np.ndarray:
        """(n,) float, the middle of the band; NaN outside of the units of the fit. [y]"""
        return np.exp(self.intercept + self.slope * self._away(x))

    def factor(self, x: np.ndarray) -> np.ndarray:
        r"""By how much a further unit may differ from the line, times or divided by. [1]

        .. math:: \exp\left(t_{(1+q)/2,\,n-2}\; s \sqrt{1 + 1/n + (\ln x - m)^2 / S}\right)

        Parameters
        ----------
        x : (n,) float
            Sizes. [as those of the fit]

        Returns
        -------
        (n,) float
            NaN outside of the units of the fit. [1]

        Errors
        ------
        Formula: for normal residuals in ln; 95 % as sharp where a few units are odd.

        References
        ----------
        .. [1] N. R. Draper, H. Smith, Applied Regression Analysis, 3rd ed., Wiley 1998, 3.1, the
           interval of a new observation (from memory); the same as NIST/SEMATECH e-Handbook of
           Statistical Methods, 4.5.2.1, prediction intervals (from memory).
        """
        away = self._away(x)
        leverage = 1 / self.n + away * away / self.square
        return np.exp(prediction_half_width(self.residual_sd, leverage, self.n - 2, COVERAGE))

    def _away(self, x: np.ndarray) -> np.ndarray:
        inside = (x >= self.smallest) & (x <= self.largest)
        return np.log(np.where(inside, x, np.nan)) - self.middle


def prediction_band(x: np.ndarray, y: np.ndarray) -> Band | str:
    """The band of units, or why there is none: TOO_FEW, TOO_ALIKE or UNRELATED.

    x, y : (n,) float > 0, of the same units; pairs with an unknown are left out. It takes as many
    units and as wide a range as the habits of the method do.
    """
    known = (x > 0) & (y > 0) & np.isfinite(x) & np.isfinite(y)
    if known.sum() < LEAST_UNITS:
        return TOO_FEW
    x, y = x[known], y[known]
    if x.max() < LEAST_RANGE * x.min():
        return TOO_ALIKE
    order = np.lexsort((y, x))                   # the same units in another order: the same bits
    ln_x, ln_y = np.log(x[order]), np.log(y[order])
    away = ln_x - ln_x.mean()
    fit = huber_fit(np.stack([np.ones(len(x)), away], 1), ln_y)
    intercept, slope = fit.coefficients.tolist()
    if not slope > 0:
        return UNRELATED
    return Band(len(x), intercept, slope, float(ln_x.mean()), float((away * away).sum()),
                fit.residual_sd, float(x.min()), float(x.max()))
