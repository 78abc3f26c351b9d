"""What the output does beyond its over-current point: tries again, gives up, folds, or holds."""
from __future__ import annotations

import numpy as np

from teardowns.logs.extracted import Told, Unread
from teardowns.logs.load_tests.doubt import GONE
from teardowns.logs.load_tests.loss import Loss
from teardowns.logs.load_tests.numbers import label_of, unread
from teardowns.logs.load_tests.overcurrent import NOTHING_HELD
from teardowns.logs.load_tests.regulation import LoadTest

CODE = "after_limit"
UP_AGAIN, DOWN = 0.5, 0.6       # of the voltage without load
FOLDED = 0.8                    # of the over-current point
CHANGES, FEWEST = 3, 3
SAYS = {
    "hiccup": "Beyond its limit the output switches off and tries again, over and over.",
    "latch_off": "Beyond its limit the output switches off and stays off.",
    "foldback": "Beyond its limit the output gives less current the lower its voltage falls.",
    "constant_current": "Beyond its limit the output holds its current and lets the voltage fall.",
}


def read_after_limit(test: LoadTest, loss: Loss | None) -> Told | Unread:
    """loss : of 0.9 of the voltage without load"""
    if loss is None:
        return unread(CODE, "The log never reached the over-current point: raise the load until "
                      "the voltage gives way, and log on for a while.", test)
    if loss.doubt.why:
        return unread(CODE, loss.doubt.why, test)
    rows = slice(loss.row, loss.last)
    if not loss.held > 0:
        return unread(CODE, NOTHING_HELD, test)
    word, why = kind_of(test.voltage[rows] / test.unloaded, test.current[rows] / loss.held)
    if not word:
        return unread(CODE, why, test)
    return Told(CODE, label_of(CODE), word, SAYS[word], float(test.time[loss.row]),
                float(test.time[loss.last - 1]), (
        f"V_0 = {test.unloaded:.3f} V, I_max = {loss.held:.3f} A.", why,
        *((loss.doubt.granted,) if loss.doubt.granted else ())))


def kind_of(voltage: np.ndarray, current: np.ndarray) -> tuple[str, str]:
    """(word, why) from the rows after the limit; word "" = not told.

    voltage, current : (n,) as shares of the voltage without load and of the over-current point
    """
    if (changes := swings(voltage)) >= CHANGES:
        return "hiccup", (f"The voltage went {changes} times between below {GONE:g} V_0 and above "
                          f"{UP_AGAIN:g} V_0.")
    settled = slice(len(voltage) // 4, None)
    if np.mean((voltage[settled] < GONE) & (current[settled] < GONE)) >= 0.97:
        return "latch_off", f"Voltage and current stayed below {GONE:g} of V_0 and I_max."
    deep = (voltage < DOWN) & ((voltage >= GONE) | (current >= GONE))
    if np.count_nonzero(deep) < FEWEST:
        return "", ("The voltage fell below 0.9 of that without load, but not far enough to show "
                    "what the limit does: go on until it is below half.")
    middle = float(np.median(current[deep]))
    word = "foldback" if middle < FOLDED else "constant_current"
    return word, f"Where V was below {DOWN:g} V_0, the median current was {middle:.2f} I_max."


def swings(voltage: np.ndarray) -> int:
    """How often the voltage changed between off and up, whatever lies between."""
    state = np.where(voltage > UP_AGAIN, 1, np.where(voltage < GONE, -1, 0))
    state = state[state != 0]
    return int(np.count_nonzero(np.diff(state)))
