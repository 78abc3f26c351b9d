"""Modes of the data contacts: BC 1.2 and the divider modes, all at 5 V (1.5 A; 1, 2.1 and 2.4 A;
Texas Instruments TPS65987, TPS65988 and TPS2513 family; currents of the dividers from memory).
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.data_line_modes import data_line_modes
from tests.engine.make import NAN
from tests.engine.rules.ask import checks


def ask(wiring, *ratings, connector="usb_a", seen=NAN, decodes=0.0):
    volts, amperes = zip(*ratings, strict=True)
    watts = tuple(v * a for v, a in ratings)
    return data_line_modes(connector, wiring, volts, amperes, watts, seen, decodes)


@pytest.mark.parametrize("wiring", ["open", "shorted", "divider"])
def test_without_a_chip_no_higher_voltage_can_be_asked_for(wiring):
    done = ask(wiring, (5, 2), (9, 2), (12, 1.5))
    assert done.outcome == INCONSISTENT
    assert "5 V only; 9\u202fV and 12\u202fV are claimed" in done.sentence


def test_a_type_c_port_has_its_own_contacts_to_ask_by():
    assert ask("shorted", (9, 2), connector="usb_c").outcome == CANNOT_TELL
    assert ask("shorted", (5, 3), connector="usb_c") is None


@pytest.mark.parametrize("wiring, decodes, outcome", [
    ("shorted", NAN, CANNOT_TELL), ("shorted", 1.0, CANNOT_TELL), ("shorted", 0.0, INCONSISTENT),
    ("divider", NAN, INCONSISTENT), ("open", NAN, INCONSISTENT)])
def test_pulses_of_the_load_have_to_be_excluded_where_the_contacts_are_joined(wiring, decodes,
                                                                              outcome):
    assert ask(wiring, (9, 2), decodes=decodes).outcome == outcome


def test_a_voltage_that_was_seen_is_not_denied():
    done = ask("shorted", (9, 2), seen=9.05)
    assert done.outcome == CANNOT_TELL
    assert "was seen at the port" in done.sentence
    assert ask("shorted", (12, 2), seen=9.05).outcome == INCONSISTENT


@pytest.mark.parametrize("wiring, amperes, outcome", [
    ("open", 0.5, CONSISTENT), ("open", 1.0, CANNOT_TELL), ("shorted", 1.5, CONSISTENT),
    ("shorted", 2.4, CANNOT_TELL), ("divider", 2.4, CONSISTENT), ("divider", 3.0, CANNOT_TELL)])
def test_what_a_device_takes_at_5_volts(wiring, amperes, outcome):
    # What a device takes is no limit of the port: more is never inconsistent.
    assert ask(wiring, (5, amperes)).outcome == outcome


@pytest.mark.parametrize("wiring, connector", [
    ("chip", "usb_a"), ("", "usb_a"), ("open", "barrel"), ("open", "captive")])
def test_a_chip_contacts_not_looked_at_and_other_connectors_have_nothing_to_check(wiring,
                                                                                  connector):
    assert ask(wiring, (9, 2), connector=connector) is None


def test_a_port_without_a_claim_has_nothing_to_check():
    assert data_line_modes("usb_a", "open", (), (), (), NAN, NAN) is None


def test_only_the_claims_of_the_port_count():
    claims = [(9.0, 2.0, NAN, "usb_c", "output", 0), (5.0, 2.4, NAN, "usb_a", "output", 1)]
    ports = [("C", "usb_c", "chip"), ("A", "usb_a", "divider")]
    done = checks(data_line_modes, [], claims, ports)
    assert [(each["port"], each["outcome"]) for each in done] == [("A", CONSISTENT)]
