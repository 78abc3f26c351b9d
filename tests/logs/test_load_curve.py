import numpy as np
import pytest

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.layout import LogColumn
from teardowns.logs.load_curve import load_curve


def log(amperes, volts):
    time = np.arange(len(amperes), dtype=float)
    return Channels(time, tuple(
        Channel(LogColumn(n, role, role), np.asarray(values, float))
        for n, (role, values) in enumerate((("output_current", amperes),
                                            ("output_voltage", volts)), 1)))


STEPS = np.repeat([0.0, 0.5, 1.0, 1.5], 20)


def test_each_step_is_a_point_of_the_curve():
    # By hand: 5.1 V less 0.1 Ω at 0, 0.5, 1.0 and 1.5 A.
    curve = load_curve(log(STEPS, 5.1 - 0.1 * STEPS))
    assert np.array(curve) == pytest.approx(
        np.array([(0, 5.1), (0.5, 5.05), (1.0, 5.0), (1.5, 4.95)]))


def test_what_comes_after_the_loss_is_left_out():
    amperes = np.concatenate([STEPS, np.full(40, 0.5)])
    volts = np.concatenate([5.1 - 0.1 * STEPS, np.full(40, 0.2)])
    assert dict(load_curve(log(amperes, volts)))[0.5] == pytest.approx(5.05)


def test_blank_cells_are_left_out():
    volts = 5.1 - 0.1 * STEPS
    volts[::4] = np.nan
    assert load_curve(log(STEPS, volts))[-1] == pytest.approx((1.5, 4.95))


@pytest.mark.parametrize(("amperes", "volts"), [
    ([], []), ([0, 0, 0], [5, 5, 5]), ([1] * 9, [5] * 9), ([np.nan] * 4, [5] * 4)])
def test_one_load_or_none_makes_no_curve(amperes, volts):
    assert load_curve(log(amperes, volts)) == ()


def test_a_log_without_current_has_no_curve():
    channels = log(STEPS, STEPS)
    assert load_curve(Channels(channels.time, channels.channels[1:])) == ()
