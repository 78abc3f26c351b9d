"""What a scope would have shown at the primary switch of a flyback converter."""
from __future__ import annotations

import numpy as np

PERIODS = 12
SAMPLES = 250             # a period
BITS = 256                # levels of the converter of a scope
LEAK, LEAK_FREQUENCY, LEAK_TAU = 0.25, 6e6, 0.15e-6       # of V_dc; Hz; s
RING, RING_TAU = 520e3, 7e-6                              # Hz, s


def switch_voltage(frequency: float, power: float, inductance: float, bus: float,
                   reflected: float, rng: np.random.Generator) -> tuple[float, np.ndarray] | None:
    """(s between samples, (n,) V), or None where the converter would not run discontinuously.

    frequency [Hz], power into the converter [W], inductance [H], bus and reflected [V]
    """
    on = np.sqrt(2 * inductance * power / frequency) / bus
    off = bus * on / reflected                # volt-seconds of the core balance
    period = 1 / frequency
    if on + off > 0.85 * period:
        return None
    step = float(f"{period / SAMPLES:.1g}")
    time = step * np.arange(round(PERIODS * period / step))
    phase = (time + 0.3 * period) % period
    since = phase - on
    flat = bus + reflected + LEAK * bus * np.exp(-since / LEAK_TAU) * np.cos(
        2 * np.pi * LEAK_FREQUENCY * since)
    rest = since - off
    ringing = bus + reflected * np.exp(-rest / RING_TAU) * np.cos(2 * np.pi * RING * rest)
    volts = np.where(phase < on, 1.5, np.where(rest < 0, flat, ringing))
    volts = volts + rng.normal(0, 1.0, len(time))
    lowest, span = volts.min(), np.ptp(volts)
    return step, lowest + np.round((volts - lowest) / span * (BITS - 1)) / (BITS - 1) * span
