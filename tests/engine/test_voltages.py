"""When the feedback path is asked, and what other voltages say of a claim."""
import numpy as np
import pytest

from tests.engine.make import NAN, WIDE, judge, weight

FIXED = (("isolated_feedback", 1.0, 0.0), ("primary_feedback", 0.0, 0.0),
         ("protocol_controller", 0.0, 0.0), ("feedback_node_driven", 0.0, 0.0),
         ("port_converter", 0.0, 0.0), ("photographed_sides", 2.0, 0.0))


def voltage_p(observations, *claims, claim=0):
    return float(judge([*WIDE, *observations], list(claims)).judged.plausibility_voltage[claim])


def test_an_adapter_of_one_voltage_needs_nothing_that_switches():
    # Optocoupler and fixed divider: the reference design of a 12 V adapter.
    found = judge([*WIDE, *FIXED], [(12.0, 2.0, NAN, "barrel")])
    assert np.isnan(weight(found, "voltage/feedback_path"))
    assert found.judged.plausibility_voltage[0] == pytest.approx(0.5)


@pytest.mark.parametrize("claims", [
    [(12.0, 2.0, NAN, "usb_a")],                              # a USB port starts at 5 V
    [(12.0, 2.0, NAN), (5.0, 3.0, NAN)],                      # several voltages
])
def test_a_switched_output_needs_something_that_switches(claims):
    assert voltage_p(FIXED, *claims) < 0.2


@pytest.mark.parametrize("claimed", [9.0, 12.0, 15.0, 20.0])
def test_a_higher_voltage_seen_shows_that_the_output_switches(claimed):
    seen = [("offered_voltage", 20.0, 0.1)]
    assert voltage_p(seen, (claimed, 1.0, NAN), (5.0, 1.0, NAN)) > 0.9


def test_a_voltage_refused_says_so_whatever_else_was_seen():
    seen = [("offered_voltage", 20.0, 0.1), ("refused_voltage", 12.0, 0.1)]
    assert voltage_p(seen, (12.0, 1.0, NAN), (5.0, 1.0, NAN)) < 0.1
    assert voltage_p(seen, (20.0, 1.0, NAN), (5.0, 1.0, NAN)) > 0.9


def test_nothing_looked_at_leaves_even_odds():
    assert voltage_p([], (20.0, 1.0, NAN), (5.0, 1.0, NAN)) == pytest.approx(0.5)


def test_a_capacitor_rated_below_the_claim_speaks_against_it():
    low = voltage_p([("output_capacitor_rating", 10.0, 0.0)], (20.0, 1.0, NAN), (5.0, 1.0, NAN))
    high = voltage_p([("output_capacitor_rating", 25.0, 0.0)], (20.0, 1.0, NAN), (5.0, 1.0, NAN))
    assert low < 0.01 < 0.5 < high


@pytest.mark.parametrize("claimed, rating", [(9.0, 10.0), (15.0, 16.0)])
def test_a_capacitor_just_above_the_claim_is_ordinary(claimed, rating):
    # 0.9 of the rating is good practice (9 V on 10 V), so that it may not be doubted.
    seen = [("output_capacitor_rating", rating, 0.0)]
    assert voltage_p(seen, (claimed, 1.0, NAN), (5.0, 1.0, NAN)) >= 0.5


def test_a_lower_voltage_refused_says_no_more_than_the_claim_refused():
    def refused(voltage):
        return voltage_p([("refused_voltage", voltage, 0.1)], (12.0, 1.0, NAN), (5.0, 1.0, NAN))

    assert refused(11.0) == pytest.approx(refused(12.0), rel=0.2) and refused(12.0) < 0.1
