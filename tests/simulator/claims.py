"""What the plates say: honest makers claim what they reach, others up to ten times as much."""
from dataclasses import dataclass

import numpy as np

from .catalogue import nearest

MET = 0.95              # of the claim: a unit that gives this much meets it
LABEL_POWER = np.unique(np.concatenate(
    [np.arange(1.0, 20, 0.5), np.arange(20, 60, 1.0), np.arange(60, 400, 5.0)]))


@dataclass(frozen=True, slots=True)
class Plates:
    """(n,) each; the claim of most power, and that at 5 V of units that claim more voltages."""

    truth: np.ndarray           # W, what the unit reaches
    power: np.ndarray           # W
    voltage: np.ndarray         # V
    several: np.ndarray         # bool: claims 5 V and a higher voltage
    current: np.ndarray         # A, at `voltage`
    current_5v: np.ndarray      # A; NaN where one voltage is claimed
    power_met: np.ndarray       # bool, at any rated mains voltage
    voltage_met: np.ndarray     # bool
    power_5v_met: np.ndarray    # bool
    input_current: np.ndarray   # A


def draw_plates(chargers, rng):
    c = chargers
    truth = c.everywhere()
    honest = c.honest
    power = nearest(LABEL_POWER, truth * np.exp(c.overstated))
    several = c.promised
    voltage = np.where(several & ~c.switchable, _usual_voltage(power, rng), c.top_voltage)
    current = (power / voltage).round(2)
    current_5v = np.where(several, _current_5v(c, power, honest, rng), np.nan)
    at_5v = np.fmin(truth, np.where(c.switchable, 5 * c.current_5v, np.nan))
    return Plates(truth, power, voltage, several, current, current_5v,
                  power_met=truth >= MET * power, voltage_met=c.top_voltage >= 0.98 * voltage,
                  power_5v_met=at_5v >= MET * 5 * current_5v,
                  input_current=_input_current(c, power, honest, rng))


def _usual_voltage(power, rng):
    return np.where(power < 25, rng.choice([9.0, 12.0], power.size), 20.0)


def _current_5v(chargers, power, honest, rng):
    wanted = np.where(honest, chargers.current_5v, np.minimum(3.0, power / 5))
    return np.maximum(wanted.round(1) - np.where(wanted.round(1) > wanted, 0.1, 0), 0.5)


def _input_current(chargers, power, honest, rng):
    """Honest: enough for the claim. Others: that of the real design, or made up to fit."""
    n = power.size
    fits = honest | (rng.random(n) < 0.5)
    drawn = np.where(fits, power, chargers.target) / chargers.bus_efficiency_guess
    current = chargers.mains_side.current(chargers.mains_low, drawn)
    return np.maximum(np.ceil(current * rng.uniform(1.0, 1.6, n) * 20) / 20, 0.05)
