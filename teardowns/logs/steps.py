"""A log in a few rows: what each channel did in each step of time, for those who read numbers."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.channels import Channels


@dataclass(frozen=True, slots=True)
class Range:
    lowest: float
    mean: float               # of the samples, not of time
    highest: float


@dataclass(frozen=True, slots=True)
class Step:
    start: float              # s, inclusive
    end: float                # s, exclusive; of the last step inclusive
    rows: int
    ranges: tuple[Range | None, ...]      # of each channel; None = nothing but blanks


def steps_for_table(channels: Channels, edges: tuple[float, ...]) -> tuple[Step, ...]:
    """One step from each edge to the next, `edges` ascending [s]."""
    bounds = np.searchsorted(channels.time, edges, "left")
    bounds[-1] = np.searchsorted(channels.time, edges[-1], "right")
    return tuple(
        Step(edges[i], edges[i + 1], int(bounds[i + 1] - bounds[i]),
             tuple(_range(channel.values[bounds[i]:bounds[i + 1]])
                   for channel in channels.channels))
        for i in range(len(edges) - 1))


def _range(values: np.ndarray) -> Range | None:
    values = values[~np.isnan(values)]
    if not len(values):
        return None
    return Range(float(values.min()), float(values.mean()), float(values.max()))
