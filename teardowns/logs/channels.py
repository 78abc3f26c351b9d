"""A log as it is read: columns of numbers in SI beside their time."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.layout import LogColumn


@dataclass(frozen=True, slots=True)
class Channel:
    column: LogColumn
    values: np.ndarray        # (n,) float64 in the SI unit of its role, NaN = the cell is blank
    step: float = 0.0         # smallest difference between two readings: the last digit, 0 unknown


@dataclass(frozen=True, slots=True)
class Channels:
    time: np.ndarray          # (n,) float64, ascending from 0 [s]
    channels: tuple[Channel, ...]     # those that are used, without the time

    def of(self, role: str) -> Channel | None:
        """The first channel of a role."""
        return next(iter(self.all_of(role)), None)

    def all_of(self, role: str) -> tuple[Channel, ...]:
        return tuple(channel for channel in self.channels if channel.column.role == role)

    def between(self, start: float, end: float) -> Channels:
        """The rows whose time lies in [start, end]."""
        rows = slice(np.searchsorted(self.time, start, "left"),
                     np.searchsorted(self.time, end, "right"))
        return Channels(self.time[rows], tuple(
            Channel(channel.column, channel.values[rows], channel.step)
            for channel in self.channels))
