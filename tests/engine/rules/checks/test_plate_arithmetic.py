"""MK-2 C1 of the marking checks: inconsistent when |V·I − W| > 0.05·W."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.plate_arithmetic import plate_arithmetic
from tests.engine.make import NAN
from tests.engine.rules.ask import outcomes


@pytest.mark.parametrize("volts, amperes, watts, outcome", [
    (5.0, 2.0, 10.0, CONSISTENT), (5.0, 2.1, 5.0, INCONSISTENT),
    (9.0, 2.22, 20.0, CONSISTENT),                    # 19.98 W, rounded on the plate
    (20.0, 2.0, 42.2, INCONSISTENT),                  # 2.2 W off, 2.11 W allowed
    (5.2, 2.0, 10.0, CONSISTENT), (5.3, 2.0, 10.0, INCONSISTENT),      # 4 and 6 % above
    (4.7, 2.0, 10.0, INCONSISTENT),                   # 6 % below
    (5.0, 0.0, 10.0, INCONSISTENT), (1e3, 1e3, 1e6, CONSISTENT),
    (NAN, NAN, 45.0, CANNOT_TELL), (NAN, 2.0, 10.0, CANNOT_TELL), (5.0, NAN, 10.0, CANNOT_TELL),
])
def test_the_product_against_the_printed_power(volts, amperes, watts, outcome):
    assert plate_arithmetic(volts, amperes, watts).outcome == outcome


def test_without_a_printed_power_there_is_nothing_to_check():
    assert plate_arithmetic(5.0, 2.0, NAN) is None


def test_the_sentence_shows_the_numbers():
    sentence = plate_arithmetic(5.0, 2.1, 5.0).sentence.replace("\u202f", " ")
    assert "5 V × 2.1 A = 10.5 W" in sentence and "5 W is printed" in sentence


def test_each_claim_of_a_unit_is_checked_by_itself():
    claims = [(5.0, 2.0, 10.0), (5.0, 2.1, 5.0), (9.0, 2.0, NAN), (NAN, NAN, 18.0)]
    assert outcomes(plate_arithmetic, [], claims) == [CONSISTENT, INCONSISTENT, CANNOT_TELL]
