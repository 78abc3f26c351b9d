"""The voltages a port was set to during one log, told from its light-load rows."""
from __future__ import annotations

import numpy as np

from teardowns.logs.load_tests.regulation import LIGHT, no_load_limit

CUSTOMARY = (5.0, 9.0, 12.0, 15.0, 18.0, 19.0, 20.0, 24.0, 28.0, 36.0, 48.0)    # V
SAME = 0.05                     # a voltage without load lies within so much of the nominal one
APART = 0.10                    # levels farther apart are two settings
LEAST = 2.5                     # V: no port is set lower (basis of protocols: 3.3 V)
FEWEST = 3                      # rows that make a level
STANDS = 0.02                   # from one row to the next


def nominal_of(unloaded: float) -> float | None:
    """The one customary voltage beside a light-load voltage, None = none or several."""
    near = [v for v in CUSTOMARY if abs(unloaded / v - 1) <= SAME]
    if len(near) > 1:             # 18, 19 and 20 V are told apart only when nearly exact
        near = [v for v in near if abs(unloaded / v - 1) <= 0.02]
    return near[0] if len(near) == 1 else None


def light_rows(voltage: np.ndarray, current: np.ndarray, asked: np.ndarray | None,
               step: float) -> np.ndarray:
    """(n,) bool: rows with no load, else with a light one, whose voltage is up and stands."""
    drawn = current if asked is None else np.fmax(current, asked)
    up = (voltage >= LEAST) & _stands(voltage)
    none = up & (drawn <= no_load_limit(drawn, step))
    if np.count_nonzero(none) >= FEWEST:
        return none
    return up & (drawn <= LIGHT * np.max(drawn, initial=0.0))


def _stands(voltage):
    """Rows that lie near both neighbours: one that restarts passes every voltage."""
    near = np.abs(np.diff(voltage)) <= STANDS * np.abs(voltage[1:])
    return np.concatenate([[True], near]) & np.concatenate([near, [True]])


def levels_of(voltage: np.ndarray) -> np.ndarray:
    """(k,) Ascending voltages around which light-load rows gather.

    voltage : (n,) of light-load rows [V]
    """
    ordered = np.sort(voltage)
    if not len(ordered):
        return ordered
    gaps = np.flatnonzero(np.diff(ordered) > APART * ordered[:-1]) + 1
    groups = np.split(ordered, gaps)
    least = max(FEWEST, 0.01 * len(ordered))      # a few rows on the way are no setting
    found = [float(np.median(group)) for group in groups if len(group) >= least]
    named = [level for level in found if nominal_of(level)]
    return np.array(named if len(found) > 1 and named else found[-1:])


def setting_of_rows(voltage: np.ndarray, light: np.ndarray, levels: np.ndarray) -> np.ndarray:
    """(n,) index of the level that the port was last seen at without load; −1 = not told.

    A row well above the level that it would belong to was taken at another setting.
    """
    nearest = np.abs(voltage[:, None] / levels - 1).argmin(1)
    at_level = light & (np.abs(voltage / levels[nearest] - 1) <= APART / 2)
    seen = np.maximum.accumulate(np.where(at_level, np.arange(len(voltage)), -1))
    first = int(np.argmax(at_level))
    setting = nearest[np.where(seen < 0, first, seen)]
    return np.where(voltage > (1 + APART) * levels[setting], -1, setting)
