"""Output over input: at the highest load held, and as the efficiency marks average it."""
from __future__ import annotations

import numpy as np

from teardowns.engine.physics.efficiency_regulation import (
    minimum_efficiency,
    single_voltage_category,
)
from teardowns.logs.accuracy import reading_budget, scaled, scatter_of_mean, together
from teardowns.logs.extracted import Extracted, Told, Unread
from teardowns.logs.load_tests.numbers import (
    extracted,
    label_of,
    mean_over,
    power_budget,
    unread,
)
from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.load_tests.steps import rows_after_changes
from teardowns.logs.load_tests.sustained import PEAK_TIME, SUSTAINED_TIME, best_window

FULL = ("efficiency", "input_power_full_load", "input_current_full_load", "power_factor")
AVERAGE, MARK = "average_efficiency", "efficiency_mark"
SHARES = (0.25, 0.5, 0.75, 1.0)         # of the rated current
NEAR = 0.02                     # of the rated current: the tests' own tolerance, from memory
FEWEST = 3                      # rows
BOTH_MAINS = (115.0, 230.0)     # V of the tests, from memory
MAINS_NEAR = 0.05
NAMES = {6: "VI", 5: "V", 4: "IV"}


def read_full_load(test: LoadTest) -> list[Extracted | Unread]:
    """Efficiency, input power, input current and power factor at the highest load that held."""
    seconds = SUSTAINED_TIME
    rows = best_window(test, seconds)
    if rows is None:
        seconds, rows = PEAK_TIME, best_window(test, PEAK_TIME)
    if rows is None:
        why = "No load was held in regulation for 10 s, so that there is no full load to look at."
        return [unread(code, why, test) for code in FULL]
    at = f"At the highest load that was held, for {seconds:g} s: "
    return [_efficiency(test, rows, at), *_of_channel(test, rows, at),
            _power_factor(test, rows, at)]


def _input_mean(test, role, rows):
    """(mean, channel, budget) of a mains-side channel, None = not logged there."""
    channel = test.channels.get(role)
    if channel is None:
        return None
    values, weight = channel.values[rows], test.weight[rows]
    read = np.isfinite(values)
    if weight[read].sum() < 0.9 * weight.sum():
        return None
    mean = mean_over(values[read], weight[read])
    name = {"input_power": "mains power", "input_current": "mains current",
            "input_voltage": "mains voltage"}[role]
    return mean, channel, reading_budget(channel, test.conditions, mean, name,
                                         scatter_of_mean(values[read]))


def _efficiency(test, rows, at):
    drawn = _input_mean(test, "input_power", rows)
    if drawn is None:
        return unread("efficiency", "The log has no mains power there: log a wattmeter beside it "
                      "(volts times amperes is no power).", test)
    given = mean_over(test.power[rows], test.weight[rows])
    if not drawn[0] > given:
        return unread("efficiency", f"{given:.2f} W came out while {drawn[0]:.2f} W went in, which "
                      "cannot be: look at the columns, their units and the time between both "
                      "logs.", test)
    value = given / drawn[0]
    budget = (*scaled(power_budget(test, rows), 1 / drawn[0]), *scaled(drawn[2], value / drawn[0]))
    return extracted("efficiency", value, budget, rows, test, (
        f"{at}η = P_out/P_in = {given:.3f} W / {drawn[0]:.3f} W = {100 * value:.1f} %.",),
        float(test.weight[rows].sum()))


def _of_channel(test, rows, at):
    for code, role, name, unit in (
            ("input_power_full_load", "input_power", "mains power", "W"),
            ("input_current_full_load", "input_current", "mains current", "A")):
        drawn = _input_mean(test, role, rows)
        if drawn is None:
            yield unread(code, f"The log has no {name} there: log it beside the output.", test)
        else:
            yield extracted(code, drawn[0], drawn[2], rows, test, (
                f"{at}mean of the {name} = {drawn[0]:.4g} {unit}.",),
                float(test.weight[rows].sum()), drawn[1].column.index)


def _power_factor(test, rows, at):
    power, voltage, current = (_input_mean(test, role, rows) for role in (
        "input_power", "input_voltage", "input_current"))
    if power is None or voltage is None or current is None or not voltage[0] * current[0] > 0:
        return unread("power_factor", "It needs mains power, voltage and current in one log.", test)
    value = power[0] / (voltage[0] * current[0])
    budget = tuple(share for mean, _, shares in (power, voltage, current)
                   for share in scaled(shares, value / mean))
    return extracted("power_factor", value, budget, rows, test, (
        f"{at}P/(V·I) = {power[0]:.3f} W / ({voltage[0]:.1f} V · {current[0]:.4f} A) = "
        f"{value:.3f}.",))


