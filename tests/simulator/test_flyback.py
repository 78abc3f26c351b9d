"""One cycle against energy, volt-seconds and a published worked design."""
import numpy as np
import pytest

from .flyback import VACUUM, Core, Drive, largest_cycle

ONE = np.ones(1)


def ef16(gap=0.17e-3, saturation=0.385):
    return Core(100 * ONE, 20.1e-6 * ONE, 37.6e-3 * ONE, gap * ONE, saturation * ONE, 2000 * ONE)


def drive(peak, duty=0.75, reflected=80.0):
    return Drive(peak * ONE, 0 * ONE, ONE / 65e3, duty * ONE, reflected * ONE, 0 * ONE)


def test_inductance_of_gap_and_ferrite_in_series():
    # 4e-7 pi × 20.1e-6 × 10⁴ / (0.17e-3 + 37.6e-3 / 2000) = 2.526e-7 / 188.8e-6 = 1.338 mH
    assert ef16().inductance[0] == pytest.approx(1.338e-3, rel=1e-3)


def test_current_and_linkage_turn_each_other_round():
    current = np.array([0.01, 0.3, 0.6, 2.0])
    core = Core(*(np.repeat(getattr(ef16(), name), 4) for name in Core.__slots__))
    assert core.current(core.linkage(current)) == pytest.approx(current, rel=1e-6)


def test_an_emptied_core_gives_the_energy_of_a_core_that_does_not_saturate():
    # 0.5 L I² f; at 1.2 T of saturation the curve is straight: 0.5 × 1.338e-3 × 0.16 × 65e3 = 6.96
    cycle = largest_cycle(120 * ONE, ef16(saturation=1.2), drive(0.4))
    assert cycle.lowest[0] == 0
    assert cycle.power[0] == pytest.approx(6.96 * 120 / 119, rel=0.01)     # 1 V lies at the switch


def test_design_example_of_0_30_tesla():
    # EF16, A_e 20.1 mm², A_L 140 nH, 0.30 T, 65 kHz: 6.75 W at 80 %, 8.44 W from the bus, by
    # B² A_e² f / (2 A_L); with 100 turns 0.30 T are 0.603 mVs, 1.4 mH, 0.4307 A
    gap = VACUUM * 20.1e-6 / 140e-9 - 37.6e-3 / 2000
    cycle = largest_cycle(200 * ONE, ef16(gap, 1.2), drive(0.4307))
    assert cycle.power[0] == pytest.approx(8.44, rel=0.01)


def test_on_and_off_time_balance():
    cycle = largest_cycle(60 * ONE, ef16(), drive(0.6))
    on, off = cycle.on_time[0], 1 / 65e3 - cycle.on_time[0]
    assert cycle.lowest[0] > 0
    assert 59 * on == pytest.approx(80 * off, rel=0.005)         # 1 V lies at the switch


def test_beyond_saturation_more_current_hardly_gives_more():
    # the gap of 0.17 mm stores B² A l / (2 mu0) = 0.385² × 20.1e-6 × 0.17e-3 / 2.513e-6 = 201 µJ,
    # 13.1 W at 65 kHz; a core of no gap beyond that would store 4 times as much at 4 times the peak
    powers = [largest_cycle(200 * ONE, ef16(), drive(peak)).power[0] for peak in (0.5, 1.0, 2.0)]
    assert powers[0] < 13.1
    assert powers[2] < 1.35 * 13.1
    assert powers[2] / powers[1] < 1.3


def test_below_the_longest_duty_the_core_is_emptied_again():
    # at 75 % a full core would need 80 × 0.25 / 0.75 = 26.7 V
    above, below = (largest_cycle(volts * ONE, ef16(), drive(0.6)) for volts in (29.0, 26.0))
    assert above.lowest[0] > 0
    assert below.lowest[0] == 0
    assert below.power[0] < 0.5 * above.power[0]


def test_form_of_a_triangular_secondary_current():
    # rms over mean of a ramp that lasts d2 of the period: 2 / sqrt(3 d2), textbook; L I / V_OR / T
    cycle = largest_cycle(200 * ONE, ef16(saturation=1.2), drive(0.3))
    d2 = 1.338e-3 * 0.3 / 80 * 65e3
    assert cycle.secondary_form[0] == pytest.approx(2 / np.sqrt(3 * d2), rel=0.02)
