import numpy as np
import pytest

from teardowns.engine.rules.voltage.output_capacitor import output_capacitor
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions, value

ID = "voltage/output_capacitor"
STRONG = 10.0                       # decibans that a decisive line must carry


def unit(*ratings):
    return [*WIDE, *(("output_capacitor_rating", rating, 0.0) for rating in ratings)]


def claims(voltage):
    return [(voltage, 2.0, NAN, "usb_c"), (5.0, 3.0, NAN, "usb_c")]


def moved(rating, voltage):
    return weight(judge(unit(rating), claims(voltage)), ID)


@pytest.mark.parametrize("rating, hard, typical", [(10.0, 10.0, 9.0), (25.0, 25.0, 22.5)])
def test_the_limit_lies_between_practice_and_the_hard_bound(rating, hard, typical):
    # k = 0.9 typical, 1.0 hard: 0.95 ± 0.05 covers both at one standard uncertainty.
    found = float(output_capacitor(np.array([rating]))[0])
    assert found * 1.055 >= hard and found * 0.95 <= typical * 1.01


def test_unknown_in_unknown_out():
    assert np.isnan(output_capacitor(np.array([NAN])))[0]


def test_a_10_volt_capacitor_on_the_rail_excludes_a_12_volt_mode():
    done = judge([*WIDE, ("output_capacitor_rating", 10.0, 0.0)], [(12.0, NAN, NAN, "usb_c")])
    assert done.judged.plausibility_voltage[0] < 0.05


def test_a_25_volt_capacitor_leaves_20_volts_open():
    done = judge([*WIDE, ("output_capacitor_rating", 25.0, 0.0)], [(20.0, NAN, NAN, "usb_c")])
    assert 0.4 < done.judged.plausibility_voltage[0] < 0.95


# Half way between 0.9 and 1.0 of the rating. Preferred ratings: IEC 60384-4 (from memory).
@pytest.mark.parametrize("rating, volts", [(6.3, 5.985), (10, 9.5), (16, 15.2), (25, 23.75)])
def test_0_95_of_the_rating(rating, volts):
    assert value(output_capacitor, rating) == pytest.approx(volts)


@pytest.mark.parametrize("rating", [0.0, 1e6])
def test_it_is_proportional_from_zero_on(rating):
    assert value(output_capacitor, rating) == pytest.approx(0.95 * rating)


def test_the_uncertainty_spans_0_9_to_1_0_of_the_rating():
    found = line(output_capacitor, unit(16.0), claims(12.0))["ends"]["low"]["u_ln"]
    assert found == pytest.approx(0.05)


def test_a_rating_below_the_claim_speaks_against_it_and_one_above_mildly_for():
    assert moved(16.0, 20.0) < -STRONG
    assert 0 < moved(25.0, 20.0) < STRONG


@pytest.mark.parametrize("rating, voltage", [(10.0, 9.0), (16.0, 12.0), (16.0, 15.0),
                                             (25.0, 20.0), (400.0, 12.0)])
def test_the_next_preferred_rating_above_a_voltage_never_condemns_it(rating, voltage):
    # 9 V behind 10 V is ordinary practice, 0.9 of the rating.
    assert moved(rating, voltage) > -STRONG


def test_the_lowest_rating_on_the_rail_counts():
    assert ends(output_capacitor, unit(25.0, 10.0, 16.0), claims(20.0)) == [9.5, 9.5]


def test_a_rating_of_zero_is_no_line():
    assert ends(output_capacitor, unit(0.0), claims(12.0)) == [None, None]


def test_5_volts_are_no_question_of_the_rating():
    only_5 = [(5.0, 3.0, NAN)]
    assert np.isnan(weight(judge(unit(4.0), only_5), ID))
    assert "No voltage above 5.5 V" in line(output_capacitor, unit(4.0), only_5)["why_not"]


def test_a_rating_that_was_not_recorded_is_no_line_and_a_question():
    assert line(output_capacitor, WIDE, claims(12.0)) is None
    assert any("voltage rating" in text
               for text in questions(output_capacitor, WIDE, claims(12.0)))
