"""All that a load test log shows: a sweep of the load, or one load for long."""
from __future__ import annotations

from collections.abc import Collection

from teardowns.logs.channels import Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Result
from teardowns.logs.load_tests.after_limit import read_after_limit
from teardowns.logs.load_tests.efficiency import AVERAGE, FULL, MARK, read_average, read_full_load
from teardowns.logs.load_tests.endurance import (
    DRIFT,
    DROPS,
    HELD,
    held_rows,
    main_load,
    read_drop_outs,
    read_held_power,
    read_temperature_drift,
    read_time_held,
)
from teardowns.logs.load_tests.loss import find_loss, load_line
from teardowns.logs.load_tests.no_load import (
    OFFERED,
    POWER,
    VOLTAGE,
    offered_without_current,
    read_no_load_power,
    read_no_load_voltage,
    read_offered_voltage,
)
from teardowns.logs.load_tests.numbers import unread
from teardowns.logs.load_tests.overcurrent import (
    FAILED,
    POINT,
    UP,
    read_failed_power,
    read_overcurrent_point,
)
from teardowns.logs.load_tests.preparing import load_tests
from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.load_tests.ripple import LINE, RIPPLE, read_line_ripple, read_ripple
from teardowns.logs.load_tests.source_resistance import CODE as RESISTANCE
from teardowns.logs.load_tests.source_resistance import read_source_resistance
from teardowns.logs.load_tests.sustained import read_peak, read_sustained

AFTER = "after_limit"
OF_SWEEP = ("sustained_power", "peak_power", FAILED, POINT, AFTER, RESISTANCE, VOLTAGE)
OF_RUN = (HELD, DRIFT, DROPS)
OF_MAINS = (*FULL, POWER, AVERAGE, MARK)
OF_FINE = (RIPPLE, LINE)


def read_load_test(channels: Channels, conditions: Conditions,
                   results: Collection[str] | None = None,
                   span: tuple[float, float] | None = None) -> list[Result]:
    """Everything of the log, or the results of these codes, from the rows of the span [s].

    Of a port that was set to several voltages: one result for each, lowest voltage first.
    """
    rows = channels.between(*span) if span else channels
    found = [*_of_output(channels, rows, conditions, results, span),
             *_of_fine(rows, conditions, results)]
    return [result for result in found if results is None or result.code in results]


def _wants(results, *codes):
    return results is None or any(code in results for code in codes)


def _of_output(channels, rows, conditions, results, span):
    if not _wants(results, *OF_SWEEP, *OF_RUN, *OF_MAINS, OFFERED):
        return
    tests = load_tests(channels, conditions, span)
    if isinstance(tests, str):
        has_mains = rows.of("input_power") is not None or rows.of("input_current") is not None
        yield from (unread(code, tests) for code in (*OF_SWEEP, *(OF_MAINS if has_mains else ())))
        yield offered_without_current(rows, conditions)
        return
    for test in tests:
        yield from _of_test(test, results)
    if _wants(results, OFFERED):
        yield read_offered_voltage(tests)


def _of_test(test: LoadTest, results):
    at_load = main_load(test)
    if at_load is None:
        yield from _of_sweep(test, results)
    else:
        yield from _of_run(test, at_load, results)
    yield from _of_limits(test, results)
    if _wants(results, VOLTAGE):
        yield read_no_load_voltage(test)
    yield from _of_mains(test, results)


def _of_sweep(test, results):
    if _wants(results, "sustained_power"):
        yield read_sustained(test)
    if _wants(results, "peak_power"):
        yield read_peak(test)


def _of_run(test, at_load, results):
    if _wants(results, "sustained_power", HELD, DRIFT):
        held = held_rows(test, at_load)
        yield read_held_power(test, held)
        yield read_time_held(test, held)
        if test.temperatures or results is not None:
            yield from read_temperature_drift(test, held)
    if _wants(results, "peak_power"):
        yield read_peak(test)
    if _wants(results, DROPS):
        yield read_drop_outs(test, at_load)


def _of_limits(test, results):
    if not _wants(results, FAILED, POINT, AFTER, RESISTANCE):
        return
    line = load_line(test)
    beyond = find_loss(test, UP * test.unloaded, line)
    if _wants(results, FAILED):
        yield read_failed_power(test, find_loss(test, test.floor, line))
    if _wants(results, POINT):
        yield read_overcurrent_point(test, beyond)
    if _wants(results, AFTER):
        yield read_after_limit(test, beyond)
    if _wants(results, RESISTANCE):
        yield read_source_resistance(test, None if beyond is None else beyond.held)


def _of_mains(test, results):
    """What needs the mains side, where any of it was logged or is asked for."""
    if results is None and not {"input_power", "input_current"} & set(test.channels):
        return
    if _wants(results, *FULL):
        yield from read_full_load(test)
    if _wants(results, POWER):
        yield read_no_load_power(test)
    if _wants(results, AVERAGE, MARK):
        yield from read_average(test)


def _of_fine(rows, conditions, results):
    if not _wants(results, *OF_FINE) or (results is None and rows.of("ripple_voltage") is None):
        return
    yield read_ripple(rows, conditions)
    yield read_line_ripple(rows, conditions)
