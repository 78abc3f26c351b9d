"""What capacitors hold, and for how long."""
import numpy as np
import pytest

from teardowns.engine.requirements.discharge import (
    PINS,
    allowed_voltage,
    dissipation,
    largest_resistance,
    stored_energy,
    time_until,
    voltage_after,
)

START = 373.4


def test_one_time_constant_leaves_37_percent():
    # IEC 60950-1, 2.1.1.7.
    assert voltage_after(1.0, 1e-6, 1e6, 100.0) == pytest.approx(36.8, abs=0.05)


# By hand, from 373.4 V to 60 V: 2 s / (0.33 µF · 1.828) = 3.32 MΩ; time constant 1 s: 3.03 MΩ.
def test_the_largest_resistor_for_330_nf():
    assert largest_resistance(2.0, 0.33e-6, START, 60.0) == pytest.approx(3.32e6, rel=2e-3)
    assert largest_resistance(1.0, 0.33e-6, np.e, 1.0) == pytest.approx(3.03e6, rel=1e-3)


# By hand: ½ C V² at 373 and 325 V, and R C ln(V/60).
@pytest.mark.parametrize("micro, at_373, at_325, times", [
    (4.7, 0.33, 0.25, (8.6, 0.86, 0.09, 0.02)), (10, 0.70, 0.53, (18.3, 1.83, 0.18, 0.04)),
    (33, 2.30, 1.75, (60.3, 6.03, 0.60, 0.13)), (68, 4.74, 3.60, (124, 12.4, 1.24, 0.27)),
    (22, 1.53, 1.16, (40.2, 4.02, 0.40, 0.09)), (47, 3.28, 2.49, (85.9, 8.59, 0.86, 0.19)),
    (100, 6.97, 5.29, (183, 18.3, 1.83, 0.40))])
def test_a_bulk_capacitor(micro, at_373, at_325, times):
    farad = micro * 1e-6
    assert stored_energy(farad, 373.4) == pytest.approx(at_373, abs=0.006)
    assert stored_energy(farad, 325.3) == pytest.approx(at_325, abs=0.006)
    for ohm, expected in zip((1e6, 1e5, 1e4, 2.2e3), times, strict=True):
        assert time_until(60.0, farad, ohm, START) == pytest.approx(expected, rel=0.08, abs=0.006)


def test_below_60_v_there_is_nothing_to_wait_for():
    assert time_until(60.0, 1e-5, 1e4, 50.0) == 0.0


def test_the_table_is_used_as_printed_and_60_v_from_300_nf_on():
    for nano, volts, _ in PINS.rows:
        assert allowed_voltage(nano * 1e-9) == pytest.approx(volts)
    assert allowed_voltage(2e-6) == 60.0 and allowed_voltage(1e-9) == 1000.0


def test_what_a_resistor_sheds():
    # A magazine article: 53 mW in 1 MΩ at 230 V. By hand from 373.4 V: 63 W in 2.2 kΩ, 14 W in
    # 10 kΩ.
    assert dissipation(230.0, 1e6) == pytest.approx(53e-3, abs=5e-4)
    assert dissipation(START, 2200.0) == pytest.approx(63.0, abs=0.5)
    assert dissipation(START, 10e3) == pytest.approx(14.0, abs=0.1)
