"""Currents of the Type-C pull-ups: 0.5 (or 0.9), 1.5 and 3 A, tables of Texas Instruments TPS65981
and TUSB320.
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.type_c_current import type_c_current
from tests.engine.make import NAN
from tests.engine.rules.ask import checks
from tests.engine.rules.usb_words import FIVE, NINE

WEAK = (0x00019096,)        # 5 V 1.5 A


def ask(advertised, *currents, wiring="", words=(), connector="usb_c", volts=5.0):
    count = len(currents)
    return type_c_current(connector, wiring, words, (volts,) * count, currents, (NAN,) * count,
                          advertised)


@pytest.mark.parametrize("advertised, claimed", [(3.0, 3.0), (3.0, 2.4), (1.5, 1.5), (0.5, 0.5),
                                                 (3.0, 3.05)])
def test_what_the_contacts_advertise_covers_the_claim(advertised, claimed):
    assert ask(advertised, claimed).outcome == CONSISTENT


def test_more_may_be_offered_by_a_list_that_was_not_read():
    assert ask(1.5, 3.0).outcome == CANNOT_TELL


def test_a_list_that_offers_it_covers_the_claim():
    assert ask(1.5, 3.0, words=(FIVE, NINE)).outcome == CONSISTENT


@pytest.mark.parametrize("wiring, outcome", [
    ("open", INCONSISTENT), ("shorted", INCONSISTENT), ("divider", INCONSISTENT),
    ("chip", CANNOT_TELL), ("", CANNOT_TELL)])
def test_more_than_contacts_and_list_offer_is_told_where_the_data_contacts_are_known(wiring,
                                                                                     outcome):
    assert ask(1.5, 3.0, words=WEAK, wiring=wiring).outcome == outcome


def test_the_largest_claim_at_5_volts_counts():
    assert ask(1.5, 1.0, 3.0).numbers["claim"] == 3.0


@pytest.mark.parametrize("advertised, claimed, more", [
    (NAN, 3.0, {}), (1.5, NAN, {}), (1.5, 3.0, {"volts": 9.0}), (1.5, 3.0, {"connector": "usb_a"})])
def test_without_a_reading_or_a_5_volt_claim_there_is_nothing_to_check(advertised, claimed, more):
    assert ask(advertised, claimed, **more) is None


def test_each_port_is_checked_with_its_own_contacts():
    seen = [("type_c_current", 3.0, 0.0, NAN, NAN, 0), ("type_c_current", 1.5, 0.0, NAN, NAN, 1)]
    claims = [(5.0, 3.0, NAN, "usb_c", "output", 0), (5.0, 3.0, NAN, "usb_c", "output", 1)]
    done = checks(type_c_current, seen, claims, [("C1", "usb_c"), ("C2", "usb_c")])
    assert [each["outcome"] for each in done] == [CONSISTENT, CANNOT_TELL]
