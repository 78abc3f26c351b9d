"""Conducted emission of class B equipment on the mains port: EN 55032."""
import numpy as np

from .table import Table

LIMITS = Table(
    "Conducted emission, class B", ("MHz up to", "quasi-peak, dBµV", "average, dBµV"),
    ((0.5, "66 to 56, linear with log f", "56 to 46"), (5, "56", "46"), (30, "60", "50")),
    "EN 55032, class B, a.c. mains port; the same in a handbook's table of EN 55022 and in a "
    "university's course page.", "A")
BELOW_QUASI_PEAK = 10.0          # dB
UNCERTAINTY = 3.5                # dB, expanded; application assumption


def quasi_peak_limit(frequency) -> np.ndarray:
    r"""Quasi-peak limit; at a band's edge the lower one. [dBµV]

    .. math:: 66 - 10 \lg(f / 0.15) / \lg(0.5 / 0.15)

    frequency : (m,) float [Hz]; NaN outside 0.15 to 30 MHz
    """
    mega = np.asarray(frequency, float) / 1e6
    slope = 66.0 - 10.0 * np.log10(mega / 0.15) / np.log10(0.5 / 0.15)
    found = np.where(mega <= 0.5, slope, np.where(mega <= 5.0, 56.0, 60.0))
    return np.where((mega >= 0.15) & (mega <= 30.0), found, np.nan)
