"""Mains side: efficiency, bulk capacitor, rectifier, corrector."""
import numpy as np

from teardowns.engine.columns import DERIVED
from teardowns.engine.default_value import HIGH_RANGE, default, triangular

UNCORRECTED = 65.0                       # W of output, about 75 W of input
# Largest claimed power of the bracket [W]; efficiency as a triangular distribution.
EFFICIENCY = ((3.0, (0.55, 0.68, 0.78)), (8.0, (0.65, 0.75, 0.82)), (15.0, (0.72, 0.79, 0.86)),
              (30.0, (0.80, 0.86, 0.91)), (np.inf, (0.85, 0.90, 0.94)))
EFFICIENCY_UNCLAIMED = (0.80, 0.06)


@default("Brackets by the largest claimed power: below 3 W 0.55 to 0.78, to 8 W 0.65 to 0.82, "
          "to 15 W 0.72 to 0.86, to 30 W 0.80 to 0.91, above 0.85 to 0.94, triangular, from "
          "memory; without a claim 0.80 (Power Integrations AN-18, table 2) ± 0.06.")
def efficiency(claimed_power):
    value, u = (np.full(claimed_power.shape, part) for part in EFFICIENCY_UNCLAIMED)
    for top, shape in reversed(EFFICIENCY):
        mean, deviation = triangular(*shape)
        value = np.where(claimed_power <= top, mean, value)
        u = np.where(claimed_power <= top, deviation, u)
    return value, u


MARKED = triangular(0.80, 0.95, 1.15)


@default("From the marking: electrolytic capacitors measure 0.80 to 1.15 times, mostly 0.95 "
          "times, what they are marked (triangular, from memory).", how=DERIVED)
def bulk_capacitance(bulk_capacitance_marked, bulk_capacitance_marked_u):
    share, spread = MARKED
    # A marking that could hardly be read is worth less than the tolerance of the part.
    doubtful = bulk_capacitance_marked_u > 0.13 * bulk_capacitance_marked
    spread = np.where(doubtful, bulk_capacitance_marked_u, spread * bulk_capacitance_marked)
    return share * bulk_capacitance_marked, spread


# The mean of the usual designs (triangular 55, 70, 90 V: 71.7 V), but wider, for cheap units run
# lower. For 220 to 240 V, 165 V read the capacitor 8 to 12 % too high on drawn chargers.
@default("Universal input: 71.7 ± 13.4 V, so that both usual designs (55 to 90 V) and the hard "
          "floor of 45 V lie within two standard uncertainties; with half wave, where small "
          "units run their bus lower, 62 ± 16 V; 220 to 240 V only: 170 ± 46 V (120 to 240 V, "
          "hard floor 80 V). From memory.")
def minimum_bus_voltage(rated_voltage_low, rectifier_full_wave):
    high_range, half = rated_voltage_low >= HIGH_RANGE, rectifier_full_wave == 0
    return (np.where(high_range, 170.0, np.where(half, 62.0, 71.7)),
            np.where(high_range, 46.0, np.where(half, 16.0, 13.4)))


@default("Not looked at: taken as a bridge, which is the better case for the claim.")
def rectifier_full_wave(rated_voltage_low):
    return np.ones(rated_voltage_low.shape), np.zeros(rated_voltage_low.shape)


@default("Not looked at: taken as absent up to 65 W of claimed output, about 75 W of input; from "
          "45 W on one unit in twenty is taken to have one all the same, so that none of the lines "
          "that rest on it holds; "
          "above, IEC 61000-3-2 asks most classes for correction (from memory), so that nothing "
          "is assumed.")
def power_factor_corrector(claimed_power):
    large = claimed_power > UNCORRECTED
    return np.where(large, np.nan, 0.0), np.where(large, np.nan, 0.0)
