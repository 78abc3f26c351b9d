"""Line current against circuit simulations, fuses and inrush against published figures."""
import numpy as np
import pytest

from teardowns.engine.physics.protection import (
    inrush_melting_integral,
    inrush_peak,
    line_current,
    mains_power,
    needed_power_factor,
    resistor_current,
    share_of_melting,
)

FULL, HALF = 1.0, 0.0
# ngspice 39, silicon rectifier with 4.7 Ω: name, rectifier, V rms, W from the bus, line current
# rms, power factor.
SIMULATED = [
    ("B1", FULL, 85, 18.75, 0.3800, 0.601), ("B2", FULL, 85, 5, 0.1026, 0.579),
    ("B3", FULL, 85, 7, 0.1406, 0.593), ("B4", FULL, 90, 7.5, 0.1477, 0.572),
    ("B5", FULL, 90, 12, 0.2365, 0.576), ("B6", FULL, 100, 3, 0.0534, 0.564),
    ("B7", FULL, 115, 6.25, 0.0977, 0.560), ("B8", FULL, 195, 12, 0.1222, 0.507),
    ("B9", FULL, 230, 6.25, 0.0570, 0.478), ("B10", FULL, 230, 6.25, 0.0496, 0.548),
    ("B11", FULL, 264, 25, 0.1836, 0.519), ("B12", FULL, 90, 33, 0.6238, 0.620),
    ("B13", HALF, 90, 2.5, 0.0709, 0.395), ("B14", HALF, 230, 3, 0.0391, 0.334),
    ("B15", HALF, 230, 3, 0.0343, 0.381), ("B16", FULL, 90, 8.58, 0.1624, 0.596),
    ("B17", FULL, 100, 11.90, 0.2029, 0.596),
]


@pytest.mark.parametrize("case", SIMULATED, ids=[case[0] for case in SIMULATED])
def test_the_simulated_line_gives_the_bus_its_power_and_the_diodes_their_loss(case):
    # Two diodes of about 0.8 V on 100 V and 4.7 Ω: up to 6 % of the power at these loads.
    *_, volts, power, current, factor = case
    assert 0.998 * power < mains_power(volts, current, factor) < 1.06 * power


def test_4_g_a_ten_ohm_resistor_of_one_watt():
    # √(1 W/10 Ω) = 0.316 A; times 100 V · 0.58: 18.3 W.
    current = resistor_current(1.0, 10.0)
    assert current == pytest.approx(0.316, abs=5e-4)
    assert mains_power(100.0, current, 0.58) == pytest.approx(18.3, abs=0.05)


def test_5_a_b_published_efficiencies_close_the_balance():
    # AN-19, figure 1: 34.27 W of 39.38 W, 87.0 %, and 34.21 W of 38.63 W, 88.6 %: with these
    # efficiencies an input of as many volt-amperes needs a power factor of 1.
    assert needed_power_factor(34.27, 0.870, 1.0, 39.38) == pytest.approx(1.0, abs=1e-3)
    assert needed_power_factor(34.21, 0.886, 1.0, 38.63) == pytest.approx(1.0, abs=1e-3)


def test_5_c_a_published_adapter_plate_is_consistent():
    # 5 V 3 A from 100 V 0.6 A at 75 % or more: 15/(0.75 · 60) = 0.333, below the 0.5 that any
    # bridge reaches.
    needed = needed_power_factor(15.0, 0.75, 100.0, 0.6)
    assert needed == pytest.approx(0.333, abs=5e-4)
    assert needed < min(factor for _, full, volts, *_, factor in SIMULATED if full and volts < 120)


def test_5_d_what_a_plate_of_100_volts_and_0_2_amperes_allows():
    # 100 V · 0.2 A · 0.58 · 0.75 = 8.7 W.
    assert mains_power(100.0, 0.2, 0.58) * 0.75 == pytest.approx(8.7)


def test_line_current_undoes_mains_power():
    assert line_current(mains_power(100.0, 0.25, 0.58), 100.0, 0.58) == pytest.approx(0.25)


def test_4_d_e_inrush_both_ways():
    # 10 µF behind 10 Ω at 264 V: C·V²/2R = 10e-6 · 2 · 264²/20 = 0.0697 A²s.
    peak = inrush_peak(np.sqrt(2) * 264.0, 10.0)
    found = inrush_melting_integral(peak, 10.0, 10e-6)
    assert found == pytest.approx(0.0697, abs=5e-5)
    # The exponential itself, added up over ten time constants.
    t = (np.arange(100_000) + 0.5) * 1e-8
    assert found == pytest.approx((peak**2 * np.exp(-2 * t / 1e-4)).sum() * 1e-8, rel=1e-4)


# Littelfuse pulse charts.
@pytest.mark.parametrize("pulses, share", [(1e5, 0.22), (1e4, 0.29), (1e3, 0.38), (1e2, 0.48)])
def test_pulses_that_a_fuse_outlives(pulses, share):
    assert share_of_melting(pulses) == pytest.approx(share)


def test_between_the_published_points_the_share_falls_steadily():
    shares = share_of_melting(np.geomspace(100, 1e5, 50))
    assert (np.diff(shares) < 0).all()


@pytest.mark.parametrize("formula, inputs", [
    (mains_power, (100.0, 0.2, 0.58)), (line_current, (10.0, 100.0, 0.58)),
    (needed_power_factor, (15.0, 0.75, 100.0, 0.6)), (resistor_current, (1.0, 10.0)),
    (inrush_peak, (325.0, 10.0)), (inrush_melting_integral, (30.0, 10.0, 1e-5)),
    (share_of_melting, (1e3,))])
def test_unknown_in_unknown_out(formula, inputs):
    for place in range(len(inputs)):
        assert np.isnan(formula(*inputs[:place], np.nan, *inputs[place + 1:]))


def test_one_gives_the_bits_of_many():
    resistance = np.random.default_rng(1).uniform(1, 30, 501)
    many = resistor_current(np.full(501, 1.0), resistance)
    for i in (0, 250, 500):
        one = resistor_current(np.array([1.0]), resistance[[i]])
        assert one.tobytes() == many[[i]].tobytes()
