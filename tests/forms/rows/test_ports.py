import pytest

from teardowns.forms.rows.ports import connector_named
from tests.forms.sent import checked, messages, only_change

pytestmark = pytest.mark.django_db


def port(unit, **typed):
    return checked(unit, "ports", {f"ports-0-{name}": text for name, text in typed.items()})


def test_advertised_words_are_kept_as_hexadecimal(unit):
    stored = only_change(port(unit, label="C1", connector="usb_c",
                              advertised="0x0a01912c, 0002D12C"))
    assert stored["advertised"] == ["0A01912C", "0002D12C"]


def test_a_word_of_another_length_is_named(unit):
    assert "“0002D12” is not a 32-bit word" in messages(port(unit, label="C1",
                                                             advertised="0002D12"))


def test_a_port_needs_a_name(unit):
    assert "needs a name" in messages(port(unit, connector="usb_c"))


def test_two_ports_need_two_names(unit):
    form = checked(unit, "ports", {
        "ports-TOTAL": "2", "ports-0-label": "C1", "ports-1-key": "ports-2", "ports-1-label": "C1",
        "ports-1-version": "0", "ports-1-connector": "usb_c",
    })
    assert "Two ports are named “C1”" in messages(form)


def test_a_reading_may_name_a_port_that_is_typed_at_the_same_time(unit):
    form = port(unit, label="USB-C1")
    key = form.row_sets[0].forms[0].own_key
    form = checked(unit, "ports", {"ports-0-label": "USB-C1", "ports-0-key": key,
                                   "offered-voltage-0-value": "5.1",
                                   "offered-voltage-0-port": key})
    assert [change.values.get("port") for change in form.row_changes()] == [None, key]


def test_the_current_that_cc_advertises_is_kept(unit):
    assert only_change(port(unit, label="C1", connector="usb_c", cc_current="3"))[
        "cc_current"] == 3.0


@pytest.mark.parametrize("typed, remedy", [
    ({"connector": "usb_a", "cc_current": "3 A"}, "no CC contacts: clear this, or correct the"),
    ({"connector": "usb_c", "cc_current": "30"}, "CC advertises 5 A at most"),
    ({"connector": "usb_c", "cc_current": "3 V"}, "A"),
])
def test_a_current_that_cc_cannot_advertise_is_named(unit, typed, remedy):
    assert remedy in messages(port(unit, label="C1", **typed))


@pytest.mark.parametrize("label, connector", [
    ("USB-C", "usb_c"), ("USB C1", "usb_c"), ("Type-C", "usb_c"), ("usb-a", "usb_a"),
    ("Type A 2", "usb_a"), ("Micro USB", "micro_b"), ("C1", ""), ("OUT", ""), ("", ""),
    ("USB charging", ""), ("USB Auto", ""), ("USB-A and USB-C", ""),
])
def test_a_name_that_leaves_no_doubt_says_the_connector(label, connector):
    assert connector_named(label) == connector


def test_a_port_whose_connector_nobody_chose_is_what_its_name_says(unit):
    assert only_change(port(unit, label="USB-C", connector=""))["connector"] == "usb_c"


def test_a_name_that_says_no_connector_asks_for_it_and_never_takes_another(unit):
    assert "“OUT” names no connector" in messages(port(unit, label="OUT", connector=""))
    assert only_change(port(unit, label="OUT", connector="other"))["connector"] == "other"
