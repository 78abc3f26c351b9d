"""The largest current with the voltage up, and the power at which regulation was lost."""
from __future__ import annotations

from math import sqrt

import numpy as np

from teardowns.logs.accuracy import scaled, scatter_of_mean
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.doubt import PULLED
from teardowns.logs.load_tests.loss import Loss
from teardowns.logs.load_tests.numbers import current_budget, extracted, unread
from teardowns.logs.load_tests.regulation import LoadTest, no_load_limit

POINT, FAILED = "overcurrent_point", "failed_power"
UP = 0.9                        # of the voltage without load
NOTHING_HELD = ("The voltage gave way at the first load already: begin with smaller ones, and look "
                "whether the port needs a request before it gives more.")


def read_overcurrent_point(test: LoadTest, loss: Loss | None) -> Extracted | Unread:
    """loss : of 0.9 of the voltage without load"""
    if loss is None or loss.doubt.why:
        return unread(POINT, _not_shown(test, loss, UP * test.unloaded), test)
    if not loss.held > no_load_limit(test.current, test.step("output_current")):
        return unread(POINT, NOTHING_HELD, test)
    rows = loss.held_rows
    scatter = scatter_of_mean(test.current[rows])
    budget = _with_step(current_budget(test, loss.held, scatter), loss.spacing)
    return extracted(POINT, loss.held, budget, rows, test, (
        f"Without load the port stood at {test.unloaded:.3f} V; 0.9 of that is "
        f"{UP * test.unloaded:.3f} V.",
        f"Largest current with the voltage up = {loss.held:.4f} A, held from "
        f"{test.time[rows.start]:.1f} s to {test.time[rows.stop - 1]:.1f} s; at "
        f"{test.time[loss.row]:.1f} s the voltage was below. {loss.asked_told}".rstrip(),
        *_besides(test, loss)))


def read_failed_power(test: LoadTest, loss: Loss | None) -> Extracted | Unread:
    """loss : of the floor of regulation"""
    if loss is None or loss.doubt.why:
        return unread(FAILED, _not_shown(test, loss, test.floor), test)
    if loss.doubt.is_by_timing:              # too little to hold against a unit
        return unread(FAILED, PULLED, test)
    if loss.asked is None:
        return unread(FAILED, "Regulation was lost, but the log does not show at which load: log "
                      "the current that the load was set to, or raise it in even steps.", test)
    power = loss.asked * test.nominal
    budget = scaled(_with_step(current_budget(test, loss.asked), loss.spacing), test.nominal)
    return extracted(FAILED, power, budget, slice(loss.row, loss.last), test, (
        test.nominal_told,
        f"Regulation is at least {test.floor:.3f} V. From {test.time[loss.row]:.1f} s on the "
        f"voltage was below by more than meter and noise explain, {100 * loss.share:.0f} % of the "
        "time under this load.",
        f"{loss.asked_told} P = I·V_nominal = {loss.asked:.4f} A · {test.nominal:g} V = "
        f"{power:.3f} W.", *_besides(test, loss)))


def _with_step(budget, spacing):
    """The limit lies anywhere between the load that was held and the next: rectangular."""
    return (*budget, ("step between the loads", spacing / sqrt(3))) if spacing > 0 else budget


def _besides(test, loss):
    return tuple(told for told in (test.cable_told, loss.doubt.granted) if told)


def _not_shown(test, loss, level):
    if loss is not None:
        return loss.doubt.why
    loaded = test.current > 0.1 * test.current.max()
    below = (test.voltage < level) & loaded
    if test.conditions.cable is None and np.count_nonzero(below) >= 3:
        return (f"The voltage went below {level:.3f} V only within what meter, noise or a cable "
                "explain: state the cable between port and meter, or sense at the port with a "
                "better meter.")
    return (f"The log ends without it: at the largest load, {test.current.max():.3f} A, the "
            "voltage stayed up. Raise the load further, if that is what you want to know.")
