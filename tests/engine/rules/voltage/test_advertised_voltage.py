"""The highest fixed voltage of a list is read off: HUNDRED lists 5, 9, 12, 15 and 20 V."""
import numpy as np
import pytest

from teardowns.engine.physics.power_objects import Fixed, read_list
from teardowns.engine.rules.voltage.advertised_voltage import advertised_voltage
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions, value
from tests.engine.rules.usb_words import HUNDRED


def claim(volts, port=-1):
    return (volts, NAN, NAN, "usb_c", "output", port)


def moved(listed, claimed):
    """Decibans by which a list that ends at `listed` moves a claim of `claimed` volts."""
    done = judge([*WIDE, ("advertised_voltage", listed, 0.0)], [claim(claimed)])
    return weight(done, "voltage/advertised_voltage")


def test_the_highest_fixed_voltage_of_a_published_list_is_the_value():
    highest = max(item.voltage for item in read_list(HUNDRED).of(Fixed))
    assert value(advertised_voltage, highest, 20.0) == 20.0


@pytest.mark.parametrize("inputs", [(NAN, 20.0), (20.0, NAN)])
def test_unknown_in_is_no_accusation_out(inputs):
    assert not value(advertised_voltage, *inputs) < 20.0


def test_a_listed_voltage_supports_the_claim():
    # a habit moves a claim by a factor of about 30 at most: 15 decibans
    assert 3 < moved(20.0, 20.0) < 16


def test_a_list_that_ends_lower_speaks_against_20_volts():
    assert -16 < moved(5.0, 20.0) < -3


def test_a_higher_listed_voltage_is_no_word_against_a_lower_claim():
    assert moved(20.0, 15.0) > -1


@pytest.mark.parametrize("listed, claimed", [(5.0, 9.0), (9.0, 12.0), (20.0, 28.0), (20.0, 48.0)])
def test_what_may_come_in_another_way_is_not_denied(listed, claimed):
    assert np.isnan(value(advertised_voltage, listed, claimed))
    assert np.isnan(moved(listed, claimed))


def test_a_list_of_the_extended_range_speaks_against_what_it_does_not_reach():
    assert value(advertised_voltage, 28.0, 48.0) == 28.0


def test_many_ports_are_read_as_one_by_one():
    listed, claimed = np.array([20.0, 9.0, 5.0]), np.array([20.0, 12.0, 20.0])
    alone = [value(advertised_voltage, *pair) for pair in zip(listed, claimed, strict=True)]
    assert np.array_equal(advertised_voltage(listed, claimed), alone, equal_nan=True)


def test_a_list_counts_at_its_own_port():
    seen = [*WIDE, ("advertised_voltage", 20.0, 0.0, NAN, NAN, 0),
            ("advertised_voltage", 5.0, 0.0, NAN, NAN, 1)]
    done = judge(seen, [claim(20.0, 0), claim(20.0, 1)], ports=[("C1", "usb_c"), ("C2", "usb_c")])
    assert weight(done, "voltage/advertised_voltage", 0) > 3
    assert weight(done, "voltage/advertised_voltage", 1) < -3


def test_a_list_that_was_not_read_is_no_line_and_a_question():
    assert line(advertised_voltage, WIDE, [claim(20.0)]) is None
    assert any("Which capabilities" in text
               for text in questions(advertised_voltage, WIDE, [claim(20.0)]))


def test_the_line_shows_the_voltage_that_was_listed():
    assert ends(advertised_voltage, [*WIDE, ("advertised_voltage", 20.0, 0.0)],
                [claim(20.0)]) == [20.0, 20.0]
