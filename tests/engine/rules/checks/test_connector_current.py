"""Contact ratings, from memory: Type-A 1.5 A (to 3 A with high-current receptacles), Micro-B 1.8 A,
Type-C 3 A without and 5 A with an e-marked cable.
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.connector_current import connector_current
from tests.engine.make import NAN
from tests.engine.rules.ask import outcomes


@pytest.mark.parametrize("connector, amperes, outcome", [
    ("usb_a", 1.5, CONSISTENT), ("usb_a", 2.4, CANNOT_TELL), ("usb_a", 3.0, CANNOT_TELL),
    ("usb_a", 3.1, INCONSISTENT), ("usb_a_high_current", 2.4, CONSISTENT),
    ("usb_a_high_current", 4.0, INCONSISTENT), ("usb_c", 3.0, CONSISTENT),
    ("usb_c", 5.0, CANNOT_TELL), ("usb_c", 6.0, INCONSISTENT), ("micro_b", 1.8, CONSISTENT),
    ("micro_b", 2.0, INCONSISTENT), ("usb_c", 0.0, CONSISTENT), ("usb_c", 1e6, INCONSISTENT),
])
def test_the_claimed_current_against_the_contact(connector, amperes, outcome):
    assert connector_current(amperes, connector, 1).outcome == outcome


@pytest.mark.parametrize("connector, amperes", [("barrel", 9.0), ("", 3.0), ("usb_c", NAN)])
def test_without_a_rating_or_a_current_there_is_nothing_to_check(connector, amperes):
    assert connector_current(amperes, connector, 1) is None


def test_a_current_of_no_single_port_may_be_that_of_all_together():
    shared = connector_current(3.1, "usb_a", 2)
    assert shared.outcome == CANNOT_TELL and "no single one of 2 ports" in shared.sentence
    assert connector_current(6.5, "usb_a", 2).outcome == INCONSISTENT


def test_cannot_tell_says_what_it_depends_on():
    assert "high-current contacts" in connector_current(2.4, "usb_a", 1).sentence
    assert "e-marker for 5 A" in connector_current(5.0, "usb_c", 1).sentence


def test_rounding_of_a_current_at_the_rating_is_no_excess():
    # 0.1 + 0.2 is 0.30000000000000004 in binary; ten times that is 3 A on the plate.
    assert connector_current((0.1 + 0.2) * 10, "usb_c", 1).outcome == CONSISTENT


def test_each_port_is_checked_with_its_own_connector():
    claims = [(5.0, 1.0, NAN, "usb_a"), (5.0, 2.4, NAN, "usb_a"), (5.0, 6.0, NAN, "usb_c"),
              (5.0, 6.0, NAN)]
    assert outcomes(connector_current, [], claims) == [CONSISTENT, CANNOT_TELL, INCONSISTENT]
