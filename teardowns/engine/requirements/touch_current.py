"""Current through the capacitance across the barrier into somebody who touches the output."""
import numpy as np

from .table import Table

LIMITS = Table(
    "Touch current", ("Standard", "mA rms"),
    (("IEC 60950-1, table 5A, class II", 0.25), ("IEC 62368-1, ES1", 0.5),
     ("IEC 62368-1, ES2, after a single fault", 5.0), ("IEC 62368-1, ES1, d.c.", 2.0),
     ("IEC 62368-1, ES2, d.c.", 25.0), ("IEC 60950-1, metal parts of class I", 3.5)),
    "0.25 mA and 3.5 mA: a product-safety list, 0.25 mA also a list of current levels; ES1 and ES2 "
    "(62368-1:2018, 5.2.2.2, table 4; a.c. to 1 kHz) from memory.", "C")
LEGACY, ES1, ES2 = 0.25e-3, 0.5e-3, 5e-3        # A rms
ABOVE_RATED = 1.1                               # of the highest rated voltage
USUAL_MAINS = 240.0                             # V, where the plate was not read
HIGHEST_FREQUENCY = 60.0                        # Hz
UNREAD_TOLERANCE = 0.2                          # ± of a capacitance; application assumption


def touch_current(capacitance, voltage, frequency) -> np.ndarray:
    r"""Current through a capacitance across the barrier: an upper bound of the touch current.

    .. math:: I = 2 \pi f C U

    Parameters
    ----------
    capacitance : (m,) float
        Of all capacitors across the barrier together. [F]
    voltage : (m,) float
        Mains, rms. [V]
    frequency : (m,) float
        Of the mains. [Hz]

    Returns
    -------
    (m,) float
        Current, rms. [A]

    Errors
    ------
    Formula: an upper bound; the rectified bus carries less line-frequency voltage against earth.

    Examples
    --------
    >>> round(touch_current(1.0e-9, 240.0, 50.0) * 1e3, 4)
    0.0754

    References
    ----------
    .. [1] Definition of the reactance; IEC 60990 for the measurement.
    """
    return 2.0 * np.pi * frequency * capacitance * voltage


def largest_capacitance(limit, voltage, frequency) -> np.ndarray:
    """The capacitance that lets just the limit pass. [F] limit [A], voltage [V], frequency [Hz]"""
    return limit / (2.0 * np.pi * frequency * voltage)


def one_shorted(whole, piece, pieces) -> np.ndarray:
    """Capacitance across the barrier once one of several capacitors in series is a short. [F]

    whole : (m,) float, of everything across the barrier before [F]
    piece : (m,) float, one of those in series [F]; pieces : how many they are
    NaN where an input is NaN and where a short of the one piece would leave no capacitor.
    """
    pieces = np.where(np.asarray(pieces, float) >= 2.0, pieces, np.nan)
    return whole - piece / pieces + piece / (pieces - 1.0)
