"""Ports as the engine reads them, and the port that a claim is about."""
import pytest

from teardowns.exchange.ports import NO_PORT, claimed_port, port_numbers, port_table
from tests.exchange.small import small

PORTS = [{"key": "c1", "label": "USB-C1", "connector": "usb_c", "wiring": "chip",
          "advertised": ["0A01912C", "0002D12C"]},
         {"key": "gone", "label": "USB-C2", "state": "not_found"},
         {"key": "a", "label": "USB-A", "connector": "usb_a", "high_current_contacts": True}]


def test_each_port_is_a_row_of_its_unit_with_its_facts():
    table = port_table([small(), small(ports=PORTS)], confirmed_only=False)
    assert table.row.tolist() == [1, 1]
    assert table.label.tolist() == ["USB-C1", "USB-A"]
    assert table.connector.tolist() == ["usb_c", "usb_a_high_current"]
    assert table.wiring.tolist() == ["chip", ""]
    assert list(table.words) == [(0x0A01912C, 0x0002D12C), ()]
    assert table.several(2).tolist() == [False, True]


def test_without_documents_or_ports_the_table_is_empty():
    assert port_table([], False).row.tolist() == port_table([small()], False).row.tolist() == []


@pytest.mark.parametrize(("quiet", "confirmed_only"), [
    ({"review_state": "disputed"}, False), ({"state": "not_readable"}, False), ({}, True),
    ({"how": "claimed_by_seller"}, False)])
def test_a_port_whose_facts_do_not_count_keeps_its_number(quiet, confirmed_only):
    document = small(ports=[PORTS[0] | quiet, PORTS[2] | {"review_state": "confirmed"}])
    table = port_table([document], confirmed_only)
    assert table.label.tolist() == ["USB-C1", "USB-A"]
    assert table.connector.tolist() == ["", "usb_a_high_current"]
    assert list(table.words) == [(), ()]
    assert port_numbers(document) == {"c1": 0, "a": 1}


def number(port="", kind="output", ports=PORTS, **fields):
    row = {"kind": kind, "power": 18.0, "port": port} | fields
    document = small(claims=[row], ports=ports)
    return claimed_port(document["claims"][0], document).number


@pytest.mark.parametrize(("port", "expected"), [
    ("USB-C1", 0), ("usb-a", 1), ("a", 1), ("Type-C", 0), ("USB A", 1), ("", NO_PORT),
    ("left", NO_PORT), ("USB-C1+USB-A", NO_PORT)])
def test_a_claim_finds_the_port_that_it_names(port, expected):
    assert number(port) == expected


def test_a_claim_of_a_unit_with_one_port_is_about_it():
    assert number(ports=PORTS[:2]) == 0
    assert number(ports=[]) == NO_PORT


def test_a_shared_power_and_a_total_are_of_no_port_that_they_do_not_name():
    assert number(shared=True, ports=PORTS[:1]) == NO_PORT
    assert number("USB-C1+USB-A", shared=True) == NO_PORT
    assert number("Type-C", kind="total") == NO_PORT
    assert number(kind="listing", ports=PORTS[:1]) == NO_PORT


def test_a_part_of_a_shared_power_is_of_the_port_that_it_names():
    assert number("USB-C1", shared=True) == 0
    assert number("USB-A", kind="total") == 1


def test_a_word_that_fits_two_ports_names_neither():
    two = [PORTS[0], PORTS[0] | {"key": "c2", "label": "USB-C2"}]
    assert number("Type-C", ports=two) == NO_PORT
    assert number("USB-C2", ports=two) == 1


def test_a_connector_that_only_the_seller_tells_of_is_none_of_the_claim():
    ports = [PORTS[0] | {"how": "claimed_by_seller"}]
    document = small(claims=[{"kind": "output", "power": 18.0}], ports=ports)
    assert claimed_port(document["claims"][0], document).connector == ""
