"""Temperatures of a thermal log: steady, or by extrapolation that says so, or not to be told."""
from __future__ import annotations

from collections.abc import Collection
from math import hypot, isfinite, sqrt

import numpy as np

from teardowns.engine.quantities import QUANTITIES
from teardowns.logs.channels import Channel, Channels
from teardowns.logs.conditions import Accuracy, Conditions
from teardowns.logs.extracted import Extracted, Result, Unread
from teardowns.logs.thermal.settling import drift, settle

# Thermal equilibrium: at most 1 K in 30 min (IEC 60034-1, from memory; 62368-1 allows 3 K).
STEADY_DRIFT = 1.0 / 1800       # K/s
STEADY_WINDOW = 600.0           # s: the mean of the last ten minutes is what settled
LEAST_REACHED = 0.7             # of the whole rise, before a curve is believed beyond its record
MOST_FORM = 5.0                 # K: a curve whose end moves more by its own first part tells none
SAME_LOAD = 0.03                # relative; basis of the load tests: no change of the set point
# A thermocouple of type K, class 1 (IEC 60584-1, from memory), and its meter.
ASSUMED = Accuracy(0.0, 1.5)
AMBIENT, LOAD = "ambient_temperature", "temperature_load"
SPREAD = sqrt(3)                # limits of error to a standard uncertainty, rectangular


def read_thermal(channels: Channels, conditions: Conditions,
                 results: Collection[str] | None = None,
                 span: tuple[float, float] | None = None) -> list[Result]:
    """Every temperature whose place is known, the air and the load while they were taken."""
    rows = channels.between(*span) if span else _under_one_load(channels)
    if len(rows.time) < 3:
        return [Unread(AMBIENT, QUANTITIES[AMBIENT].label, "The span holds fewer than three "
                       "readings: choose a longer one.")]
    found = [result for channel in rows.all_of("temperature")
             for result in _of_channel(rows, channel, conditions)]
    found += _alongside(rows, conditions)
    return [result for result in found if results is None or result.code in results]


def _under_one_load(channels):
    """The rows after the last change of load, and those before the load was taken off."""
    power = _power(channels)
    if power is None or not (full := float(np.nanmax(np.append(power, 0.0)))) > 0:
        return channels
    loaded = np.flatnonzero(np.nan_to_num(power) > (1 - SAME_LOAD) * np.median(
        power[power > 0.5 * full]))
    if not len(loaded):
        return channels
    breaks = np.flatnonzero(np.diff(loaded) > 1)
    runs = np.split(loaded, breaks + 1)
    longest = max(runs, key=lambda run: channels.time[run[-1]] - channels.time[run[0]])
    return channels.between(channels.time[longest[0]], channels.time[longest[-1]])


def _power(channels):
    power = channels.of("output_power")
    if power is not None:
        return power.values
    voltage, current = channels.of("output_voltage"), channels.of("output_current")
    return None if voltage is None or current is None else voltage.values * current.values


def _of_channel(rows, channel, conditions):
    code = channel.column.place
    name = channel.column.label or f"column {channel.column.index + 1}"
    if code not in QUANTITIES:
        yield Unread("temperature", f"Temperature “{name}”", "It is not known what this column "
                     "shows: name the place under “How the file is read”.")
        return
    if not np.isfinite(channel.values).any():
        yield Unread(code, QUANTITIES[code].label, f"Column “{name}” is blank in this span.")
        return
    yield _settled(rows, channel, code, conditions)


def _settled(rows, channel, code, conditions):
    label = QUANTITIES[code].label
    air = rows.of(AMBIENT)
    rise = channel.values if air is None else channel.values - air.values
    steady = _steady_since(rows.time, rise)
    if steady is not None:
        return _mean_of(rows, channel, code, steady, conditions)
    curve = settle(rows.time - rows.time[0], rise)
    minutes = (rows.time[-1] - rows.time[0]) / 60
    if curve is None or not isfinite(curve.form) or curve.form > MOST_FORM:
        return Unread(code, label, f"It was still changing when the log ended after {minutes:.0f} "
                      "min, and its course does not show where to: log on until it moves by less "
                      "than 1 K in 30 min.")
    start = float(rise[np.isfinite(rise)][0])
    reached = (curve.last - start) / (curve.final - start) if curve.final != start else 1.0
    if not LEAST_REACHED <= reached <= 1.0:
        return Unread(code, label, f"After {minutes:.0f} min about {100 * reached:.0f} % of the "
                      f"rise was reached, too little to tell the end: log for another "
                      f"{_minutes_left(curve, start):.0f} min or more.")
    return _extrapolated(rows, channel, code, curve, reached, air, conditions)