def read_average(test: LoadTest) -> list[Extracted | Told | Unread]:
    """Mean of four efficiencies, and what the marks' tables ask for."""
    rated = rated_current(test)
    points = [] if rated is None else [_point(test, share * rated, rated) for share in SHARES]
    if (why := _why_no_average(test, rated, points)):
        return [unread(AVERAGE, why, test), unread(MARK, why, test)]
    value = float(np.mean([point[0] for point in points]))
    # The meters err alike at all four loads: their shares are averaged, not their squares.
    budget = tuple((name, float(np.mean([dict(point[1]).get(name, 0.0) for point in points])))
                   for name, _ in points[-1][1])
    used = np.flatnonzero(np.any([point[2] for point in points], 0))
    loads = " + ".join(f"{point[0]:.4f}" for point in points)
    found = extracted(AVERAGE, value, budget, slice(int(used[0]), int(used[-1]) + 1), test, (
        f"Rated current {rated:g} A; loads of 25, 50, 75 and 100 % of it, ± 2 %.",
        f"η = ({loads})/4 = {value:.4f}."))
    return [found, _beside_marks(test, rated, found)]


def rated_current(test: LoadTest) -> float | None:
    """Of the plate; from its power at this voltage where no current is printed. [A]"""
    stated = test.conditions
    if stated.rated_current:
        return stated.rated_current
    return stated.rated_power / test.nominal if stated.rated_power else None


def _why_no_average(test, rated, points):
    if "input_power" not in test.channels:
        return "The log has no mains power: log a wattmeter beside it."
    if rated is None:
        return "The rated current is not stated: write it beside the log."
    missing = [f"{100 * share:g} %" for share, point in zip(SHARES, points, strict=True)
               if point is None]
    if missing:
        return (f"The load did not stand in regulation at {', '.join(missing)} of the rated "
                f"{rated:g} A (± 2 %), and fewer than four loads have no average: set those loads.")
    if any(not 0 < point[0] < 1 for point in points):
        return ("More came out than went in, which cannot be: look at the columns, their units and "
                "the time between both logs.")
    return ""


def _point(test, current, rated):
    """(efficiency, budget, rows as a mask) at one load, None = it was not set."""
    channel = test.channels.get("input_power")
    if channel is None:
        return None
    rows = (np.abs(test.current - current) <= NEAR * rated) & test.in_regulation & np.isfinite(
        channel.values)
    settled = rows & ~rows_after_changes(test)
    rows = settled if np.count_nonzero(settled) >= FEWEST else rows
    if np.count_nonzero(rows) < FEWEST:
        return None
    given, drawn = (mean_over(values[rows], test.weight[rows])
                    for values in (test.power, channel.values))
    if not drawn > 0:
        return None
    value = given / drawn
    return value, (*scaled(power_budget(test, rows), 1 / drawn),
                   *scaled(reading_budget(channel, test.conditions, drawn, "mains power"),
                           value / drawn)), rows


def _beside_marks(test, rated, found):
    power = test.conditions.rated_power or rated * test.nominal
    category = single_voltage_category(np.array(test.nominal), np.array(rated))
    asked = {level: float(minimum_efficiency(np.array([power]), category, level)[0])
             for level in NAMES}
    asked = {level: least for level, least in asked.items() if np.isfinite(least)}
    if not asked:
        return unread(MARK, f"The marks' tables say nothing about {power:g} W.", test)
    word, says = _word(asked, found.value, 2 * together(found.budget))
    mains = found.conditions.get("mains_voltage")
    at = "" if mains is None else f" at {mains:.0f} V"
    of_tests = mains is not None and any(abs(mains / v - 1) <= MAINS_NEAR for v in BOTH_MAINS)
    other = "" if of_tests else " The marks ask for it at 115 V and 230 V, which this log is not " \
        "known to have been taken at."
    word = word if of_tests or not word.startswith("below") else "undecided"
    table = "; ".join(f"{NAMES[level]}: {least:.4f}" for level, least in asked.items())
    return Told(MARK, label_of(MARK), word, f"In the unit examined{at}, {says}{other}",
                found.start, found.end, (
        f"Least average efficiency of {power:g} W, "
        f"{'low voltage' if int(category) == 2 else 'one output voltage'} – {table}.",
        f"Found {found.value:.4f} ± {2 * found.uncertainty:.4f} (k = 2)."))


def _word(asked, value, expanded):
    """The highest mark whose figure is reached beyond the uncertainty, or that it is not told."""
    unsure = [level for level in asked if abs(value - asked[level]) < expanded]
    reached = [level for level in asked if value - asked[level] >= expanded]
    above = [level for level in unsure if not reached or level > max(reached)]
    if above:
        names = " and ".join(NAMES[level] for level in sorted(above))
        return "undecided", (f"the measurement does not decide whether the average efficiency "
                             f"reaches the figure of mark {names}.")
    if reached:
        name = NAMES[max(reached)]
        return f"reaches_{name}", f"the average efficiency reaches the figure of mark {name}."
    lowest = NAMES[min(asked)]
    return f"below_{lowest}", (f"the average efficiency is below the figure of mark {lowest}.")
