"""The ring after demagnetisation: inductance and capacitance of the node, about the bus voltage."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

MOST = 1500               # samples that a fit looks at
STEPS = 12                # of Gauss and Newton; from the grid it takes 3 to 6


@dataclass(frozen=True, slots=True)
class Ring:
    centre: float             # V, on the capture's own scale
    frequency: float          # Hz
    decay: float              # 1/s
    centre_u: float
    frequency_u: float
    residual: float           # V rms of what the fit leaves
    periods: float            # how many of them were seen


def fit_ring(values: np.ndarray, step: float, guess: float) -> Ring:
    """centre + exp(−s·t)·(a·cos + b·sin): least squares, from a grid about the guess [Hz]."""
    stride = -(-len(values) // MOST)
    seen, time = values[::stride], np.arange(0, len(values), stride) * step
    frequency, decay = _best_of_grid(seen, time, guess)
    found = np.array([*_linear(seen, time, frequency, decay)[0], frequency, decay])
    for _ in range(STEPS):
        change, *_ = np.linalg.lstsq(_slopes(found, time), seen - _curve(found, time), rcond=1e-12)
        nearer = _nearer(seen, time, found, change, guess)
        if nearer is None:
            break
        found = nearer
    left = seen - _curve(found, time)
    residual = float(np.sqrt(left @ left / max(len(seen) - 5, 1)))
    spread = residual * np.sqrt(np.maximum(np.diag(_covariance(_slopes(found, time))), 0.0))
    return Ring(float(found[0]), float(found[3]), float(found[4]), float(spread[0]),
                float(spread[3]), residual, float(found[3] * len(values) * step))


def _best_of_grid(seen, time, guess):
    # So heavy a damping that one period leaves 1 % of it is no ring any more.
    pairs = [(f, s * f) for f in guess * np.geomspace(0.6, 1.7, 29) for s in (0.03, 0.2, 0.7, 2.0)]
    return min(pairs, key=lambda pair: _linear(seen, time, *pair)[1])


def _nearer(seen, time, found, change, guess):
    """As much of the change as helps, within what can ring; None where nothing does."""
    best = _square(seen, time, found)
    for part in (1.0, 0.5, 0.25, 0.06):
        tried = found + part * change
        inside = 0.5 < tried[3] / guess < 2.0 and 0 <= tried[4] < 5 * guess
        if inside and _square(seen, time, tried) < best * (1 - 1e-9):
            return tried
    return None


def _square(seen, time, found):
    left = seen - _curve(found, time)
    return float(left @ left)


def _linear(seen, time, frequency, decay):
    angle, envelope = 2 * np.pi * frequency * time, np.exp(-decay * time)
    columns = np.stack([np.ones_like(time), envelope * np.cos(angle), envelope * np.sin(angle)], 1)
    linear = np.linalg.solve(columns.T @ columns + 1e-12 * len(time) * np.eye(3),
                             columns.T @ seen)
    left = seen - columns @ linear
    return linear, float(left @ left)


def _curve(found, time):
    centre, a, b, frequency, decay = found
    angle = 2 * np.pi * frequency * time
    return centre + np.exp(-decay * time) * (a * np.cos(angle) + b * np.sin(angle))


def _slopes(found, time):
    _, a, b, frequency, decay = found
    angle, envelope = 2 * np.pi * frequency * time, np.exp(-decay * time)
    cos, sin = envelope * np.cos(angle), envelope * np.sin(angle)
    return np.stack([np.ones_like(time), cos, sin, 2 * np.pi * time * (b * cos - a * sin),
                     -time * (a * cos + b * sin)], 1)


def _covariance(slopes):
    scale = np.sqrt((slopes * slopes).sum(axis=0)) + 1e-300
    scaled = slopes / scale
    return np.linalg.pinv(scaled.T @ scaled) / np.outer(scale, scale)


def inductance_capacitance(frequency):
    r"""Inductance times capacitance of what rings.

    .. math:: L C = \frac{1}{(2\pi f_r)^2}

    Parameters
    ----------
    frequency : (n,) float
        Of the ring after demagnetisation. [Hz]

    Returns
    -------
    (n,) float
        Product. [s²]

    Errors
    ------
    Formula: exact without damping; ten periods to 1/e change it by 0.03 %.

    Examples
    --------
    >>> round(inductance_capacitance(480.96e3) / 1.5e-3 * 1e12, 1)
    73.0

    References
    ----------
    .. [1] Resonance of an inductance with a capacitance.
    """
    angular = 2 * np.pi * frequency
    return 1 / (angular * angular)


def capacitance_by_addition(before, after, added):
    r"""Capacitance of a node from the ring before and after a known one is added.

    .. math:: C_0 = \frac{C_a}{(f_0/f_1)^2 - 1}

    Parameters
    ----------
    before, after : (n,) float
        Frequency of the ring without and with the added capacitor. [Hz]
    added : (n,) float
        The added capacitor. [F]

    Returns
    -------
    (n,) float
        Capacitance without it. [F]

    Errors
    ------
    Formula: exact for a capacitance that does not move with voltage.
    Inputs: dC/C = dCa/Ca and 2 r²/(r² − 1) times the relative error of r = f0/f1.

    Examples
    --------
    >>> capacitance_by_addition(2.0, 1.0, 3.0)
    1.0

    References
    ----------
    .. [1] Same inductance in both: L(C0 + Ca)·(2π f1)² = L·C0·(2π f0)² = 1. The frequency halves
       when Ca = 3·C0, the familiar rule for sizing a snubber (from memory).
    """
    ratio = before / after
    return added / (ratio * ratio - 1)
