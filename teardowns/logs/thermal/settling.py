"""The temperature that a body under constant load settles at, from the way it approaches it."""
from __future__ import annotations

from dataclasses import dataclass
from math import exp, hypot, inf, nan, sqrt

import numpy as np

BLOCKS = 240              # means that a curve is fitted to: noise averages out, the shape stays
FEWEST = 12               # blocks below which no curve is fitted
TIMES = 120               # time constants tried, spaced evenly in ln
REACHES = (0.05, 5.0)     # shortest and longest time constant tried, in spans of the record
LATE = 1 / 3              # share of the record left out by the second fit, past the fast bodies


@dataclass(frozen=True, slots=True)
class Settling:
    """final and last [°C], their standard uncertainty from scatter and form [K]."""

    final: float              # where the curve ends
    scatter: float            # by the noise of the readings
    form: float               # by the departure from one time constant
    last: float               # of the curve, at the end of the record
    time_constant: float      # s

    @property
    def uncertainty(self) -> float:
        return hypot(self.scatter, self.form)


def settle(time, temperature) -> Settling | None:
    r"""Fit of one time constant to a record; None where the record does not bend.

    .. math:: T(t) = T_\infty + A\,\mathrm{e}^{-t/\tau}

    Parameters
    ----------
    time : (n,) float
        Ascending. [s]
    temperature : (n,) float
        NaN where nothing was read. [°C]

    Returns
    -------
    Settling
        Every part in K or °C; None for fewer than 12 means or for a straight line.

    Errors
    ------
    Formula: a charger is several bodies; what a second fit, without the first third, moves the end
    by is taken as the standard uncertainty of the form. Scatter: least squares, widened by how
    far neighbouring residuals agree (an AR(1) process).

    References
    ----------
    .. [1] Newton's law of cooling; F. P. Incropera et al., Fundamentals of Heat and Mass Transfer,
       chapter 5, lumped capacitance method (from memory).
    """
    blocks = _means(np.asarray(time, float), np.asarray(temperature, float))
    whole = _fit(*blocks)
    if whole is None:
        return None
    skip = int(len(blocks[0]) * LATE)
    late = _fit(blocks[0][skip:], blocks[1][skip:])
    form = inf if late is None else abs(late[0] - whole[0])
    final, amplitude, constant, scatter = whole if late is None else late
    last = final + amplitude * exp(-blocks[0][-1] / constant)
    return Settling(final, scatter, form, last, constant)


def drift(time, temperature) -> tuple[float, float]:
    """(K/s, its standard uncertainty) The slope of the straight line through a record."""
    time, temperature = _means(np.asarray(time, float), np.asarray(temperature, float))
    if len(time) < 3:
        return nan, nan
    centred = time - time.mean()
    slope = centred @ temperature / (centred @ centred)
    residual = temperature - temperature.mean() - slope * centred
    spread = sqrt(residual @ residual / (len(time) - 2) * _widening(residual))
    return float(slope), spread / sqrt(centred @ centred)


def _means(time, temperature):
    """Means of consecutive readings, at most `BLOCKS` of them."""
    read = np.isfinite(temperature)
    time, temperature = time[read], temperature[read]
    if len(time) <= BLOCKS:
        return time, temperature
    edges = np.linspace(0, len(time), BLOCKS + 1).astype(int)
    count = np.diff(edges)
    return (np.add.reduceat(time, edges[:-1]) / count,
            np.add.reduceat(temperature, edges[:-1]) / count)


def _fit(time, temperature):
    """(final, amplitude at time 0, time constant, standard uncertainty of final), or None."""
    if len(time) < FEWEST or (span := time[-1] - time[0]) <= 0:
        return None
    tried = span * np.geomspace(*REACHES, TIMES)
    found = [_at(time, temperature, constant) for constant in tried]
    best = int(np.argmin([squares for *_, squares in found]))
    if best in (0, TIMES - 1):
        return None               # a step, or a straight line: no bend to tell an end by
    final, amplitude, squares = found[best]
    constant = float(tried[best])
    decay = np.exp(-(time - time[0]) / constant)
    # Columns: what the curve moves by with its end, its amplitude and ln of its time constant.
    slopes = np.stack([np.ones_like(decay), decay,
                       amplitude * decay * (time - time[0]) / constant], 1)
    residual = temperature - final - amplitude * decay
    covariance = np.linalg.pinv(slopes.T @ slopes) * squares / (len(time) - 3)
    scatter = sqrt(max(covariance[0, 0], 0.0) * _widening(residual))
    return final, amplitude * exp(time[0] / constant), constant, scatter


def _at(time, temperature, constant):
    """Least squares for the end and the amplitude at one time constant."""
    decay = np.exp(-(time - time[0]) / constant)
    away = decay - decay.mean()
    amplitude = away @ (temperature - temperature.mean()) / (away @ away)
    final = temperature.mean() - amplitude * decay.mean()
    residual = temperature - final - amplitude * decay
    return float(final), float(amplitude), float(residual @ residual)


def _widening(residual):
    """How far residuals that follow each other widen a variance: (1 + r)/(1 − r)."""
    total = residual @ residual
    if total <= 0 or len(residual) < 3:
        return 1.0
    r = min(max(residual[1:] @ residual[:-1] / total, 0.0), 0.98)
    return (1 + r) / (1 - r)
