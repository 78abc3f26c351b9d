"""How much of what a reviewer asks for a document answers; the bench sheet's list asks the same."""
from fractions import Fraction

import pytest

from teardowns.exchange.answered import answered_share
from tests.exchange.small import small

# Origin 1; photos, plate photo, opened, both sides 4; plate text, claims 2; mass, case, ports 3;
# parts 5; clearance, creepage 2; load test 1. With a load, its mains voltage is asked as well.
ASKED = 18


def share(**lists):
    return Fraction(answered_share(small(**lists))).limit_denominator(100)


def test_an_empty_document_answers_nothing():
    assert share() == 0


@pytest.mark.parametrize("state", ["not_found", "not_readable"])
def test_to_have_looked_in_vain_is_an_answer(state):
    row = {"role": "optocoupler", "state": state}
    assert share(components=[row]) == Fraction(1, ASKED)


def test_not_to_have_looked_is_none():
    assert share(components=[{"role": "optocoupler", "state": "not_looked"}]) == 0


def test_a_part_from_inside_answers_for_itself_and_says_that_it_was_opened():
    assert share(components=[{"role": "core", "marking": "EF20"}]) == Fraction(2, ASKED)


def test_where_no_plate_was_found_its_photo_is_not_asked_for():
    # Text and claims are answered, and one thing less is asked.
    found = share(printed_texts=[{"source": "plate", "state": "not_found"}])
    assert found == Fraction(2, ASKED - 1)


def test_two_of_three_dimensions_are_no_answer_yet():
    sides = [{"quantity": f"case_{side}", "value": 0.03} for side in ("height", "width", "depth")]
    assert share(measurements=sides[:2]) == 0
    assert share(measurements=sides) == Fraction(1, ASKED)


def test_a_load_asks_for_the_mains_voltage_during_it():
    load = {"quantity": "sustained_power", "value": 10.0}
    assert share(measurements=[load]) == Fraction(1, ASKED + 1)
    assert share(measurements=[load | {"mains_voltage": 230.0}]) == Fraction(2, ASKED + 1)
