"""One load for long: how long it was held, how warm it got, how often it dropped out."""
from __future__ import annotations

import numpy as np

from teardowns.logs.accuracy import SPREAD, limit_of_error
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.loss import load_line, low_rows
from teardowns.logs.load_tests.numbers import (
    extracted,
    mean_over,
    power_budget,
    power_working,
    unread,
)
from teardowns.logs.load_tests.regulation import LIGHT, RESET, LoadTest
from teardowns.logs.load_tests.steps import SAME_LOAD
from teardowns.logs.load_tests.sustained import DIGITS, LEAST_SHARE, SUSTAINED_TIME

HELD, DRIFT, DROPS = "time_held", "temperature_drift", "drop_outs"
ONE_LOAD = 0.9                  # of the loaded time at one load: an endurance run, no sweep
ENDS = 0.05                     # of the time held, whose means tell a drift
TOLD = 5                        # drop-outs that are listed by time


def main_load(test: LoadTest) -> np.ndarray | None:
    """(n,) bool: rows at the load of an endurance run; None = a sweep, or no load at all."""
    load = test.load
    loaded = load > LIGHT * max(float(load.max()), 1e-9)
    if not loaded.any() or not test.in_regulation[loaded].any():
        return None
    usual = float(np.median(load[loaded & test.in_regulation]))
    same = np.abs(load - usual) <= SAME_LOAD / 2 * usual + DIGITS * test.step("output_current")
    if test.weight[same].sum() < ONE_LOAD * test.weight[loaded].sum():
        return None
    # A stray reading is no change of load: one row between two of the load belongs to it.
    lone = ~same[1:-1] & same[:-2] & same[2:]
    same[1:-1] |= lone
    return same


def held_rows(test: LoadTest, at_load: np.ndarray) -> slice | None:
    """The longest stretch at the load with 99 % in regulation, without reset or gap."""
    going = at_load & (test.voltage >= RESET * test.nominal)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], going, [False]]).astype(np.int8))
                           | np.concatenate([test.is_break & going, [False]]))
    time = np.concatenate([[0.0], np.cumsum(test.weight)])
    starts = edges[edges < len(going)]
    starts = starts[going[starts]]
    stops = edges[np.searchsorted(edges, starts, "right")]
    best, longest = None, 0.0
    for at in np.argsort(time[starts] - time[stops], kind="stable"):      # longest first
        if time[stops[at]] - time[starts[at]] <= longest:
            break
        rows = _regulated(test, slice(int(starts[at]), int(stops[at])))
        lasted = float(time[rows.stop] - time[rows.start])
        if lasted > longest:
            best, longest = rows, lasted
    return best


def _regulated(test, rows):
    """The longest part with 99 % of its time in regulation.

    With d the running sum of weight·(in regulation − 0.99), a part passes if d does not fall.
    """
    gain = test.weight[rows] * (test.in_regulation[rows] - LEAST_SHARE)
    sums = np.concatenate([[0.0], np.cumsum(gain)])
    latest = np.maximum.accumulate(sums[::-1])             # ascending: best end still to come
    ends = len(sums) - 1 - np.searchsorted(latest, sums - 1e-9, "left")
    starts = np.arange(len(sums))
    time = np.concatenate([[0.0], np.cumsum(test.weight[rows])])
    best = int(np.argmax(time[ends] - time[starts]))
    return slice(rows.start + best, rows.start + int(ends[best]))


def read_held_power(test: LoadTest, rows: slice | None) -> Extracted | Unread:
    """The mean over the whole time that the load was held."""
    lasted = 0.0 if rows is None else float(test.weight[rows].sum())
    if rows is None or lasted < SUSTAINED_TIME * (1 - 1e-9):
        return unread("sustained_power", f"The load was held in regulation for {lasted:.0f} s "
                      f"without a gap: hold it for {SUSTAINED_TIME:.0f} s or longer. (At least "
                      f"{test.floor:.3f} V counts as regulation of {test.nominal:g} V.)", test)
    power = mean_over(test.power[rows], test.weight[rows])
    share = mean_over(test.in_regulation[rows].astype(float), test.weight[rows])
    return extracted("sustained_power", power, power_budget(test, rows), rows, test, (
        test.nominal_told,
        f"One load throughout, held for {lasted:.0f} s with {100 * share:.1f} % of the time at "
        f"{test.floor:.3f} V or more, without reset or gap.",
        *power_working(test, rows, power)), lasted)


def read_time_held(test: LoadTest, rows: slice | None) -> Extracted | Unread:
    if rows is None:
        return unread(HELD, "The load was not held in regulation at any time.", test)
    lasted = float(test.weight[rows].sum())
    step = float(np.median(test.weight[rows]))
    return extracted(HELD, lasted, (("time between two rows", step / SPREAD),), rows, test, (
        f"The longest time at one load with 99 % in regulation, without reset or gap = "
        f"{lasted:.0f} s.",), lasted)


def read_temperature_drift(test: LoadTest, rows: slice | None) -> list[Extracted | Unread]:
    """Of every temperature: mean of the last twentieth of the time held minus that of the first."""
    if not test.temperatures:
        return [unread(DRIFT, "The log has no temperature: log one beside it.", test)]
    if rows is None:
        return [unread(DRIFT, "The load was not held, so that no time of it can be looked at.",
                       test)]
    return [_drift_of(test, rows, channel) for channel in test.temperatures]


def _drift_of(test, rows, channel):
    few = max(int(ENDS * (rows.stop - rows.start)), 1)
    name = channel.column.label or f"column {channel.column.index + 1}"
    first = channel.values[rows.start:rows.start + few]
    last = channel.values[rows.stop - few:rows.stop]
    if not (np.isfinite(first).any() and np.isfinite(last).any()):
        return unread(DRIFT, f"Column “{name}” is blank at one end of the time held.", test)
    begun, ended = float(np.nanmean(first)), float(np.nanmean(last))
    # Both ends err alike by the sensor; what differs is its scale and the last digit.
    scale = abs(limit_of_error(channel, test.conditions, ended)
                - limit_of_error(channel, test.conditions, begun))
    budget = (("scale of the sensor", scale / SPREAD), ("last digit", channel.step / SPREAD))
    return extracted(DRIFT, ended - begun, budget, rows, test, (
        f"Column “{name}”: {begun:.1f} °C at the beginning, {ended:.1f} °C at the end, "
        f"{ended - begun:+.1f} K.",), float(test.weight[rows].sum()), channel.column.index)


def read_drop_outs(test: LoadTest, at_load: np.ndarray) -> Extracted | Unread:
    """How often the voltage left regulation and came back or not, at the load."""
    under = np.flatnonzero(at_load)
    rows = slice(int(under[0]), int(under[-1]) + 1)
    low = low_rows(test, test.floor, load_line(test))[rows] & at_load[rows]
    starts = np.flatnonzero(low & ~np.concatenate([[False], low[:-1]])) + rows.start
    times = ", ".join(f"{test.time[row]:.1f} s" for row in starts[:TOLD])
    more = " and more" if len(starts) > TOLD else ""
    where = f": at {times}{more}" if len(starts) else ""
    return extracted(DROPS, float(len(starts)), (), rows, test, (
        f"Falls below {test.floor:.3f} V by more than meter and noise explain: "
        f"{len(starts)}{where}.",))
