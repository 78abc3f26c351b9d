"""One test at one voltage of a port: its rows, and where the output was in regulation."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from teardowns.logs.channels import Channel
from teardowns.logs.conditions import Conditions

SHARE_IN_REGULATION = 0.95      # of the nominal voltage; basis of direct tests
RESET = 0.5                     # of the nominal voltage: below it the output was off
LIGHT = 0.1                     # of the largest current: a load that hardly moves the voltage
NO_LOAD = 0.005                 # of the largest current
FRESH = 0.15                    # of the rows: fewer changes are steps of the load, no readings


@dataclass(frozen=True, eq=False)
class LoadTest:
    """Rows in which voltage and current were both read, at one setting of the port."""

    time: np.ndarray              # (n,) ascending [s]
    weight: np.ndarray            # (n,) how much time a row stands for [s]
    is_break: np.ndarray          # (n,) bool: something is missing between this row and the last
    voltage: np.ndarray           # (n,) at the port [V]
    current: np.ndarray           # (n,) [A]
    asked: np.ndarray | None      # (n,) current that the load was set to [A]
    nominal: float                # V
    nominal_told: str             # where the nominal voltage comes from
    floor: float                  # V: below it regulation is lost
    unloaded: float               # V with no or a light load
    channels: Mapping[str, Channel]       # by role, same rows
    temperatures: tuple[Channel, ...]
    conditions: Conditions
    cable: tuple[float, float]            # Ω, standard uncertainty
    cable_told: str = ""
    levels: int = 1                       # settings of the voltage in the whole log
    noise: Mapping[str, float] = field(default_factory=dict)      # of voltage and current, 1 σ

    @cached_property
    def power(self) -> np.ndarray:
        return self.voltage * self.current

    @cached_property
    def in_regulation(self) -> np.ndarray:
        return self.voltage >= self.floor

    @cached_property
    def load(self) -> np.ndarray:
        """(n,) The load as set, else as drawn; while the output is away, what was drawn before."""
        if self.asked is not None:
            return self.asked
        drawn = np.where(self.in_regulation, np.arange(len(self.time)), 0)
        return self.current[np.maximum.accumulate(drawn)]

    @cached_property
    def has_no_load(self) -> np.ndarray:
        return self.current <= no_load_limit(self.current, self.step("output_current"))

    def step(self, role: str) -> float:
        channel = self.channels.get(role)
        return 0.0 if channel is None else channel.step

    @property
    def span(self) -> tuple[float, float]:
        return float(self.time[0]), float(self.time[-1])


def floor_voltage(nominal: float, lowest: float | None) -> float:
    """The voltage below which regulation is lost: 0.95 of the nominal, or the sheet's own."""
    return max(SHARE_IN_REGULATION * nominal, lowest or 0.0)


def no_load_limit(current: np.ndarray, step: float) -> float:
    """The current up to which nothing but the meter hangs on the port. [A]"""
    return max(NO_LOAD * float(np.max(current, initial=0.0)), 2 * step)


def noise_of(values: np.ndarray, step: float) -> float:
    """Standard deviation from row to row, deaf to steps: median of differences. 0 for few rows.

    Of a slow meter that repeats itself, the differences between its fresh readings are looked at.
    """
    if len(values) < 8:
        return 0.0
    apart = np.abs(np.diff(values))
    fresh = apart[apart > 0]
    if len(fresh) > FRESH * len(apart) and np.median(fresh) > 1.5 * step:
        apart = fresh
    return float(np.median(apart)) / (0.6745 * np.sqrt(2))


def time_weights(time: np.ndarray, longest: float) -> tuple[np.ndarray, np.ndarray]:
    """(weight, is_break): the time each row stands for, and where the log has a hole before it.

    Half the way to either neighbour; beside a hole and at the ends half a usual step.
    longest : the longest step that is none [s]
    """
    if len(time) < 2:
        return np.ones(len(time)), np.zeros(len(time), bool)
    steps = np.diff(time)
    usual = float(np.median(steps))
    is_hole = steps > longest
    halves = np.where(is_hole, usual, steps) / 2
    before = np.concatenate([[usual / 2], halves])
    after = np.concatenate([halves, [usual / 2]])
    return before + after, np.concatenate([[False], is_hole])
