"""A log as load tests: one for each voltage that the port was set to, or why there is none."""
from __future__ import annotations

from dataclasses import replace

import numpy as np

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.load_tests.cable import loop_resistance, told
from teardowns.logs.load_tests.regulation import (
    LoadTest,
    floor_voltage,
    noise_of,
    time_weights,
)
from teardowns.logs.load_tests.voltages import (
    APART,
    levels_of,
    light_rows,
    nominal_of,
    setting_of_rows,
)
from teardowns.logs.pauses import longest_usual_step

ROLES = ("output_voltage", "output_current", "output_power", "set_current", "input_voltage",
         "input_current", "input_power", "ambient_temperature", "ripple_voltage")
UP = 0.9                        # of the voltage without load
FEWEST = 4                      # rows with voltage and current: fewer show nothing

NO_VOLTAGE = ("The log has no output voltage: name its column under “How the file is read”, or log "
              "it beside the current.")
NO_CURRENT = ("The log has no output current, nor a power to work it out from: name its column "
              "under “How the file is read”, or log it beside the voltage.")
NEVER_BESIDE = ("Voltage and current hardly ever stand in the same row of this span: choose "
                "another span, or log both at once.")
STATE_VOLTAGE = ("What the port was set to is not known: state the output voltage beside the log. ")
REVERSED = ("The current is negative throughout: the meter's leads were the other way round. Turn "
            "the signs in the file, or log it again.")
OTHER_SETTING = ("The port is nowhere in this log at the voltage that is stated: correct “output "
                 "voltage” beside the log, or leave it empty so that it is read without load.")


def load_tests(channels: Channels, conditions: Conditions,
               span: tuple[float, float] | None = None) -> list[LoadTest] | str:
    """The tests in a log, lowest voltage first, or why no load can be read from it.

    span : only its rows are looked at, but for what the port was set to [s]
    """
    voltage, current = channels.of("output_voltage"), current_of(channels)
    if voltage is None:
        return NO_VOLTAGE
    if current is None:
        return NO_CURRENT
    read = np.isfinite(voltage.values) & np.isfinite(current.values)
    if np.count_nonzero(read) < FEWEST:
        return NEVER_BESIDE
    if not np.any(current.values[read] > 0) and np.any(current.values[read] < 0):
        return REVERSED
    found = _by_setting(_rows(channels, read, current), conditions)
    found = found if isinstance(found, str) else [
        test for test in found if len(test.time) >= FEWEST] or OTHER_SETTING
    return found if span is None or isinstance(found, str) else _within(found, span)


def _within(tests, span):
    kept = [(test, (test.time >= span[0]) & (test.time <= span[1])) for test in tests]
    found = [_picked(test, rows) for test, rows in kept if np.count_nonzero(rows) >= FEWEST]
    return found or NEVER_BESIDE


def _picked(test, rows):
    """The test with fewer rows: where some are left out, time does not run on."""
    left_out = np.concatenate([[False], ~rows[:-1]])
    return replace(
        test, time=test.time[rows], weight=test.weight[rows],
        is_break=(test.is_break | left_out)[rows], voltage=test.voltage[rows],
        current=test.current[rows], asked=None if test.asked is None else test.asked[rows],
        channels={role: _of_rows(one, rows) for role, one in test.channels.items()},
        temperatures=tuple(_of_rows(one, rows) for one in test.temperatures))


def _of_rows(channel, rows):
    return Channel(channel.column, channel.values[rows], channel.step)


def current_of(channels: Channels) -> Channel | None:
    """The current at the output, from power over voltage where only these were logged."""
    current, power = channels.of("output_current"), channels.of("output_power")
    voltage = channels.of("output_voltage")
    if current is not None or power is None or voltage is None:
        return current
    up = voltage.values > 0
    derived = np.where(up, power.values / np.where(up, voltage.values, 1.0),
                       np.where(np.isfinite(voltage.values), 0.0, np.nan))
    usual = float(np.nanmedian(voltage.values[up])) if up.any() else 1.0
    return Channel(power.column, derived, power.step / usual)


