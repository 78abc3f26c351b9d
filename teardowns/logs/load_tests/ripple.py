"""Ripple of the output: peak to peak, and the part at twice the mains frequency by itself."""
from __future__ import annotations

import numpy as np

from teardowns.logs.accuracy import SPREAD, limit_of_error, reading_budget, together
from teardowns.logs.channels import Channel, Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.numbers import label_of, unit_of, unread

RIPPLE, LINE = "ripple_voltage", "line_ripple"
BLOCK = 0.02                    # s: two periods of 100 Hz
FEWEST_BLOCKS, FEWEST = 3, 50
SLOWEST = 1e-3                  # s between samples: beyond that no 100 Hz is seen
FAST = 2e-6                     # s: beyond that switching is caught by chance only
LEAST_PERIODS = 2.0


def read_ripple(channels: Channels, conditions: Conditions) -> Extracted | Unread:
    """Median over blocks of 20 ms of highest minus lowest."""
    found = _samples(channels)
    if isinstance(found, str):
        return unread(RIPPLE, found)
    channel, time, values = found
    peak, spread, told = peak_to_peak(time, values)
    budget = (*reading_budget(channel, conditions, peak, "ripple", spread),)
    step = float(np.median(np.diff(time)))
    caught = () if step <= FAST else (
        f"The samples lie {1e6 * step:.3g} µs apart: peaks of the switching frequency are caught "
        "by chance, so that the true ripple may be larger.",)
    return _number(RIPPLE, channel, peak, budget, time, conditions, (
        f"Highest minus lowest sample, {told} = {1e3 * peak:.1f} mV.", *caught,
        "Measured in 20 MHz bandwidth with 0.1 µF and 10 µF at the probe it is comparable with a "
        "data sheet (common practice, no source)."))


def read_line_ripple(channels: Channels, conditions: Conditions) -> Extracted | Unread:
    """Least squares of a sine at twice the mains frequency."""
    found = _samples(channels)
    if isinstance(found, str):
        return unread(LINE, found)
    channel, time, values = found
    wanted = [conditions.mains_frequency] if conditions.mains_frequency else [50.0, 60.0]
    if time[-1] - time[0] < LEAST_PERIODS / (2 * min(wanted)):
        return unread(LINE, "The record is shorter than two periods of twice the mains frequency: "
                      "record 20 ms or more.")
    mains, (swing, u) = max(((f, sine_swing(time, values, 2 * f)) for f in wanted),
                            key=lambda one: one[1][0])
    budget = (("limits of the meter", limit_of_error(channel, conditions, swing) / SPREAD),
              ("scatter of the fit", u))
    return _number(LINE, channel, swing, budget, time, conditions, (
        f"Peak to peak of the sine at 2·{mains:g} Hz that fits best = {1e3 * swing:.1f} mV; a "
        "large one shows the valley of the bulk capacitor.",))


def _samples(channels):
    channel = channels.of("ripple_voltage")
    if channel is None:
        return "The log has no fine record of the output voltage: take one with an oscilloscope."
    read = np.isfinite(channel.values)
    time, values = channels.time[read], channel.values[read]
    if len(time) < FEWEST:
        return "The span holds too few samples of the fine output voltage: choose a longer one."
    if np.median(np.diff(time)) > SLOWEST:
        return ("The samples lie more than 1 ms apart, too far to show a ripple: take it with an "
                "oscilloscope.")
    return channel, time, values


def peak_to_peak(time: np.ndarray, values: np.ndarray) -> tuple[float, float, str]:
    """(V, standard deviation of its mean [V], how it was taken)"""
    block = np.floor((time - time[0]) / BLOCK).astype(np.int64)
    starts = np.flatnonzero(np.diff(block, prepend=-1))
    sizes = np.diff(np.append(starts, len(time)))
    full = sizes >= max(FEWEST, 0.8 * np.median(sizes))
    if np.count_nonzero(full) < FEWEST_BLOCKS:
        low, high = np.quantile(values, [0.0005, 0.9995])
        return float(high - low), 0.0, "of all but one in a thousand samples"
    swings = (np.maximum.reduceat(values, starts) - np.minimum.reduceat(values, starts))[full]
    spread = 1.4826 * float(np.median(np.abs(swings - np.median(swings))))
    return (float(np.median(swings)), spread / np.sqrt(len(swings)),
            f"median of {len(swings)} blocks of 20 ms")


def sine_swing(time: np.ndarray, values: np.ndarray, frequency: float) -> tuple[float, float]:
    """(peak to peak, standard uncertainty) of the sine of a frequency in a record, with drift."""
    phase = 2 * np.pi * frequency * time
    centred = time - time.mean()
    design = np.stack([np.ones_like(time), centred, np.cos(phase), np.sin(phase)], 1)
    fit, *_ = np.linalg.lstsq(design, values, rcond=None)
    residual = values - design @ fit
    return 2 * float(np.hypot(fit[2], fit[3])), 2 * float(np.std(residual)) * np.sqrt(
        2 / len(time))


def _number(code, channel: Channel, value, budget, time, conditions, working):
    known = {"output_voltage": conditions.set_voltage, "mains_voltage": conditions.mains_voltage,
             "ambient": conditions.ambient}
    return Extracted(code, label_of(code), float(value), together(budget), unit_of(code),
                     float(time[0]), float(time[-1]), budget, working,
                     {name: one for name, one in known.items() if one is not None},
                     channel.column.index)
