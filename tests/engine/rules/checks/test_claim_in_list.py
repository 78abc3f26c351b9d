"""Objects: USB PD revision 3.2; lists of 100 W and 65 W from public logs."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.claim_in_list import claim_in_list
from tests.engine.make import NAN
from tests.engine.rules.ask import outcomes
from tests.engine.rules.usb_words import (
    EPR_FLAG,
    FIFTEEN,
    FIVE,
    HUNDRED,
    NINE,
    SIXTY_FIVE,
)


def outcome(volts, amperes, watts=NAN, words=SIXTY_FIVE, wiring="shorted"):
    return claim_in_list(volts, amperes, watts, wiring, words).outcome


@pytest.mark.parametrize("volts, amperes", [
    (5.0, 3.0), (9.0, 3.0), (12.0, 5.0), (15.0, 4.33), (20.0, 3.25), (9.0, 2.22), (20.0, NAN)])
def test_what_an_object_offers_is_covered(volts, amperes):
    assert outcome(volts, amperes) == CONSISTENT


def test_a_range_is_covered_by_a_programmable_supply():
    assert outcome(11.0, NAN, words=HUNDRED) == CONSISTENT


def test_rounding_on_the_plate_is_covered():
    # 20 W at 9 V: 2.22 A in the words, 2.25 A on plates
    assert outcome(9.0, 2.25, words=(FIVE, 0x0002D0DE)) == CONSISTENT


@pytest.mark.parametrize("volts, amperes, told", [
    (28.0, 5.0, "no object of it reaches 28\u202fV"), (20.0, 5.0, "it offers 3.25\u202fA there"),
    (18.0, 2.0, "no object of it reaches")])
def test_more_than_the_list_offers_is_told(volts, amperes, told):
    done = claim_in_list(volts, amperes, volts * amperes, "shorted", SIXTY_FIVE)
    assert done.outcome == INCONSISTENT
    assert told in done.sentence and "20\u202fV 3.25\u202fA" in done.sentence


@pytest.mark.parametrize("watts, answer", [(65.0, CONSISTENT), (60.0, CONSISTENT),
                                           (100.0, INCONSISTENT)])
def test_a_power_alone_is_held_against_the_most_of_the_list(watts, answer):
    assert outcome(NAN, NAN, watts) == answer


@pytest.mark.parametrize("wiring, answer", [
    ("chip", CANNOT_TELL), ("", CANNOT_TELL), ("shorted", INCONSISTENT), ("open", INCONSISTENT)])
def test_a_voltage_may_come_by_the_data_contacts_unless_they_are_without_a_chip(wiring, answer):
    assert outcome(12.0, 1.5, words=(FIVE, NINE), wiring=wiring) == answer


def test_5_volts_may_be_said_by_the_data_contacts():
    # resistors stand for up to 2.4 A; the list names 1.5 A: 00019096
    assert outcome(5.0, 2.4, words=(0x00019096,), wiring="divider") == CANNOT_TELL
    assert outcome(5.0, 3.0, words=(0x00019096,), wiring="divider") == INCONSISTENT


def test_3_amperes_in_the_list_do_not_deny_5_through_a_marked_cable():
    plain_cable = (FIVE, NINE, FIFTEEN, 0x0006412C)        # 20 V 3 A
    assert outcome(20.0, 5.0, words=plain_cable) == CANNOT_TELL
    assert outcome(NAN, NAN, 100.0, words=plain_cable) == CANNOT_TELL
    assert "marked for 5 A" in claim_in_list(20.0, 5.0, 100.0, "shorted", plain_cable).sentence


def test_the_extended_range_is_listed_on_request_only():
    capable = (FIVE | EPR_FLAG, *HUNDRED[1:])
    assert outcome(28.0, 5.0, 140.0, words=capable) == CANNOT_TELL
    assert outcome(28.0, 5.0, 140.0, words=HUNDRED) == INCONSISTENT


def test_a_word_that_cannot_be_read_leaves_it_open_and_is_named():
    done = claim_in_list(20.0, 3.0, 60.0, "shorted", (FIVE, NINE, 0xF0000000))
    assert done.outcome == CANNOT_TELL
    assert "F0000000" in done.sentence


@pytest.mark.parametrize("words, figures", [((), (9.0, 2.0, 18.0)), (HUNDRED, (NAN, 3.0, NAN))])
def test_without_a_list_or_a_figure_there_is_nothing_to_check(words, figures):
    assert claim_in_list(*figures, "", words) is None


def test_each_claim_is_held_against_the_list_of_its_port():
    ports = [("C", "usb_c", "open", SIXTY_FIVE), ("A", "usb_a", "open", ())]
    claims = [(20.0, 3.25, NAN, "usb_c", "output", 0), (20.0, 5.0, NAN, "usb_c", "output", 0),
              (20.0, 3.25, NAN, "usb_a", "output", 1)]
    assert outcomes(claim_in_list, [], claims, ports) == [CONSISTENT, INCONSISTENT]
