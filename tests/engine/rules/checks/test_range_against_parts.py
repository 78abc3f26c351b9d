"""√2 · 1.1 · 240 V = 373.4 V; of 120 V 186.7 V: worked out by hand."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.range_against_parts import range_against_parts
from tests.engine.make import NAN


@pytest.mark.parametrize("mains, rating, doubler, expected", [
    (240.0, 400.0, NAN, CONSISTENT), (240.0, 250.0, 0.0, INCONSISTENT),
    (120.0, 200.0, NAN, CONSISTENT), (240.0, 350.0, NAN, INCONSISTENT),
    (240.0, 200.0, 1.0, CONSISTENT)])
def test_the_bulk_capacitor_bears_the_marked_range(mains, rating, doubler, expected):
    assert range_against_parts(mains, rating, doubler, NAN, 1.0).outcome == expected


def test_a_rating_that_no_mains_capacitor_has_is_no_contradiction():
    found = range_against_parts(230.0, 25.0, NAN, NAN, 1.0)
    assert found.outcome == CANNOT_TELL and "misread" in found.sentence


@pytest.mark.parametrize("mains, rating, corrector", [
    (NAN, 400.0, NAN), (240.0, NAN, NAN), (240.0, 250.0, 1.0)])
def test_what_says_nothing(mains, rating, corrector):
    assert range_against_parts(mains, rating, NAN, corrector, 1.0) is None


# Half of 373.4 V is 186.7 V.
@pytest.mark.parametrize("rating, doubler, expected", [
    (250.0, NAN, CANNOT_TELL), (180.0, NAN, INCONSISTENT), (250.0, 0.0, INCONSISTENT),
    (400.0, NAN, CONSISTENT)])
def test_two_capacitors_may_be_the_halves_of_a_doubler(rating, doubler, expected):
    assert range_against_parts(240.0, rating, doubler, NAN, 2.0).outcome == expected
