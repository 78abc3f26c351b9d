"""A reading of a load test as a result: value, uncertainty by parts, span, conditions, working."""
from __future__ import annotations

import numpy as np

from teardowns.engine.quantities import QUANTITIES
from teardowns.logs.accuracy import (
    Budget,
    reading_budget,
    scaled,
    scatter_of_mean,
    together,
)
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.results import RESULTS


def label_of(code: str) -> str:
    return QUANTITIES[code].label if code in QUANTITIES else RESULTS[code][0]


def unit_of(code: str) -> str:
    return QUANTITIES[code].unit if code in QUANTITIES else RESULTS[code][1]


def unread(code: str, why: str, test: LoadTest | None = None) -> Unread:
    """Not read, and why; of which voltage, where the log has several."""
    of = f"At {test.nominal:g} V: " if test is not None and test.levels > 1 else ""
    return Unread(code, label_of(code), of + (why[:1].lower() + why[1:] if of else why))


def extracted(code: str, value: float, budget: Budget, rows: slice, test: LoadTest,
              working: tuple[str, ...], duration: float | None = None,
              column: int | None = None) -> Extracted:
    """A number read from consecutive rows of a test."""
    span = float(test.time[rows.start]), float(test.time[rows.stop - 1])
    return Extracted(code, label_of(code), float(value), together(budget), unit_of(code), *span,
                     budget, working, conditions_of(test, rows, duration), column)


def conditions_of(test: LoadTest, rows: slice, duration: float | None) -> dict[str, float]:
    known = {"output_voltage": test.nominal, "duration": duration,
             "mains_voltage": _beside(test, "input_voltage", rows, test.conditions.mains_voltage),
             "ambient": _beside(test, "ambient_temperature", rows, test.conditions.ambient)}
    return {name: value for name, value in known.items() if value is not None}


def _beside(test, role, rows, stated):
    """The mean of a channel over the rows, else what is stated."""
    channel = test.channels.get(role)
    values = np.empty(0) if channel is None else channel.values[rows]
    values = values[np.isfinite(values)]
    return float(values.mean()) if len(values) else stated


def mean_over(values: np.ndarray, weight: np.ndarray) -> float:
    """Mean by the time each row stands for."""
    return float(values @ weight / weight.sum())


def voltage_budget(test: LoadTest, voltage: float, current: float, scatter: float = 0.0) -> Budget:
    """Of a mean voltage at the port. [V]"""
    cable = abs(current) * test.cable[1]
    shares = reading_budget(test.channels["output_voltage"], test.conditions, voltage, "voltage",
                            scatter)
    return (*shares, ("resistance of the cable", cable)) if cable else shares


def current_budget(test: LoadTest, current: float, scatter: float = 0.0) -> Budget:
    """Of a mean current. [A]"""
    return reading_budget(test.channels["output_current"], test.conditions, current, "current",
                          scatter)


def power_budget(test: LoadTest, rows: slice) -> Budget:
    """Of the mean power of consecutive rows: u = P·√((u_V/V)² + (u_I/I)²). [W]"""
    voltage = mean_over(test.voltage[rows], test.weight[rows])
    current = mean_over(test.current[rows], test.weight[rows])
    product = test.voltage[rows] * test.current[rows]
    return (*scaled(voltage_budget(test, voltage, current), current),
            *scaled(current_budget(test, current), voltage),
            *((("scatter of the power", share),) if (share := scatter_of_mean(product)) else ()))


def power_working(test: LoadTest, rows: slice, power: float) -> tuple[str, ...]:
    """How a mean power came about, a sentence each."""
    voltage = mean_over(test.voltage[rows], test.weight[rows])
    current = mean_over(test.current[rows], test.weight[rows])
    return ((f"P = mean of V·I by time = {voltage:.3f} V · {current:.4f} A = {power:.3f} W.",)
            + ((test.cable_told,) if test.cable_told else ()))
