import numpy as np
import pytest

from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Told, Unread
from tests.logs.load_tests.made import log, read, steps

RATED = Conditions(set_voltage=5.0, rated_current=2.0, mains_voltage=230.0)


def held(out_power, in_power, **more):
    """One load of 5 V for 700 s after a minute without."""
    time = np.arange(760.0)
    on = time >= 60
    return log(time, output_voltage=5.0, output_current=np.where(on, out_power / 5.0, 0.0),
               input_power=np.where(on, in_power, 0.05), **more)


@pytest.mark.parametrize("given, drawn, efficiency", [(34.27, 39.38, 0.870), (34.21, 38.63, 0.886)])
def test_efficiency_is_output_over_input_at_full_load(given, drawn, efficiency):
    # Power Integrations AN-19, figure 1: published input and output powers and efficiencies.
    found = read(held(given, drawn), code="efficiency")
    assert found.value == pytest.approx(efficiency, abs=5e-4)


def test_its_uncertainty_joins_both_sides():
    found = read(held(10.0, 12.5), code="efficiency")
    # Voltage 0.5 % + 0.002/5, current 0.5 % + 0.002/2, mains power 0.5 % + 0.002/12.5, each over
    # √3: √(0.0054² + 0.006² + 0.00516²)/√3 = 0.553 % of 0.8.
    assert found.uncertainty == pytest.approx(0.8 * 0.00553, rel=0.01)


def test_more_out_than_in_is_refused():
    found = read(held(10.0, 9.0), code="efficiency")
    assert isinstance(found, Unread) and "cannot be" in found.why


def test_input_side_and_power_factor_are_those_of_full_load():
    found = read(held(10.0, 12.5, input_voltage=230.0, input_current=0.1))
    assert found["input_power_full_load"].value == pytest.approx(12.5)
    assert found["input_current_full_load"].value == pytest.approx(0.1)
    assert found["power_factor"].value == pytest.approx(12.5 / 23.0)        # 0.543


def test_volts_times_amperes_is_no_power():
    time, voltage, current = steps([0, 2.0], 700)
    channels = log(time, output_voltage=voltage, output_current=current, input_current=0.1)
    assert "wattmeter" in read(channels)["efficiency"].why


def four_loads(efficiencies, loads=(0.5, 1.0, 1.5, 2.0)):
    current = np.repeat([0.0, *loads], 60)
    drawn = np.repeat([0.05, *(5.0 * i / e for i, e in zip(loads, efficiencies, strict=True))], 60)
    return log(np.arange(len(current)), output_voltage=5.0, output_current=current,
               input_power=drawn)


def test_the_average_is_the_mean_of_four_loads():
    # Basis of load tests, case 11-a: 0.70, 0.76, 0.78, 0.77.
    found = read(four_loads((0.70, 0.76, 0.78, 0.77)), RATED, "average_efficiency")
    assert found.value == pytest.approx(0.7525, abs=1e-6)


def test_three_loads_have_no_average():
    channels = four_loads((0.70, 0.76, 0.78), (0.5, 1.0, 1.5))
    found = read(channels, RATED, "average_efficiency")
    assert isinstance(found, Unread) and "100 %" in found.why


def test_without_the_rated_current_there_is_no_average():
    found = read(four_loads((0.7, 0.76, 0.78, 0.77)), code="average_efficiency")
    assert isinstance(found, Unread) and "rated current" in found.why


@pytest.mark.parametrize("average, word", [
    (0.82, "reaches_VI"),     # 10 W low voltage: VI 0.7870 (Regulation (EU) 2019/1782, Annex II)
    (0.787, "undecided"),
    (0.76, "reaches_V"),      # V: 0.075·ln 10 + 0.561 = 0.7337
    (0.60, "below_IV")])      # IV: 0.09·ln 10 + 0.5 = 0.7072
def test_the_average_stands_beside_the_marks(average, word):
    found = read(four_loads((average,) * 4), RATED, "efficiency_mark")
    assert isinstance(found, Told) and found.word == word
    assert found.says.startswith("In the unit examined at 230 V")


def test_a_shortfall_at_another_mains_voltage_decides_nothing():
    at_100 = Conditions(set_voltage=5.0, rated_current=2.0, mains_voltage=100.0)
    found = read(four_loads((0.60,) * 4), at_100, "efficiency_mark")
    assert found.word == "undecided" and "115 V and 230 V" in found.says
