"""The bench card: energy and waiting time of the capacitors at hand."""
import numpy as np
import pytest

from teardowns.engine.bench_card import bench_card, unknown_card, waiting_times
from teardowns.engine.columns import Column, Frame


def card(**known):
    columns = {code: Column(np.array([value]), np.array([0.0]), np.ones(1, np.int8))
               for code, value in known.items()}
    return bench_card(Frame(1, columns), 0)


# By hand for 22 µF at 373.4 V: ½ C V² = 1.53 J; R C ln(V/60): 0.40 s with 10 kΩ, 0.09 s with
# 2.2 kΩ; V²/R: 14 W and 63 W at first. A repair tutorial: 2.2 kΩ in a couple of seconds.
def test_a_capacitor_of_22_uf():
    found = card(bulk_capacitance_marked=22e-6, rated_voltage_high=240.0)
    assert found["energy"] == pytest.approx(1.53, abs=0.006)
    large, small = found["discharge"]
    assert (large["seconds"], small["seconds"]) == pytest.approx((0.40, 0.09), abs=0.006)
    assert (large["first_power"], small["first_power"]) == pytest.approx((14, 63), abs=0.5)
    assert large["keep"] == pytest.approx(5 * 10e3 * 22e-6)
    assert not found["is_measured"] and not found["is_energy_hazard"]


# Ten kilo-ohms take 1.83 s for 100 µF and 18 s for 1000 µF, which 2.2 kΩ empty in 4.0 s.
@pytest.mark.parametrize("farad, chosen", [(100e-6, [True, False]), (1000e-6, [False, True])])
def test_the_gentler_resistor_is_chosen_while_it_is_quick(farad, chosen):
    found = card(bulk_capacitance=farad, rated_voltage_high=240.0)
    assert [way["is_chosen"] for way in found["discharge"]] == chosen


def test_a_measured_capacitance_goes_before_a_printed_one():
    found = card(bulk_capacitance_marked=22e-6, bulk_capacitance=10e-6)
    assert found["capacitance"] == 10e-6 and found["is_measured"]


def test_what_was_not_read_is_not_known_and_the_mains_are_taken_high():
    found = unknown_card()
    assert found["energy"] is None and found["mains"] is None and found["pins"] is None
    assert found["voltage"] == pytest.approx(373.4, abs=0.05)
    assert all(way["seconds"] is None for way in found["discharge"])


# By hand, 22 µF through 1 MΩ: 40.2 s.
def test_a_resistor_that_was_found_across_it_gives_a_time():
    found = card(bulk_capacitance=22e-6, bulk_discharge_resistance=1e6)
    assert found["path"]["seconds"] == pytest.approx(40.2, abs=0.1)


def test_what_lies_across_the_mains_empties_the_pins_and_no_bulk_capacitor():
    found = card(bulk_capacitance=10e-6, discharge_resistance=1e6, x_capacitance=0.33e-6)
    assert found["path"] is None
    assert found["pins"]["seconds"] == pytest.approx(0.33 * 1.828, abs=1e-3)
    assert card(x_capacitance=0.33e-6)["pins"]["seconds"] is None


# By hand: 2 · √2 · 132 V = 373.4 V; a corrector charges to what its capacitor bears.
@pytest.mark.parametrize("more, volts, because", [
    ({"rated_voltage_high": 120.0}, 186.7, "mains"),
    ({"rated_voltage_high": 120.0, "voltage_doubler": 1.0}, 373.4, "doubler"),
    ({"rated_voltage_high": 240.0, "voltage_doubler": 1.0}, 373.4, "mains"),
    ({"power_factor_corrector": 1.0, "bulk_capacitor_rating": 450.0}, 450.0, "corrector"),
    ({"power_factor_corrector": 1.0}, 373.4, "mains"),
    ({"bus_voltage": 390.0}, 390.0, "measured"), ({"bus_voltage": 325.0}, 373.4, "mains"),
])
def test_the_highest_voltage_that_it_may_hold(more, volts, because):
    found = card(**more)
    assert found["voltage"] == pytest.approx(volts, abs=0.05)
    assert found["voltage_by"] == because


# By hand: ½ · 330 µF · 373.4² = 23 J, above the 20 J of the withdrawn IEC 60950-1 (from memory).
def test_much_energy_is_said_to_be_much():
    assert card(bulk_capacitance=330e-6)["is_energy_hazard"]


# By hand, R C ln(373.4/60): 4.7 µF 0.09 s and 0.02 s; 100 µF 1.83 s and 0.40 s.
def test_waiting_times_of_usual_capacitors():
    table = dict(waiting_times())
    assert table[4.7e-6] == pytest.approx([0.09, 0.02], abs=0.006)
    assert table[100e-6] == pytest.approx([1.83, 0.40], abs=0.006)
