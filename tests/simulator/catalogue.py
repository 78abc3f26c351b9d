"""What can be bought: makers choose from steps, not from a continuum.

Capacitor and resistor steps: the E12 and E24 series of IEC 60063. Voltage ratings: the usual
ratings of aluminium electrolytics. Published power tables: wide-range and 230 V figures in the
proportions of a published one (2.5/5, 5/8 and 7.5/10 W) and, above it, common practice without a
source. Currents, voltages, wires and cans: what distributors stock, common practice, no source.
"""
import numpy as np

_E12 = np.array([1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2])
_E24 = np.array([1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3,
                 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1])
_SINGLE = np.concatenate([_E12, 10 * _E12, 100 * _E12])
CAPACITANCE = 1e-6 * np.unique(np.concatenate([_SINGLE, 2 * _SINGLE]).round(2))
CAPACITOR_RATING = np.array([6.3, 10.0, 16.0, 25.0, 35.0, 50.0, 63.0, 100.0])
POWER_WIDE = np.array([2.5, 4, 5, 6, 7.5, 9, 12, 15, 18, 20, 24, 27, 30, 36, 45, 50, 65, 75, 100])
POWER_HIGH = np.array([5, 6, 8, 9, 10, 12, 16, 20, 24, 27, 32, 36, 40, 48, 60, 65, 85, 100, 130])
SENSE = np.concatenate([0.01 * _E24, 0.1 * _E24, _E24, 10 * _E24])                  # Ω
FUSIBLE = np.array([1.0, 2.2, 3.3, 4.7, 6.8, 10.0, 22.0])                            # Ω
FUSIBLE_POWER = np.array([0.5, 1.0, 2.0, 3.0, 5.0])                                 # W
FUSE = np.array([0.5, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0, 10.0])      # A
BRIDGE = np.array([0.5, 0.8, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0])                    # A
RECTIFIER = np.array([1.0, 2.0, 3.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 40.0])       # A
RECTIFIER_VOLTAGE = np.array([20.0, 30, 40, 45, 60, 80, 100, 120, 150, 200, 250, 300, 400])
SWITCH_VOLTAGE = np.array([400.0, 500, 600, 650, 700, 800, 900])
WIRE = 1e-3 * np.array([        # m, bare
    0.06, 0.07, 0.08, 0.09, 0.10, 0.11, 0.12, 0.13, 0.14, 0.15, 0.16, 0.17, 0.18, 0.19, 0.20, 0.21,
    0.22, 0.23, 0.25, 0.27, 0.30, 0.33, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60, 0.65, 0.70, 0.80])
# Cans of output electrolytics, D × L [mm], and the ripple current of a low-impedance series at
# 100 kHz and 105 °C [A]; a plain 105 °C series carries about a half (from memory).
CANS = np.array([(5, 11, 0.25), (6.3, 11, 0.40), (8, 12, 0.70), (8, 16, 0.90), (8, 20, 1.1),
                 (10, 13, 0.95), (10, 16, 1.25), (10, 20, 1.6), (10, 25, 1.9),
                 (12.5, 20, 2.1), (12.5, 25, 2.5)])
# Polymer cans of the same use.
POLYMER_CANS = np.array([(5, 8, 2.0), (6.3, 8, 2.8), (6.3, 11, 3.3), (8, 8, 3.5), (8, 12, 4.5),
                         (10, 12, 5.4)])


def nearest(steps, value):
    """The step nearest in ratio."""
    edges = np.sqrt(steps[1:] * steps[:-1])
    return steps[np.searchsorted(edges, value)]


def step_above(steps, value):
    """Index of the first step that is not below; the last where none is."""
    return np.minimum(np.searchsorted(steps, value), len(steps) - 1)


def at_least(steps, value):
    """The first step that is not below; the last where none is."""
    return steps[step_above(steps, value)]
