"""Published examples of output capacitors and rectifiers."""
import numpy as np
import pytest

from teardowns.engine.physics.output_stage import (
    output_voltage_of_reverse,
    reflected_voltage_of_reverse,
    reverse_voltage,
    ripple_current,
    ripple_limited_current,
    synchronous_limited_current,
)


def test_4_a_ripple_of_the_three_output_example():
    # AN-16, page 22, with the currents of AN-22, page 8: √(3.05² − 2.0²) = 2.303 A.
    assert ripple_current(3.05, 2.0) == pytest.approx(2.303, abs=1e-3)


def test_4_a_backwards_the_capacitors_of_that_ripple_give_two_amperes():
    assert ripple_limited_current(2.303, 3.05 / 2.0) == pytest.approx(2.0, abs=1e-3)


def test_4_b_reverse_voltage_of_a_five_volt_output():
    # AN-32, page 15: 5 V + 375 V/15 = 30 V.
    assert reverse_voltage(5.0, 375.0, 15.0) == pytest.approx(30.0)
    assert output_voltage_of_reverse(30.0, 375.0, 15.0) == pytest.approx(5.0)


def test_4_c_reflected_voltage_from_a_40_volt_schottky_diode():
    # AN-23, step 6: 0.8 · 40 V = 32 V; 375 · 5.5/27 = 76.4 V.
    assert reflected_voltage_of_reverse(375.0, 5.0, 0.5, 0.8 * 40.0) == pytest.approx(
        76.4, abs=0.05)


def test_a_rectifier_too_weak_for_the_turns_suits_no_output():
    assert output_voltage_of_reverse(20.0, 375.0, 15.0) < 0


def test_the_heat_of_a_synchronous_rectifier_is_what_was_put_in():
    # 5 A, twice as much rms, through 15 mΩ: 10² · 0.015 = 1.5 W.
    assert synchronous_limited_current(1.5, 0.015, 2.0) == pytest.approx(5.0)


@pytest.mark.parametrize("formula, inputs", [
    (ripple_current, (3.0, 2.0)), (ripple_limited_current, (2.0, 1.5)),
    (reverse_voltage, (5.0, 375.0, 15.0)), (output_voltage_of_reverse, (30.0, 375.0, 15.0)),
    (reflected_voltage_of_reverse, (375.0, 5.0, 0.5, 32.0)),
    (synchronous_limited_current, (1.5, 0.01, 1.6))])
def test_unknown_in_unknown_out(formula, inputs):
    for place in range(len(inputs)):
        assert np.isnan(formula(*inputs[:place], np.nan, *inputs[place + 1:]))


def test_one_gives_the_bits_of_many():
    ripple = np.random.default_rng(1).uniform(0.1, 9, 501)
    many = ripple_limited_current(ripple, np.full(501, 1.6))
    for i in (0, 250, 500):
        one = ripple_limited_current(ripple[[i]], np.array([1.6]))
        assert one.tobytes() == many[[i]].tobytes()
