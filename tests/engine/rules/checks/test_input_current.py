"""IEC 62368-1, B.2.5 (from memory): at most 10 % above the rated current."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.input_current import input_current
from tests.engine.make import NAN
from tests.engine.rules.ask import outcomes


@pytest.mark.parametrize("measured, load, outcome", [
    (0.30, 18.0, CONSISTENT), (0.50, 18.0, CONSISTENT),
    (0.549, 18.0, CONSISTENT), (0.551, 18.0, INCONSISTENT),          # 1.1 · 0.5 A = 0.55 A
    (0.70, 12.0, INCONSISTENT),            # at less than the claim already
    (0.70, 24.0, CANNOT_TELL),             # more load than is claimed
    (0.70, NAN, CANNOT_TELL), (0.40, 9.0, CANNOT_TELL), (0.40, NAN, CONSISTENT),
    (0.0, 18.0, CONSISTENT)])
def test_half_an_ampere_rated_for_18_watts(measured, load, outcome):
    assert input_current(measured, 0.5, load, (5.0, 18.0)).outcome == outcome


@pytest.mark.parametrize("measured, rated", [(NAN, 0.5), (0.5, NAN), (0.5, 0.0)])
def test_without_both_currents_there_is_nothing_to_check(measured, rated):
    assert input_current(measured, rated, 18.0, (18.0,)) is None


def test_without_a_claim_an_excess_stays_open():
    assert input_current(0.7, 0.5, 18.0, ()).outcome == CANNOT_TELL


def test_agreement_says_that_a_lower_voltage_asks_for_more():
    assert "lower mains voltage" in input_current(0.3, 0.5, 18.0, (18.0,)).sentence


def test_the_excess_of_a_unit_is_found_in_its_evidence():
    seen = [("input_current_full_load", 0.62, 0.01), ("rated_input_current", 0.5, 0.0),
            ("sustained_power", 18.0, 0.1)]
    assert outcomes(input_current, seen, [(12.0, 1.5, 18.0)]) == [INCONSISTENT]
