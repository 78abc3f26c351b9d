"""Why an output that gave way may not be the unit's doing.

An output that is gone may have been unplugged, one that is lower may have been set anew. What the
log does not tell apart is not held against a unit.
"""
from __future__ import annotations

import numpy as np

from teardowns.logs.load_tests.before_loss import AT_ONCE, WITHIN, Before
from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.load_tests.voltages import CUSTOMARY

# Our own choices, each on the side of the unit.
GONE = 0.2                      # of the voltage without load: nothing comes out
SWITCHES = 4                    # so often on and off, and no hand does it
SAME_VOLTAGE, STANDS = 0.03, 0.02
LOGGED_ON = 30.0                # s after the loss, at most, before it is believed


def doubt_about(test: LoadTest, low: np.ndarray, row: int, last: int, before: Before) -> str:
    """Why the loss may not be the unit's doing."""
    lost = np.flatnonzero(low[row:last]) + row
    off = test.voltage[lost] < GONE * test.unloaded
    mains = _mains_stayed(test, row, lost)
    if mains is False:
        return "The mains voltage went away at the same time: repeat the test with it on."
    if off.mean() < 0.5:
        return _another_setting(test, lost, before.held)
    switches = np.count_nonzero(np.diff(test.voltage[row:last] < GONE * test.unloaded))
    if switches >= SWITCHES:
        return ""                                          # it tried again by itself
    jump = before.jump
    at_once = before.is_due or jump is not None and (
        row - jump <= 2 or test.time[row] - test.time[jump] <= AT_ONCE * before.dwell)
    # A hand that pulls a plug or a lead in just that moment does not log on for long.
    least = min(0.1 * float(test.time[row] - test.time[0]), LOGGED_ON)
    if at_once and not mains:
        least = max(2 * before.dwell, least)
    if (at_once or mains) and test.time[-1] - test.time[row] >= least:
        return ""
    return ("The output went away, and the log does not show whether the unit was still plugged "
            "in: log the mains voltage or power beside it, or repeat that load and log on for a "
            "few steps.")


def _mains_stayed(test, row, lost):
    """Whether the mains was on after the loss; None = the log does not tell."""
    after = lost[:10 * WITHIN]
    channel = test.channels.get("input_voltage")
    if channel is not None:
        was, is_now = channel.values[max(row - WITHIN, 0):row], channel.values[after]
        if np.isfinite(was).any() and np.isfinite(is_now).any():
            return bool(np.nanmedian(is_now) >= 0.5 * np.nanmedian(was))
    channel = test.channels.get("input_power")
    if channel is None or not np.isfinite(channel.values[after]).any():
        return None
    # It still draws: it is on. None drawn tells nothing.
    return True if np.nanmedian(channel.values[after]) > 2 * channel.step else None


def _another_setting(test, lost, held):
    """A steady lower customary voltage at the same current may be a new setting."""
    voltage, current = test.voltage[lost], test.current[lost]
    level = float(np.median(voltage))
    near = any(abs(level / v - 1) <= SAME_VOLTAGE for v in CUSTOMARY if v < 0.9 * test.nominal)
    if near and np.ptp(np.quantile(voltage, [0.1, 0.9])) <= STANDS * level and (
            np.median(current) >= 0.9 * held):
        return (f"The output stood at {level:.2f} V afterwards, a voltage that ports are set to: "
                "if the setting was changed there, move the span so that it ends before.")
    return ""
