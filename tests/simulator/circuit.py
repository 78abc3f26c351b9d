"""Mains rectifier, bulk capacitor and constant-power load, solved by stepping through time.

The oracle of the simulator: it knows nothing of the engine's closed segments. Angles in rad,
voltages as a part of the crest, power as kappa = P / (w C V²) and series resistance as
rho = w R C, so that one table serves every capacitor, mains voltage and frequency.
"""
from functools import cache
from math import pi

import numpy as np

STEPS = 4000                    # a mains period
PERIODS = 2                     # the first settles, the second counts
COLLAPSED = 0.02                # below this part of the crest no converter runs
RHO = np.array([0.0, 0.01, 0.03, 0.06, 0.1, 0.2, 0.4])
RATIO = np.linspace(0.1, 0.99, 90)                      # lowest voltage, part of the crest
DIODE_DROP = 0.7                # V, silicon diode at a few tenths of an ampere


def rectified(angle, full_wave, drop):
    """Open-circuit voltage behind the diodes, crest of the mains = 1, at an angle from it."""
    wave = np.where(full_wave, abs(np.cos(angle)), np.cos(angle))
    return np.maximum(wave - drop, 0.0)


def settle(kappa, rho, full_wave, drop=0.0):
    """Lowest capacitor voltage and mains current of the settled period.

    Midpoint step for the load, implicit step for the charging current, which stays stable for
    any resistance down to none. Voltage as a part of the mains crest, 0 where it collapses;
    current rms over w C V.

    Parameters
    ----------
    kappa, rho, drop : (...) float
        P / (w C V²), w R C and the drop of the diodes over V, with V the crest.
    full_wave : (...) bool
        Bridge, or one diode.
    Returns
    -------
    two (...) float
    """
    kappa, rho, full_wave, drop = np.broadcast_arrays(kappa, rho, full_wave, drop)
    step = 2 * pi / STEPS
    share = step / (rho + step)             # of the source in an implicit step
    u = 1.0 - drop
    lowest, square = u.copy(), np.zeros(u.shape)
    for k in range(1, PERIODS * STEPS + 1):
        middle = np.maximum(u - kappa * step / (2 * u), COLLAPSED)
        u = np.maximum(u - kappa * step / middle, COLLAPSED)
        source = rectified(k * step, full_wave, drop)
        taken = share * np.maximum(source - u, 0.0)
        u = u + taken
        if k > (PERIODS - 1) * STEPS:
            lowest = np.minimum(lowest, u)
            square += (taken / step) ** 2
    return np.where(lowest > COLLAPSED, lowest, 0.0), np.sqrt(square / STEPS)


def valley(kappa, rho, full_wave, drop=0.0):
    """Lowest capacitor voltage of the settled period, as a part of the mains crest."""
    return settle(kappa, rho, full_wave, drop)[0]


def mains_current(power, capacitance, voltage, frequency, full_wave=True, drop=0.0,
                  resistance=0.0):
    """Mains current [A], rms, with a load of `power` [W] on the bus."""
    crest = np.sqrt(2.0) * np.asarray(voltage, float)
    scale = 2 * pi * np.asarray(frequency, float) * capacitance
    part = power / (scale * crest**2), scale * resistance
    return scale * crest * settle(*part, full_wave, drop / crest)[1]


def valley_voltage(power, capacitance, voltage, frequency, full_wave=True, drop=0.0,
                   resistance=0.0):
    """Lowest bus voltage [V] with a load of `power` [W]; mains rms [V] and frequency [Hz]."""
    crest = np.sqrt(2.0) * np.asarray(voltage, float)
    scale = 2 * pi * np.asarray(frequency, float) * capacitance
    return crest * valley(power / (scale * crest**2), scale * resistance, full_wave, drop / crest)


@cache
def _settled(full_wave):
    """(350,) kappa, and (len(RHO), 350) lowest voltage and mains current of each."""
    kappa = np.linspace(0.0, 0.38 if full_wave else 0.115, 350)
    return kappa, *settle(kappa, RHO[:, None], full_wave)


@cache
def _carried(full_wave):
    """(len(RHO), len(RATIO)) kappa that brings the valley down to each ratio."""
    kappa, low, _ = _settled(full_wave)
    return np.array([np.interp(-RATIO, -np.maximum.accumulate(row[::-1])[::-1], kappa)
                     for row in low])


def _read(table, rho, column):
    """Bilinear reading of a table by rho and by a fractional column."""
    column = np.clip(column, 0, table.shape[1] - 1.001)
    row = np.clip(np.interp(rho, RHO, np.arange(len(RHO))), 0, len(RHO) - 1.001)
    i, j = row.astype(int), column.astype(int)
    a, b = row - i, column - j
    upper = table[i, j] * (1 - b) + table[i, j + 1] * b
    lower = table[i + 1, j] * (1 - b) + table[i + 1, j + 1] * b
    return upper * (1 - a) + lower * a


def _kappa(ratio, rho, full_wave):
    """No power where the valley would lie at the crest."""
    column = (ratio - RATIO[0]) / (RATIO[1] - RATIO[0])
    return np.where(ratio < RATIO[-1], _read(_carried(full_wave), rho, column), 0.0)


def bus_power(capacitance, voltage, frequency, full_wave, minimum, resistance):
    """Largest constant power [W] that keeps the bus above `minimum` [V]; (n,) each."""
    crest = np.sqrt(2.0) * voltage - DIODE_DROP * np.where(full_wave, 2, 1)
    scale = 2 * pi * frequency * capacitance
    part = minimum / crest, scale * resistance
    kappa = np.where(full_wave, _kappa(*part, True), _kappa(*part, False))
    return kappa * scale * crest**2


def drawn_current(power, capacitance, voltage, frequency, full_wave, resistance):
    """Mains current [A], rms, read from the table: `mains_current` of silicon diodes; (n,) each.

    Beyond the collapse of the bus that of the collapse, in proportion.
    """
    crest = np.sqrt(2.0) * voltage - DIODE_DROP * np.where(full_wave, 2, 1)
    scale = 2 * pi * frequency * capacitance
    kappa, rho = power / (scale * crest**2), scale * resistance
    current = np.where(full_wave, _current(kappa, rho, True), _current(kappa, rho, False))
    return current * scale * crest


def _current(kappa, rho, full_wave):
    steps, low, current = _settled(full_wave)
    last = np.interp(rho, RHO, steps[(low > 0).sum(axis=1) - 2])
    inside = np.minimum(kappa, last)
    return _read(current, rho, inside / steps[1]) * kappa / np.maximum(inside, 1e-12)


def needed_capacitance(power, voltage, frequency, full_wave, minimum, resistance):
    """Capacitance [F] that just carries a bus power [W]: `bus_power` turned round; (n,) each."""
    capacitance = np.asarray(power, float) * 1e-6
    for _ in range(25):         # nearly proportional: the resistance is a small correction
        carried = bus_power(capacitance, voltage, frequency, full_wave, minimum, resistance)
        capacitance = capacitance * power / np.maximum(carried, 1e-9)
    return capacitance
