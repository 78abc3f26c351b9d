"""How far the port voltage falls per ampere while it is in regulation."""
from __future__ import annotations

from math import sqrt

import numpy as np

from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.numbers import extracted, unread
from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.load_tests.steps import load_curve, theil_sen

CODE = "source_resistance"
BELOW_LIMIT = 0.9               # of the over-current point: the knee is no resistance
FEWEST = 4                      # loads
LEAST_RANGE = 0.3               # of the largest current
GAIN = 0.01                     # of the slope: both meters' scales, as their limits assume


def read_source_resistance(test: LoadTest, limit: float | None) -> Extracted | Unread:
    """limit : the over-current point, None = it was not reached [A]"""
    curve = load_curve(test, np.inf if limit is None else BELOW_LIMIT * limit)
    if curve is None or len(curve.current) < FEWEST:
        return unread(CODE, f"Fewer than {FEWEST} loads were held in regulation: step the load in "
                      "several steps up to its limit.", test)
    run = curve.current[-1] - curve.current[0]
    if run < LEAST_RANGE * curve.current[-1]:
        return unread(CODE, "The loads lie too close together to show a slope: let the sweep begin "
                      "near no load.", test)
    slope, at_zero = theil_sen(curve.current, curve.voltage)
    resistance = -slope
    spread = 1.4826 * float(np.median(np.abs(curve.voltage - at_zero - slope * curve.current)))
    scatter = spread / (np.std(curve.current) * sqrt(len(curve.current)))
    digit = test.step("output_voltage") / sqrt(3) / run      # either end ± half a digit, alike
    budget = tuple((name, float(share)) for name, share in (
        ("scatter about the line", scatter), ("last digit of the voltage", digit),
        ("scales of both meters, 1 %", GAIN * abs(resistance)),
        ("resistance of the cable", test.cable[1])) if share > 0)
    return extracted(CODE, resistance, budget, _rows(test, curve), test, _working(
        test, curve, resistance, at_zero))


def _rows(test, curve):
    """From the first to the last row in regulation of these currents."""
    used = np.flatnonzero(test.in_regulation & (test.current <= curve.current[-1]))
    return slice(int(used[0]), int(used[-1]) + 1)


def _working(test, curve, resistance, at_zero):
    compensation = ("The voltage rises with the load: the output makes up for a cable.",)
    return (f"Minus the median slope (Theil–Sen) of V over I through {len(curve.current)} loads "
            f"from {curve.current[0]:.3f} A to {curve.current[-1]:.3f} A = "
            f"{1e3 * resistance:.1f} mΩ; V = {at_zero:.3f} V − {resistance:.4f} Ω·I.",
            ) + (compensation if resistance < 0 else ()) + (
            (test.cable_told,) if test.cable_told else ())
