"""Published flyback windings, and the ramps added up in small steps."""
import numpy as np
import pytest

from teardowns.engine.physics.winding_currents import (
    rms_over_average,
    winding_average,
    winding_rms,
)


def sampled(peak, conduction, ripple_ratio, steps=100_000):
    """One period of the current, point by point: ramp down from the peak, then nothing."""
    t = (np.arange(steps) + 0.5) / steps
    return np.where(t < conduction, peak * (1 - ripple_ratio * t / conduction), 0.0)


def test_2_d_the_primary_of_the_textbook_design():
    # Erickson and Maksimovic, 2nd ed., ch. 14 (from memory): I_M 1.25 A with a ripple of 20 % to
    # either side, so peak 1.5 A and K = 0.5/1.5; D 0.4: 0.796 A.
    assert winding_rms(1.5, 0.4, 1 / 3) == pytest.approx(0.796, abs=1e-3)


def test_2_e_the_secondary_of_the_textbook_design():
    # The same: n = 0.15, so peak 1.5/0.15 = 10 A for 0.6 of the period: 6.50 A.
    assert winding_rms(10.0, 0.6, 1 / 3) == pytest.approx(6.50, rel=5e-3)


def test_the_textbook_design_delivers_five_amperes():
    # 10 A · (1 − 1/6) · 0.6 = 5 A, the load of the example.
    assert winding_average(10.0, 0.6, 1 / 3) == pytest.approx(5.0)


# AN-22, page 8: ratio 1.524 in discontinuous mode, so 4/(3·1.524²) = 0.574 of the period.
@pytest.mark.parametrize("average, rms", [(2.0, 3.05), (1.2, 1.83)])
def test_3_l_m_secondaries_of_the_three_output_example(average, rms):
    assert average * rms_over_average(0.574, 1.0) == pytest.approx(rms, abs=5e-3)


@pytest.mark.parametrize("conduction, ripple_ratio", [(0.4, 1.0), (0.6, 0.5), (0.3, 0.9)])
def test_the_ramps_added_up_give_the_same(conduction, ripple_ratio):
    current = sampled(3.0, conduction, ripple_ratio)
    assert winding_average(3.0, conduction, ripple_ratio) == pytest.approx(
        current.mean(), rel=1e-4)
    assert winding_rms(3.0, conduction, ripple_ratio) == pytest.approx(
        np.sqrt((current**2).mean()), rel=1e-4)


def test_discontinuous_mode_is_two_over_the_root_of_three_times_the_share():
    assert rms_over_average(0.45, 1.0) == pytest.approx(2 / np.sqrt(3 * 0.45))


def test_a_steady_current_has_no_ripple():
    assert rms_over_average(1.0, 0.0) == 1.0


@pytest.mark.parametrize("formula, inputs", [
    (winding_rms, (1.0, 0.4, 0.9)), (winding_average, (1.0, 0.4, 0.9)),
    (rms_over_average, (0.4, 0.9))])
def test_unknown_in_unknown_out(formula, inputs):
    for place in range(len(inputs)):
        assert np.isnan(formula(*inputs[:place], np.nan, *inputs[place + 1:]))


def test_one_gives_the_bits_of_many():
    conduction = np.random.default_rng(1).uniform(0.1, 0.9, 501)
    many = rms_over_average(conduction, np.full(501, 0.8))
    for i in (0, 250, 500):
        one = rms_over_average(conduction[[i]], np.array([0.8]))
        assert one.tobytes() == many[[i]].tobytes()
