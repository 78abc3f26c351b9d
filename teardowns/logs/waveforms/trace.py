"""A capture as it is read: equal steps of time, its noise, smoothed where the noise asks for it."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.channels import Channel, Channels

FEWEST = 200              # samples: 5 periods of 40
UNEVEN = 0.6              # of a step that a row may lie off its place; files round their times
QUIET = 0.02              # of the span: what noise is left after smoothing
NODES = ("switch_voltage", "winding_voltage")


class Unreadable(ValueError):
    """Why a capture, or one result of it, cannot be read; the text names the remedy."""


@dataclass(frozen=True, slots=True)
class Trace:
    start: float              # s
    step: float               # s between two samples
    values: np.ndarray        # (n,) float64 [V], smoothed over `width` samples, upright
    width: int                # samples
    noise: float              # standard deviation of one sample as recorded [V]
    digit: float              # V, the last digit of the file; 0 unknown
    column: int
    is_winding: bool

    def time(self, place):
        """Sample number, fractions allowed → s."""
        return self.start + np.multiply(place, self.step)

    def upside_down(self) -> Trace:
        return Trace(self.start, self.step, -self.values, self.width, self.noise, self.digit,
                     self.column, self.is_winding)


def trace_of(channels: Channels) -> Trace:
    """The capture's node; raises Unreadable."""
    channel = next((found for role in NODES if (found := channels.of(role))), None)
    if channel is None:
        raise Unreadable("No column is marked as the voltage at the primary switch or at a "
                         "winding: mark the one that it is.")
    time, values = np.asarray(channels.time, float), np.asarray(channel.values, float)
    if len(time) < FEWEST:
        raise Unreadable(f"The span has {len(time)} samples and at least {FEWEST} are needed: "
                         "widen it, or export more samples.")
    if np.isnan(values).any():
        raise Unreadable("Cells of this column are blank within the span: choose a span without "
                         "gaps.")
    return _smoothed(time, values, _step(time), channel)


def _step(time):
    step = float(time[-1] - time[0]) / (len(time) - 1)
    places = (time - time[0]) / step if step > 0 else time
    if step <= 0 or np.abs(places - np.arange(len(time))).max() > UNEVEN + _digits_of(time) / step:
        raise Unreadable("The samples do not follow each other in equal steps of time: export the "
                         "capture with all digits of its times, or with the sample interval.")
    return step


def _digits_of(time):
    """How far rounding may have moved a time: the commonest distances differ by its last digit."""
    distances = np.diff(time[: 20_000])
    return float(np.quantile(distances, 0.95) - np.quantile(distances, 0.05))


def _smoothed(time, values, step, channel: Channel):
    low, high = np.quantile(values, [0.005, 0.995])
    noise = _noise(values)
    span = high - low
    if span <= 8 * noise or span <= 0:
        raise Unreadable("No switching is seen above the noise: check that the probe lies on the "
                         "node and use more of the screen's height.")
    width = int(np.ceil((noise / (QUIET * span)) ** 2)) | 1
    if width > 1:
        values = np.convolve(np.pad(values, width // 2, "edge"), np.full(width, 1 / width),
                             "valid")
    return Trace(float(time[0]), step, values, width, noise, channel.step, channel.column.index,
                 channel.column.role == "winding_voltage")


def _noise(values):
    """Of second differences in the quietest pieces, which neither edges nor rings enter."""
    second = values[2:] - 2 * values[1:-1] + values[:-2]
    pieces = second[:len(second) // 8 * 8].reshape(-1, 8)
    # 0.15 of the pieces of a plain noise lie below 0.75 of it (χ² of some 8 values).
    return float(np.quantile(np.sqrt(np.mean(pieces * pieces, axis=1)), 0.15) / 0.75 / np.sqrt(6))
