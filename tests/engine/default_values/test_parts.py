"""Power factors against circuit simulations, can sizes against catalogue values."""
import numpy as np
import pytest

from teardowns.engine.columns import DEFAULT, DERIVED
from teardowns.engine.default_values.parts import output_ripple_rating, power_factor
from teardowns.engine.defaults import CONDITIONED, DEFAULTS
from tests.engine.make import NAN
from tests.engine.physics.test_protection import SIMULATED

# Catalogue ratings at 100 kHz and 105 °C, from memory: mm, mm, least and most A.
WET = [(8, 11.5, 0.6, 0.95), (10, 16, 1.1, 1.8), (12.5, 20, 1.7, 2.6)]
POLYMER = [(6.3, 8, 2.8, 3.9), (8, 11.5, 5.0, 6.0)]


def of_input(*inputs):
    return tuple(float(part) for part in power_factor(*(np.array(each) for each in inputs)))


def of_can(diameter, length, count=1.0):
    value, u = output_ripple_rating(np.array(diameter * 1e-3), np.array(length * 1e-3),
                                    np.array(count))
    return float(value), float(u)


@pytest.mark.parametrize("case", SIMULATED, ids=[case[0] for case in SIMULATED])
def test_every_simulated_power_factor_lies_within_two_standard_uncertainties(case):
    _, full, volts, *_, simulated = case
    value, u = of_input(volts, full, 0.0)
    assert abs(simulated - value) < 2 * u


# Means of the simulated: a bridge at 85 to 115 V 0.586, at 195 to 264 V 0.513, one diode 0.370.
@pytest.mark.parametrize("volts, full, mean", [(115, 1.0, 0.586), (230, 1.0, 0.513),
                                               (115, 0.0, 0.370), (230, 0.0, 0.370)])
def test_it_is_the_mean_of_the_simulated_ones(volts, full, mean):
    assert of_input(volts, full, 0.0)[0] == pytest.approx(mean, abs=0.01)


def test_a_corrector_brings_it_near_one():
    value, u = of_input(230.0, 1.0, 1.0)
    assert value - u >= 0.90 and value + u <= 0.99


def test_an_input_stage_that_nobody_examined_has_none():
    assert np.isnan(of_input(100.0, 1.0, NAN)).all()


def test_it_is_filled_for_each_end_of_the_mains():
    assert "power_factor" in CONDITIONED and DEFAULTS["power_factor"].how == DEFAULT


@pytest.mark.parametrize("can", WET + POLYMER)
def test_catalogue_ratings_lie_within_two_standard_uncertainties(can):
    diameter, length, least, most = can
    value, u = of_can(diameter, length)
    # ±60 % are 0.69 in ln, half of ln 1.6 − ln 0.4.
    for rating in (least, most):
        assert abs(np.log(rating / value)) < 2 * 0.69
    assert u == pytest.approx(0.6 * value)


def test_wet_cans_lie_below_the_middle_and_polymer_cans_above():
    assert all(most < of_can(d, length)[0] for d, length, _, most in WET)
    assert all(least > of_can(d, length)[0] for d, length, least, _ in POLYMER)


def test_two_cans_take_up_twice_as_much():
    assert of_can(8, 12, 2.0)[0] == pytest.approx(2 * of_can(8, 12)[0])


def test_the_same_can_has_the_same_rating_whatever_its_capacitance():
    # AN-16, page 22: 1500 µF 6.3 V and 390 µF 35 V, both 10 × 25 mm, both 55 mΩ. The default does
    # not read a capacitance at all.
    assert set(DEFAULTS["output_ripple_rating"].reads) == {
        "output_capacitor_diameter", "output_capacitor_length", "output_capacitor_count"}


def test_it_is_worked_out_from_evidence_and_unknown_without_it():
    assert DEFAULTS["output_ripple_rating"].how == DERIVED
    assert np.isnan(of_can(8, NAN)).all() and np.isnan(of_can(8, 12, NAN)).all()
