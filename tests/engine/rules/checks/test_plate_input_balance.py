"""MK-2 C2 of the marking checks and the input balance of the plate."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.plate_input_balance import largest_output, plate_input_balance
from tests.engine.make import NAN, WIDE
from tests.engine.rules.ask import outcomes


def outcome(watts, volts, amperes, corrector=NAN):
    return plate_input_balance(watts, volts, amperes, corrector).outcome


def test_c2_ten_and_a_half_watts_do_not_come_out_of_ten_voltamperes():
    assert outcome(10.5, 100.0, 0.1) == INCONSISTENT


def test_c2_ten_watts_fit_thirty_five_voltamperes():
    assert outcome(10.0, 100.0, 0.35) == CONSISTENT      # 35 VA ≥ 10 W / 0.6 = 16.7


def test_5_c_a_published_plate_of_5_volts_3_amperes_fits():
    # 5 V 3 A, 0.6 A at 100 V, efficiency 0.75: needs a power factor of 15/(60·0.75) = 0.333.
    assert outcome(15.0, 100.0, 0.6) == CONSISTENT
    assert largest_output(100.0, 0.6, 0.3333, 0.75) == pytest.approx(15.0, rel=1e-3)


def test_5_d_the_output_of_20_voltamperes():
    assert largest_output(100.0, 0.2, 0.58, 0.75) == pytest.approx(8.7)


# x = P/(V·I) with 100 VA: above 1 impossible; above 0.7 not without a corrector; 0.55 to 0.7
# borderline; below 0.5 fine; below 0.1 the current is a generic number.
@pytest.mark.parametrize("watts, corrector, expected", [
    (101, NAN, INCONSISTENT), (101, 1.0, INCONSISTENT), (80, NAN, CANNOT_TELL),
    (80, 1.0, CONSISTENT), (60, 0.0, CANNOT_TELL), (45, NAN, CONSISTENT), (9, NAN, CANNOT_TELL),
    (80, 0.0, INCONSISTENT), (60, 1.0, CONSISTENT), (11, 0.0, CONSISTENT), (9, 1.0, CANNOT_TELL),
])
def test_the_table_of_ratios(watts, corrector, expected):
    assert outcome(watts, 100.0, 1.0, corrector) == expected


def test_a_contradiction_lies_inside_the_label():
    assert "inside the label" in plate_input_balance(30.0, 100.0, 0.2, NAN).sentence


@pytest.mark.parametrize("volts, amperes", [(NAN, 0.5), (100.0, NAN), (100.0, 0.0)])
def test_an_unread_input_rating_leaves_it_open(volts, amperes):
    assert outcome(10.0, volts, amperes) == CANNOT_TELL


def test_a_claim_without_a_power_is_not_checked():
    assert plate_input_balance(NAN, 100.0, 0.5, NAN) is None


@pytest.mark.parametrize("claim, words", [
    (101, "inside the label"), (80, "takes an active power-factor corrector"),
    (60, "at the edge"), (30, "fits"), (5, "says nothing")])
def test_each_step_has_its_sentence(claim, words):
    assert words in plate_input_balance(claim, 100.0, 1.0, 0.0).sentence


def test_the_numbers_show_the_best_case_of_a_plain_rectifier():
    # Power factor 0.70 and efficiency 0.94 at most: 100 VA · 0.658 = 65.8 W.
    found = plate_input_balance(30.0, 100.0, 1.0, 0.0).numbers
    assert found["largest_output"] == pytest.approx(65.8)
    assert (found["ratio"], found["apparent_power"]) == (0.3, 100.0)


def test_a_very_large_input_current_says_nothing():
    assert outcome(10.0, 100.0, 1e6) == CANNOT_TELL


def test_the_lowest_rated_voltage_counts():
    # 12 W from 100 V · 0.1 A cannot be; from 240 V it could.
    plate = [*WIDE, ("rated_input_current", 0.1, 0.0)]
    assert outcomes(plate_input_balance, plate, [(NAN, NAN, 12.0)]) == [INCONSISTENT]


def test_a_plate_without_input_voltage_is_not_given_one():
    plate = [("rated_input_current", 0.1, 0.0)]
    assert outcomes(plate_input_balance, plate, [(NAN, NAN, 12.0)]) == [CANNOT_TELL]