def _minutes_left(curve, start):
    """Until 90 % of the rise is there."""
    left = abs(curve.final - curve.last) / (0.1 * abs(curve.final - start))
    return max(curve.time_constant * np.log(max(left, 1.0)) / 60, 1.0)


def _steady_since(time, rise):
    """The beginning of the last window if nothing moves in it, else None."""
    begin = time[-1] - STEADY_WINDOW
    if begin < time[0]:
        return None
    last = time >= begin
    slope, u = drift(time[last], rise[last])
    return float(begin) if abs(slope) + 2 * u <= STEADY_DRIFT else None


def _mean_of(rows, channel, code, begin, conditions):
    last = rows.between(begin, rows.time[-1])
    values = next(c.values for c in last.channels if c.column == channel.column)
    mean = float(np.nanmean(values))
    budget = _sensor(channel, conditions) + (("drift within the window", STEADY_DRIFT
                                             * STEADY_WINDOW / 2 / SPREAD),)
    return _number(code, mean, budget, (begin, float(rows.time[-1])), last, conditions, channel, (
        f"Mean of the last {STEADY_WINDOW / 60:.0f} min = {mean:.1f} °C.",
        "Within them it moved by less than 1 K in 30 min, the mark of thermal equilibrium."))


def _extrapolated(rows, channel, code, curve, reached, air, conditions):
    base = 0.0 if air is None else float(np.nanmean(air.values[-max(len(air.values) // 10, 1):]))
    value = curve.final + base
    budget = _sensor(channel, conditions) + (
        ("scatter of the fit", curve.scatter), ("more than one time constant", curve.form))
    last = float(np.nanmean(channel.values[-max(len(channel.values) // 50, 1):]))
    span = (float(rows.time[0]), float(rows.time[-1]))
    return _number(code, value, budget, span, rows, conditions, channel, (
        "Extrapolated: the log ends before the temperature stands still.",
        f"T∞ + A·exp(−t/τ) with τ = {curve.time_constant / 60:.1f} min was fitted; the log ends at "
        f"{last:.1f} °C, {100 * reached:.0f} % of the rise.",
        f"T∞ = {value:.1f} °C" + ("." if air is None else f", above air of {base:.1f} °C.")))


def _number(code, value, budget, span, rows, conditions, channel, working):
    ambient = _ambient(rows, conditions)
    known = {} if ambient is None else {"ambient": ambient}
    u = hypot(*(share for _, share in budget))
    start, end = span
    return Extracted(code, QUANTITIES[code].label, value, u, "°C", start, end, budget, working,
                     known, channel.column.index)


def _ambient(rows, conditions):
    air = rows.of(AMBIENT)
    if air is None or not np.isfinite(air.values).any():
        return conditions.ambient
    return float(np.nanmean(air.values))


def _sensor(channel: Channel, conditions):
    stated = conditions.accuracies.get(channel.column.role, ASSUMED)
    mean = float(np.nanmean(channel.values))
    limit = stated.relative * abs(mean) + stated.absolute + stated.digits * channel.step
    return (("sensor and meter", limit / SPREAD), ("last digit", channel.step / (2 * SPREAD)))


def _alongside(rows, conditions):
    """The air beside the unit and the load, as means over the same span."""
    span = (float(rows.time[0]), float(rows.time[-1]))
    air, power = rows.of(AMBIENT), _power(rows)
    if air is not None and np.isfinite(air.values).any():
        mean, budget = float(np.nanmean(air.values)), _sensor(air, conditions)
        yield Extracted(AMBIENT, QUANTITIES[AMBIENT].label, mean,
                        hypot(*(share for _, share in budget)), "°C", *span, budget,
                        (f"Mean over the span = {mean:.1f} °C.",), column=air.column.index)
    if power is not None and np.isfinite(power).any():
        mean = float(np.nanmean(power))
        spread = float(np.nanstd(power))
        yield Extracted(LOAD, QUANTITIES[LOAD].label, mean, hypot(0.005 * mean, spread), "W", *span,
                        (("meter, assumed 0.5 %", 0.005 * mean), ("it varied", spread)),
                        (f"Mean over the span = {mean:.2f} W.",))
