"""What an unmeasured quantity is taken to be, and why.

Each function bears the quantity's code; its parameters name what it reads. It returns the value
and the standard uncertainty. Everything here shows in the working as a "rulebook default".
"""
import inspect
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from .claims import ClaimTable, largest_by_unit
from .columns import DEFAULT, DERIVED, Column, Frame, exact

# V, V, Hz, when no plate was read. A unit for 220 to 240 V only needs far smaller parts than one
# for 100 V: taking an unread plate for 100 to 240 V would condemn honest ones.
ASSUMED_MAINS = (220.0, 240.0, 50.0)
MAINS_SOURCE = ("Not read from a plate: 220 to 240 V, 50 Hz is taken, the better case for the "
                "claims.")
HIGH_RANGE = 180.0                       # V; a plate that begins above is for 220 to 240 V only
UNCORRECTED = 65.0                       # W of output, about 75 W of input


@dataclass(frozen=True, slots=True)
class Default:
    code: str
    reads: tuple[str, ...]
    compute: Callable
    source: str
    how: int = DEFAULT


def _default(source, how=DEFAULT):
    def decorate(compute):
        reads = tuple(inspect.signature(compute).parameters)
        compute.default = Default(compute.__name__, reads, compute, source, how)
        return compute

    return decorate


def triangular(low: float, mode: float, high: float) -> tuple[float, float]:
    """Mean and standard deviation of a triangular distribution."""
    square = (low * low + mode * mode + high * high
              - low * mode - low * high - mode * high) / 18
    return (low + mode + high) / 3, square**0.5


# Largest claimed power of the bracket [W]; efficiency as a triangular distribution.
EFFICIENCY = ((3.0, (0.55, 0.68, 0.78)), (8.0, (0.65, 0.75, 0.82)), (15.0, (0.72, 0.79, 0.86)),
              (30.0, (0.80, 0.86, 0.91)), (np.inf, (0.85, 0.90, 0.94)))
EFFICIENCY_UNCLAIMED = (0.80, 0.06)


@_default("Brackets by the largest claimed power: below 3 W 0.55 to 0.78, to 8 W 0.65 to 0.82, "
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


@_default("From the marking: electrolytic capacitors measure 0.80 to 1.15 times, mostly 0.95 "
          "times, what they are marked (triangular, from memory).", how=DERIVED)
def bulk_capacitance(bulk_capacitance_marked, bulk_capacitance_marked_u):
    share, spread = MARKED
    # A marking that could hardly be read is worth less than the tolerance of the part.
    doubtful = bulk_capacitance_marked_u > 0.13 * bulk_capacitance_marked
    spread = np.where(doubtful, bulk_capacitance_marked_u, spread * bulk_capacitance_marked)
    return share * bulk_capacitance_marked, spread


# The mean of the usual designs (triangular 55, 70, 90 V: 71.7 V), but wider, for cheap units run
# lower. For 220 to 240 V, 165 V read the capacitor 8 to 12 % too high on drawn chargers.
@_default("Universal input: 71.7 ± 13.4 V, so that both usual designs (55 to 90 V) and the hard "
          "floor of 45 V lie within two standard uncertainties; 220 to 240 V only: 170 ± 46 V "
          "(120 to 240 V, hard floor 80 V). From memory.")
def minimum_bus_voltage(rated_voltage_low):
    high_range = rated_voltage_low >= HIGH_RANGE
    return np.where(high_range, 170.0, 71.7), np.where(high_range, 46.0, 13.4)


@_default("Not looked at: taken as a bridge, which is the better case for the claim.")
def rectifier_full_wave(rated_voltage_low):
    return np.ones(rated_voltage_low.shape), np.zeros(rated_voltage_low.shape)


@_default("Not looked at: taken as absent up to 65 W of claimed output, about 75 W of input; "
          "above, IEC 61000-3-2 asks most classes for correction (from memory), so that nothing "
          "is assumed.")
def power_factor_corrector(claimed_power):
    large = claimed_power > UNCORRECTED
    return np.where(large, np.nan, 0.0), np.where(large, np.nan, 0.0)


@_default("Not weighed: nothing is taken off the mass until a part without function is found.")
def mass_ballast(rated_voltage_low):
    return np.zeros(rated_voltage_low.shape), np.zeros(rated_voltage_low.shape)


@_default("Not recorded: one side of the board counts as photographed.")
def photographed_sides(rated_voltage_low):
    return np.ones(rated_voltage_low.shape), np.zeros(rated_voltage_low.shape)


DEFAULTS = {
    item.default.code: item.default
    for item in (efficiency, bulk_capacitance, minimum_bus_voltage, rectifier_full_wave,
                 power_factor_corrector, mass_ballast, photographed_sides)
}


@np.errstate(invalid="ignore")
def fill_defaults(frame: Frame, claims: ClaimTable) -> Frame:
    """The frame with every gap filled that a default can fill, and with the mains ends.

    Adds claimed_power, the largest claimed output power of the unit, and the columns
    mains_low, mains_high and mains_frequency.
    """
    largest = largest_by_unit(claims.row, claims.claimed_power, frame.size)
    frame = frame.with_columns({"claimed_power": exact(largest)})
    for default in DEFAULTS.values():
        value, u = default.compute(*(_read(frame, name) for name in default.reads))
        how = np.where(np.isnan(value), 0, default.how).astype(np.int8)
        column = frame[default.code].filled(Column(value, u, how))
        frame = frame.with_columns({default.code: column})
    return frame.with_columns(_mains(frame))


def _read(frame, name):
    base = name.removesuffix("_u")
    return frame[base].u if base != name else frame[name].value


def _mains(frame):
    low, high, frequency = (frame[code] for code in (
        "rated_voltage_low", "rated_voltage_high", "rated_frequency"))
    low, high = low.filled(high), high.filled(low)      # one printed voltage is both ends
    assumed = (exact(np.full(frame.size, value), DEFAULT) for value in ASSUMED_MAINS)
    filled = (column.filled(other) for column, other in zip(
        (low, high, frequency), assumed, strict=True))
    return dict(zip(("mains_low", "mains_high", "mains_frequency"), filled, strict=True))
