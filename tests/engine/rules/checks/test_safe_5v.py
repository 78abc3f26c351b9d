"""vSafe5V, 4.75 to 5.5 V at the source: USB PD specification. vSafe0V, to 0.8 V: from memory."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.safe_5v import safe_5v
from tests.engine.make import NAN
from tests.engine.rules.ask import checks


@pytest.mark.parametrize("connector, volts, outcome", [
    ("usb_a", 5.1, CONSISTENT), ("usb_a", 4.75, CONSISTENT), ("usb_a", 5.5, CONSISTENT),
    ("usb_a", 5.54, CANNOT_TELL), ("usb_a", 4.71, CANNOT_TELL), ("usb_a", 5.9, INCONSISTENT),
    ("usb_a", 4.2, INCONSISTENT), ("usb_a", 0.0, INCONSISTENT), ("micro_b", 5.0, CONSISTENT),
    ("usb_c", 5.1, CONSISTENT), ("usb_c", 0.0, CONSISTENT), ("usb_c", 0.8, CONSISTENT),
    ("usb_c", 2.0, CANNOT_TELL), ("usb_c", 5.9, INCONSISTENT), ("usb_a_high_current", 12.0,
                                                               INCONSISTENT),
])
def test_the_voltage_without_load(connector, volts, outcome):
    assert safe_5v(connector, volts).outcome == outcome


def test_a_type_c_port_that_is_off_is_as_it_should_be():
    assert "when something is attached" in safe_5v("usb_c", 0.1).sentence


@pytest.mark.parametrize("connector, volts", [("barrel", 12.1), ("captive", 5.0), ("usb_a", NAN)])
def test_other_outputs_and_ports_not_measured_have_nothing_to_check(connector, volts):
    assert safe_5v(connector, volts) is None


def test_each_port_is_checked_with_its_own_reading():
    seen = [("output_voltage_no_load", 5.1, 0.02, NAN, NAN, 0),
            ("output_voltage_no_load", 6.2, 0.02, NAN, NAN, 1)]
    done = checks(safe_5v, seen, [], [("A1", "usb_a"), ("A2", "usb_a")])
    assert [(each["port"], each["outcome"]) for each in done] == [
        ("A1", CONSISTENT), ("A2", INCONSISTENT)]
