"""Current through a capacitance."""
import numpy as np
import pytest

from teardowns.engine.requirements.touch_current import (
    largest_capacitance,
    one_shorted,
    touch_current,
)

MA, NF = 1e-3, 1e-9


# By hand from 2π f C U.
@pytest.mark.parametrize("capacitance, volts, hertz, expected", [
    (2.2, 264.0, 60.0, 0.219), (2.64, 264.0, 60.0, 0.263), (1.0, 240.0, 50.0, 0.0754),
    (5.64, 264.0, 60.0, 0.561),
    (2.2, 3000.0, 50.0, 2.07)])          # an a.c. test of 3 kV, which is no breakdown
def test_currents(capacitance, volts, hertz, expected):
    assert touch_current(capacitance * NF, volts, hertz) == pytest.approx(expected * MA, rel=3e-3)


# A catalogue supply names 0.33 mA at 230 V 50 Hz, 0.14 at 100 V 50 Hz and 0.20 at 120 V 60 Hz.
@pytest.mark.parametrize("volts, hertz, printed", [(100.0, 50.0, 0.14), (120.0, 60.0, 0.20)])
def test_it_is_proportional_to_voltage_and_frequency(volts, hertz, printed):
    capacitance = largest_capacitance(0.33 * MA, 230.0, 50.0)
    assert touch_current(capacitance, volts, hertz) == pytest.approx(printed * MA, abs=0.008 * MA)


# By hand: 0.25 mA and 0.5 mA over 2π f U.
@pytest.mark.parametrize("limit, volts, hertz, expected", [
    (0.25, 230.0, 50.0, 3.460), (0.25, 240.0, 50.0, 3.316), (0.25, 264.0, 50.0, 3.014),
    (0.25, 264.0, 60.0, 2.512), (0.25, 120.0, 60.0, 5.526), (0.25, 132.0, 60.0, 5.024),
    (0.5, 230.0, 50.0, 6.920), (0.5, 240.0, 50.0, 6.631), (0.5, 264.0, 50.0, 6.029),
    (0.5, 264.0, 60.0, 5.024), (0.5, 120.0, 60.0, 11.052), (0.5, 132.0, 60.0, 10.048)])
def test_the_largest_capacitance(limit, volts, hertz, expected):
    found = largest_capacitance(limit * MA, volts, hertz)
    assert found == pytest.approx(expected * NF, rel=3e-4)


def test_a_shorted_piece_leaves_the_other_alone():
    # Two of 2 nF in series are 1 nF, beside 1 nF in parallel 2 nF; one shorted 2 nF beside 1 nF.
    assert one_shorted(2 * NF, 2 * NF, 2.0) == pytest.approx(3 * NF)
    assert np.isnan(one_shorted(1 * NF, 1 * NF, 1.0))
