"""Small logs for the tests of one result: columns by role, as they were read."""
import numpy as np

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.layout import LogColumn
from teardowns.logs.load_tests import read_load_test
from teardowns.logs.load_tests.preparing import load_tests

V, A = "output_voltage", "output_current"
STATED = Conditions(set_voltage=5.0)


def log(time, step=1e-3, **roles):
    """Channels of arrays or single values, by role."""
    time = np.asarray(time, float)
    return Channels(time, tuple(
        Channel(LogColumn(at, role, role), np.asarray(values, float) + 0 * time, step)
        for at, (role, values) in enumerate(roles.items(), 1)))


def steps(loads, dwell, resistance=0.05, unloaded=5.1, step=1.0):
    """(time, voltage, current) of a staircase that holds."""
    current = np.repeat(np.asarray(loads, float), int(dwell / step))
    return np.arange(len(current)) * step, unloaded - resistance * current, current


def test_of(channels, conditions=STATED):
    """The one load test in a log."""
    one, = load_tests(channels, conditions)
    return one


test_of.__test__ = False


def read(channels, conditions=STATED, code=None, span=None):
    """{code: result}, or the one result of a code."""
    found = read_load_test(channels, conditions, {code} if code else None, span)
    return {one.code: one for one in found} if code is None else next(
        one for one in found if one.code == code)
