"""Voltage between the pins after two seconds."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better

UNIT = {"rated_voltage_high": 240.0, "found_x_capacitor": 1.0, "x_capacitance_u": 0.0,
        "discharge_resistance_u": 0.0}


# A data sheet's table: 500 nF with 1.5 MΩ, 1 µF with 780 kΩ, 5 µF with 150 kΩ; by hand from 373.4 V
# 25.9, 28.7 and 25.9 V. 0.47 µF with 4 MΩ: 128.9 V.
@pytest.mark.parametrize("capacitance, resistance, volts, expected", [
    (0.5e-6, 1.5e6, 25.9, "meets"), (1e-6, 780e3, 28.7, "meets"), (5e-6, 150e3, 25.9, "meets"),
    (0.47e-6, 4e6, 128.9, "falls short")])
def test_a_resistor_discharges(capacitance, resistance, volts, expected):
    known = UNIT | {"x_capacitance": capacitance, "discharge_resistance": resistance}
    assert asked("plug_discharge", **known).value[0] == pytest.approx(volts, abs=0.06)
    assert grade_of("plug_discharge", **known) == expected


@pytest.mark.parametrize("volts, expected", [(20.0, "meets"), (150.0, "falls short")])
def test_a_measurement_decides(volts, expected):
    known = UNIT | {"x_capacitance": 0.47e-6, "pin_voltage": volts, "pin_voltage_u": 1.0}
    assert grade_of("plug_discharge", **known) == expected


def test_without_a_resistor_only_a_traced_board_falls_short():
    bare = UNIT | {"x_capacitance": 0.33e-6, "found_discharge_resistor": 0.0,
                   "discharge_circuit": 0.0}
    assert grade_of("plug_discharge", **bare, line_path_traced=1.0) == "falls short"
    assert grade_of("plug_discharge", **bare) == "cannot tell"
    active = bare | {"discharge_circuit": 1.0}
    assert grade_of("plug_discharge", **active, line_path_traced=1.0) == "cannot tell"


def test_a_resistor_of_unknown_value_is_not_said_to_be_missing():
    known = UNIT | {"x_capacitance": 0.33e-6, "found_discharge_resistor": 1.0}
    found = asked("plug_discharge", **known)
    assert grade_of("plug_discharge", **known) == "cannot tell" and found.why[0] == 6


def test_a_small_capacitor_may_hold_more():
    # 47 nF, 0.03 s later… after 2 s with 100 MΩ: 373.4 · e^(−2/4.7) = 244 V, allowed 141 V at 47 nF
    # by interpolation between 41 nF (150 V) and 61 nF (125 V): 142.5 V, known from memory.
    known = UNIT | {"x_capacitance": 47e-9, "discharge_resistance": 100e6}
    found = asked("plug_discharge", **known)
    assert found.high[0] == pytest.approx(142.5, abs=0.1) and found.confidence[0] == 2
    assert found.flagged[0]


def test_no_capacitor_is_no_question():
    assert grade_of("plug_discharge", found_x_capacitor=0.0) is None


# From √2 · 1.1 · 100 V = 155.6 V: 0.47 µF with 2.2 MΩ leaves 22 V after 2 s; from 373.4 V 54 V;
# with 2.6 MΩ 30 and 73 V; with 9 MΩ 97 and 233 V.
def test_an_unread_plate_decides_only_what_holds_for_all_mains():
    known = UNIT | {"x_capacitance": 0.47e-6, "rated_voltage_high": float("nan")}
    assert grade_of("plug_discharge", **known, discharge_resistance=2.2e6) == "meets"
    assert grade_of("plug_discharge", **known, discharge_resistance=2.6e6) == "cannot tell"
    assert grade_of("plug_discharge", **known, discharge_resistance=9e6) == "falls short"


def test_an_active_part_beside_a_resistor_that_suffices_changes_nothing():
    known = UNIT | {"x_capacitance": 0.5e-6, "discharge_circuit": 1.0}
    assert grade_of("plug_discharge", **known, discharge_resistance=1.5e6) == "meets"
    assert grade_of("plug_discharge", **known, discharge_resistance=4e6) == "cannot tell"


def test_pins_that_were_measured_are_judged_also_where_no_capacitor_was_found():
    assert grade_of("plug_discharge", found_x_capacitor=0.0, pin_voltage=200.0,
                    pin_voltage_u=2.0) == "cannot tell"


def test_a_small_capacitor_without_a_resistor_is_left_open():
    found = asked("plug_discharge", **UNIT, x_capacitance=68e-9, found_discharge_resistor=0.0,
                  discharge_circuit=0.0, line_path_traced=1.0)
    assert found.grade[0] == 0 and found.why[0] == 5


# 0.47 µF with 2.4 MΩ keep 17 % after 2 s: 26 V of the peak of 110 V, 63 V of that of 264 V.
def test_higher_mains_are_never_better():
    known = UNIT | {"x_capacitance": 0.47e-6, "discharge_resistance": 2.4e6}
    grades = [grade_of("plug_discharge", **known | {"rated_voltage_high": volts})
              for volts in (100.0, 120.0, 200.0, 240.0, 277.0)]
    assert grades == ["meets", "meets", "meets", "falls short", "falls short"]


def test_more_capacitance_resistance_or_voltage_is_never_better():
    for column in ("x_capacitance", "discharge_resistance", "pin_voltage"):
        more_is_never_better("plug_discharge", column, 2.0)
