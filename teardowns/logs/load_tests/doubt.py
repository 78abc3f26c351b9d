"""Why an output that gave way may not be the unit's doing.

An output that is gone may have been unplugged, one that is lower may have been set anew. What the
log does not tell apart is not held against a unit.
"""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.load_tests.before_loss import WITHIN, Before
from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.load_tests.voltages import CUSTOMARY

# Our own choices, each on the side of the unit.
GONE = 0.2                      # of the voltage without load: nothing comes out
SWITCHES = 4                    # so often on and off, and no hand does it
SAME_VOLTAGE, STANDS = 0.03, 0.02
LOGGED_ON = 45.0                # s after the loss: who pulls a lead stops the log sooner
AT_ONCE = 0.05                  # of a step's length
PULLED = ("The output went away and stayed away, and the log does not show whether it was still "
          "plugged in: log the mains beside it for a minute more, or step the load with longer "
          "steps. If you saw it switch off by itself, write the load that was lost into the sheet.")


@dataclass(frozen=True, slots=True)
class Doubt:
    why: str = ""                 # it may not be the unit's doing; "" = it is
    granted: str = ""             # what is taken for granted when it is; "" = nothing
    is_by_timing: bool = False    # that it fell together with the load is all that shows it


def doubt_about(test: LoadTest, low: np.ndarray, row: int, last: int,
                before: Before) -> Doubt:
    """Whether the loss may be something else than the unit's doing."""
    lost = np.flatnonzero(low[row:last]) + row
    off = test.voltage[lost] < GONE * test.unloaded
    mains = _mains_stayed(test, row, lost)
    if mains is False:
        return Doubt("The mains voltage went away at the same time: repeat the test with it on.")
    if off.mean() < 0.5:
        return Doubt(_another_setting(test, lost, before.held))
    switches = np.count_nonzero(np.diff(test.voltage[row:last] < GONE * test.unloaded))
    if switches >= SWITCHES:
        return Doubt()                                     # it tried again by itself
    stayed = float(test.time[-1] - test.time[row])
    if mains and stayed >= LOGGED_ON:
        return Doubt(granted="The mains stayed on and the output away; that no lead was pulled is "
                     "taken for granted.")
    if _is_at_once(test, before) and stayed >= 2 * before.dwell:
        return Doubt(granted="The output went away when the load rose and stayed away; that nobody "
                     "unplugged it in that moment is taken for granted.", is_by_timing=True)
    return Doubt(PULLED)


def _is_at_once(test, before):
    """Whether the load gave way so close to its rise that a hand would hardly hit it."""
    allowed = max(AT_ONCE * before.dwell, 1.5 * float(np.median(test.weight)))
    return before.off_beat <= allowed <= 2 * AT_ONCE * before.dwell


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