def _rows(channels, read, current):
    """(time, by role, temperatures) where voltage and current were read."""
    of_role = {role: channel for role in ROLES if (channel := channels.of(role)) is not None}
    of_role["output_current"] = current
    whole = read.all()
    by_role = {role: one if whole else _of_rows(one, read) for role, one in of_role.items()}
    temperatures = tuple(_of_rows(one, read) for one in channels.all_of("temperature"))
    return channels.time[read], by_role, temperatures


def _by_setting(rows, conditions):
    time, by_role, temperatures = rows
    resistance, u = (0.0, 0.0) if conditions.cable is None else loop_resistance(
        conditions.cable, conditions.ambient)
    current = by_role["output_current"]
    asked = _asked(by_role)
    voltage = by_role["output_voltage"].values + resistance * current.values
    light = light_rows(voltage, current.values, asked, current.step)
    levels = levels_of(voltage[light])
    if conditions.set_voltage:
        picked = _stated(voltage, light, levels, conditions.set_voltage)
    else:
        picked = _derived(voltage, light, levels)
    if isinstance(picked, str):
        return picked
    weight, is_break = time_weights(time, longest_usual_step(time))
    whole = (time, weight, is_break, voltage, current.values, asked)
    cable = (resistance, u, "" if conditions.cable is None else told(conditions.cable, resistance,
                                                                     u))
    return [_test(whole, by_role, temperatures, conditions, cable, setting, len(levels))
            for setting in picked]


def _asked(by_role):
    """The set current, blanks filled from the row before; None without one."""
    channel = by_role.get("set_current")
    if channel is None or not np.isfinite(channel.values).any():
        return None
    known = np.isfinite(channel.values)
    last = np.maximum.accumulate(np.where(known, np.arange(len(known)), 0))
    return np.nan_to_num(channel.values[last])


def _stated(voltage, light, levels, stated):
    """[(rows, nominal, unloaded, told)] of the setting that the contributor named."""
    told = f"Nominal voltage {stated:g} V, as stated beside the log."
    near = np.abs(levels / stated - 1) <= 2 * APART
    if not len(levels):
        return [(voltage <= (1 + 2 * APART) * stated, stated, stated, told)]
    if not near.any():
        return OTHER_SETTING
    at = int(np.argmin(np.abs(levels / stated - 1)))
    return [(setting_of_rows(voltage, light, levels) == at, stated, float(levels[at]), told)]


def _derived(voltage, light, levels):
    nominals = [nominal_of(level) for level in levels]
    if not len(levels):
        return STATE_VOLTAGE + "The log has no rows without load that would show it."
    if None in nominals:
        return STATE_VOLTAGE + (f"Without load the log shows {levels[0]:.2f} V, which is near no "
                                "one customary voltage.")
    setting = setting_of_rows(voltage, light, levels)
    return [(setting == at, nominal, float(levels[at]),
             f"Nominal voltage {nominal:g} V: without load the port stood at {levels[at]:.2f} V, "
             "and no other was stated.")
            for at, nominal in enumerate(nominals)]


def _test(whole, by_role, temperatures, conditions, cable, setting, levels):
    rows, nominal, unloaded, nominal_told = setting
    time, weight, is_break, voltage, current, asked = whole
    test = LoadTest(
        time, weight, is_break, voltage, current, asked, nominal, nominal_told,
        floor_voltage(nominal, conditions.lowest_voltage), unloaded, by_role, temperatures,
        conditions, cable[:2], cable[2], levels, _noise(voltage, current, unloaded, by_role))
    return test if rows.all() else _picked(test, rows)


def _noise(voltage, current, unloaded, by_role):
    """Of the rows with the output up: beyond its limit it may swing from row to row."""
    up = voltage >= UP * unloaded
    return {"voltage": noise_of(voltage[up], by_role["output_voltage"].step),
            "current": noise_of(current[up], by_role["output_current"].step)}
