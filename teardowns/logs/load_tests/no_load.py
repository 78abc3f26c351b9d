"""The port with nothing on it: its voltage, and what it then draws from the mains."""
from __future__ import annotations

import numpy as np

from teardowns.logs.accuracy import reading_budget, scatter_of_mean, together
from teardowns.logs.channels import Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.numbers import (
    extracted,
    label_of,
    mean_over,
    unit_of,
    unread,
    voltage_budget,
)
from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.load_tests.voltages import APART

VOLTAGE, POWER, OFFERED = "output_voltage_no_load", "no_load_power", "offered_voltage"
FEWEST = 3                      # rows
# A unit without load works in bursts: common practice, no source.
LEAST_TIME = 60.0               # s, of input power


def read_no_load_voltage(test: LoadTest) -> Extracted | Unread:
    rows = longest_no_load(test)
    if rows is None:
        return unread(VOLTAGE, "The log has no stretch without load while the output was up: begin "
                      "the next one with the load off.", test)
    voltage = mean_over(test.voltage[rows], test.weight[rows])
    budget = voltage_budget(test, voltage, 0.0, scatter_of_mean(test.voltage[rows]))
    return extracted(VOLTAGE, voltage, budget, rows, test, (
        f"Mean of the longest stretch without load, {test.weight[rows].sum():.1f} s = "
        f"{voltage:.3f} V.",))


def read_no_load_power(test: LoadTest) -> Extracted | Unread:
    channel = test.channels.get("input_power")
    if channel is None:
        return unread(POWER, "The log has no mains power: log a wattmeter beside it.", test)
    rows = longest_no_load(test)
    lasted = 0.0 if rows is None else float(test.weight[rows].sum())
    if rows is None or lasted < LEAST_TIME:
        return unread(POWER, f"The longest stretch without load lasted {lasted:.0f} s; a unit that "
                      f"works in bursts needs {LEAST_TIME:.0f} s or more.", test)
    values, weight = channel.values[rows], test.weight[rows]
    read = np.isfinite(values)
    if weight[read].sum() < LEAST_TIME:
        return unread(POWER, "The mains power is blank in the stretch without load.", test)
    power = mean_over(values[read], weight[read])
    budget = reading_budget(channel, test.conditions, power, "mains power",
                            scatter_of_mean(values[read]))
    return extracted(POWER, power, budget, rows, test, (
        f"Mean of the mains power over {lasted:.0f} s without load = {power:.4f} W.",),
        column=channel.column.index)


def read_offered_voltage(tests: list[LoadTest]) -> Extracted | Unread:
    """The highest voltage that the port stood at, of all its settings."""
    test = max(tests, key=lambda one: one.unloaded)
    near = np.abs(test.voltage / test.unloaded - 1) <= APART
    rows = longest_no_load(test) or _longest(test, near)
    if rows is None:
        return unread(OFFERED, "The output voltage stood nowhere long enough to read it.")
    voltage = mean_over(test.voltage[rows], test.weight[rows])
    current = mean_over(test.current[rows], test.weight[rows])
    budget = voltage_budget(test, voltage, current, scatter_of_mean(test.voltage[rows]))
    return extracted(OFFERED, voltage, budget, rows, test, (
        f"Mean of the longest stretch at the highest setting, without load if there is one = "
        f"{voltage:.3f} V at {current:.3f} A.",))


def offered_without_current(channels: Channels, conditions: Conditions) -> Extracted | Unread:
    """The highest steady voltage of a log that has no current."""
    channel = channels.of("output_voltage")
    values = np.empty(0) if channel is None else channel.values
    if channel is None or np.count_nonzero(np.isfinite(values)) < FEWEST:
        return unread(OFFERED, "The log has no output voltage: name its column under “How the file "
                      "is read”.")
    if conditions.cable is not None:
        return unread(OFFERED, "The drop along the cable needs the current: log it too.")
    # The lowest of three neighbours: what an overshoot of one row reaches was not offered.
    three = np.stack([values[:-2], values[1:-1], values[2:]]).min(0)
    three = np.where(np.isfinite(three), three, -np.inf)
    if not np.isfinite(three).any():
        return unread(OFFERED, "The output voltage is blank in every third row or more often.")
    first = int(np.argmax(three))
    rows = slice(first, first + 3)
    voltage = float(values[rows].mean())
    budget = reading_budget(channel, conditions, voltage, "voltage", scatter_of_mean(values[rows]))
    return Extracted(
        OFFERED, label_of(OFFERED), voltage, together(budget), unit_of(OFFERED),
        float(channels.time[first]), float(channels.time[first + 2]), budget,
        (f"Mean of the three rows in a row with the highest voltage = {voltage:.3f} V; the current "
         "was not logged.",))


def longest_no_load(test: LoadTest) -> slice | None:
    """The longest stretch with nothing on the port and its voltage up."""
    up = np.abs(test.voltage / test.unloaded - 1) <= APART / 2
    free = test.has_no_load & up
    if test.asked is not None:
        free &= test.asked <= test.step("set_current") + 0.005 * float(test.asked.max())
    return _longest(test, free)


def _longest(test, mask):
    """The consecutive rows of a mask that last longest, without a gap; None under three rows."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], mask, [False]]).astype(np.int8))
                           | np.concatenate([test.is_break & mask, [False]]))
    starts = edges[edges < len(mask)]
    starts = starts[mask[starts]]
    if not len(starts):
        return None
    stops = edges[np.searchsorted(edges, starts, "right")]
    time = np.concatenate([[0.0], np.cumsum(test.weight)])
    lasting = np.where(stops - starts >= FEWEST, time[stops] - time[starts], 0.0)
    best = int(np.argmax(lasting))
    return slice(int(starts[best]), int(stops[best])) if lasting[best] > 0 else None
