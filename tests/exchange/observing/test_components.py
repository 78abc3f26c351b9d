"""What parts say of the unit; a sum with a part missing stays unknown."""
from math import sqrt

import pytest

from tests.exchange.observing.seen import seen, values


def bulk(*rows):
    return {"components": [{"role": "bulk_capacitor"} | row for row in rows]}


def test_bulk_capacitors_add_up_count_by_count():
    (one,) = seen("bulk_capacitance_marked", **bulk(
        {"nominal": 6.8e-6, "count": 2, "tolerance": 0.1}, {"nominal": 10e-6}))
    assert one.value == pytest.approx(23.6e-6)                     # 2 × 6.8 + 10
    # Half-widths 2 × 0.68 and, by default, 20 % of 10: 3.36 µF; divided by √3.
    assert one.u == pytest.approx(3.36e-6 / sqrt(3))
    assert one.refs == ("component/r0", "component/r1")


@pytest.mark.parametrize("missing", [
    {}, {"nominal": 1e-5, "review_state": "disputed"}, {"state": "not_readable"},
    {"state": "not_looked"}, {"nominal": 0.0}])
def test_a_sum_with_a_part_missing_is_unknown_not_smaller(missing):
    assert values("bulk_capacitance_marked", **bulk({"nominal": 1e-5}, missing)) == []


def test_a_second_capacitor_that_was_looked_for_and_not_found_adds_nothing():
    rows = bulk({"nominal": 1e-5}, {"state": "not_found"})
    assert values("bulk_capacitance_marked", **rows) == [1e-5]
    assert values("bulk_capacitance_marked", **bulk({"state": "not_found"})) == []


def test_unconfirmed_capacitors_do_not_make_a_smaller_sum():
    rows = bulk({"nominal": 1e-5, "review_state": "confirmed"}, {"nominal": 1e-5})
    assert seen("bulk_capacitance_marked", confirmed_only=True, **rows) == []


def test_voltage_ratings_are_read_from_both_kinds_of_capacitor():
    rows = [{"role": "bulk_capacitor", "rated_voltage": 400.0},
            {"role": "output_capacitor", "rated_voltage": 10.0},
            {"role": "barrier_capacitor", "rated_voltage": 250.0}]
    assert values("bulk_capacitor_rating", components=rows) == [400.0]
    assert values("output_capacitor_rating", components=rows) == [10.0]


def test_a_capacitor_that_lies_across_no_mains_hides_no_rating_of_one_that_does():
    small, high, low = ({"role": "bulk_capacitor", "rated_voltage": volts}
                        for volts in (25.0, 400.0, 200.0))
    assert values("bulk_capacitor_rating", components=[small, high, low]) == [400.0, 200.0]
    assert values("bulk_capacitor_rating", components=[small]) == [25.0]


@pytest.mark.parametrize(("role", "code"), [
    ("optocoupler", "isolated_feedback"), ("protocol_controller", "protocol_controller"),
    ("port_converter", "port_converter"), ("pass_switch", "bus_switch")])
def test_components_raise_their_flag(role, code):
    for state, expected in (("recorded", [1.0]), ("not_found", [0.0]), ("not_looked", []),
                            ("not_readable", [])):
        assert values(code, components=[{"role": role, "state": state}]) == expected


def test_published_power_counts_for_the_primary_controller_only():
    limits = [{"quantity": "controller_power_wide", "value": 12.0, "citation": "sheet, table 1"},
              {"quantity": "switch_voltage_rating", "value": 700.0, "citation": "sheet, table 2"}]
    part = [{"marking": "QX2204", "limits": limits}]
    for role, expected in (("primary_controller", [12.0]), ("other", [])):
        rows = [{"role": role, "part": "QX2204"}]
        assert values("controller_power_wide", components=rows, parts=part) == expected


def test_four_mains_diodes_are_a_bridge_and_fewer_parts_leave_it_open():
    diodes = [{"role": "rectifier", "count": 2}, {"role": "rectifier", "count": 2}]
    assert values("rectifier_full_wave", components=diodes) == [1.0]
    assert values("rectifier_full_wave", components=diodes[:1]) == []


def of(role, *rows, **lists):
    return {"components": [{"role": role} | row for row in rows]} | lists


@pytest.mark.parametrize(("code", "role", "rows", "expected"), [
    # Capacitors across one pair of conductors add up.
    ("x_capacitance", "x_capacitor", [{"nominal": 1e-7}, {"nominal": 2.2e-7}], 3.2e-7),
    ("barrier_capacitance", "barrier_capacitor", [{"nominal": 1e-9, "count": 2}], 2e-9),
    # Sense resistors lie in parallel: 1/(1/2 + 1/2 + 1/1) = 0.5 Ω.
    ("current_sense_resistance", "sense_resistor", [{"nominal": 2.0, "count": 2},
                                                   {"nominal": 1.0}], 0.5),
    ("fuse_rating", "fuse", [{"rated_current": 2.0}], 2.0),
    ("fusible_resistance", "fusible_resistor", [{"nominal": 10.0}], 10.0),
    ("fusible_power_rating", "fusible_resistor", [{"rated_power": 1.0}], 1.0),
    ("discharge_resistance", "discharge_resistor", [{"nominal": 1e6}], 1e6),
    ("switch_voltage_rating", "primary_switch", [{"rated_voltage": 650.0}], 650.0),
    ("rectifier_voltage_rating", "output_rectifier", [{"rated_voltage": 100.0, "count": 2}], 100.0),
    ("rectifier_current_rating", "output_rectifier", [{"rated_current": 10.0, "count": 2}], 20.0),
    ("synchronous_on_resistance", "output_rectifier", [{"on_resistance": 8e-3, "count": 2}], 4e-3),
    ("output_ripple_rating", "output_capacitor", [{"ripple_current": 1.5, "count": 2},
                                                  {"ripple_current": 1.0}], 4.0),
    ("output_capacitor_diameter", "output_capacitor", [{"diameter": 8e-3, "count": 2}], 8e-3),
    ("output_capacitor_length", "output_capacitor", [{"length": 12e-3}], 12e-3),
    ("output_capacitor_count", "output_capacitor", [{"count": 2}, {}], 3.0),
    # One bridge in one body carries its rating; of four diodes two carry in turn: 2 × 1 A.
    ("bridge_current_rating", "rectifier", [{"rated_current": 0.8}], 0.8),
    ("bridge_current_rating", "rectifier", [{"rated_current": 1.0, "count": 4}], 2.0),
    ("bridge_current_rating", "rectifier", [{"rated_current": 1.0, "count": 2},
                                            {"rated_current": 1.5, "count": 2}], 2.0),
])
def test_ratings_become_quantities_of_the_unit(code, role, rows, expected):
    assert values(code, **of(role, *rows)) == [pytest.approx(expected)]


@pytest.mark.parametrize(("code", "role", "rows"), [
    # How several are joined is not recorded, or which of them the output hangs on.
    ("discharge_resistance", "discharge_resistor", [{"nominal": 1e6, "count": 2}]),
    ("fusible_resistance", "fusible_resistor", [{"nominal": 10.0}, {"nominal": 10.0}]),
    ("switch_voltage_rating", "primary_switch", [{"rated_voltage": 650.0, "count": 2}]),
    ("bridge_current_rating", "rectifier", [{"rated_current": 1.0, "count": 2}]),
    ("rectifier_voltage_rating", "output_rectifier", [{"rated_voltage": 60.0},
                                                      {"rated_voltage": 100.0}]),
    ("fuse_rating", "fuse", [{"rated_current": 1.0}, {"rated_current": 2.0}]),
    ("output_capacitor_diameter", "output_capacitor", [{"diameter": 8e-3}, {"diameter": 5e-3}]),
])
def test_what_the_rows_do_not_decide_stays_unknown(code, role, rows):
    assert values(code, **of(role, *rows)) == []


@pytest.mark.parametrize("missing", [
    {}, {"state": "not_readable"}, {"ripple_current": 1.0, "review_state": "disputed"}])
@pytest.mark.parametrize("code", ["output_ripple_rating", "output_capacitor_length"])
def test_a_part_that_does_not_say_it_leaves_all_of_them_unknown(code, missing):
    rows = of("output_capacitor", {"ripple_current": 1.0, "length": 0.012}, missing)
    assert values(code, **rows) == []


@pytest.mark.parametrize("words", [{"note": "Polymer can"}, {"marking": "solid 470 16V"}])
def test_the_size_of_a_polymer_can_says_nothing_of_its_ripple_current(words):
    rows = of("output_capacitor", {"diameter": 8e-3, "length": 12e-3} | words)
    assert values("output_capacitor_diameter", **rows) == []
    assert values("output_capacitor_count", **rows) == [1.0]


# ± a, all values equally likely: u = a/√3 (JCGM 100:2008, 4.3.7); 5 % without a printed tolerance.
@pytest.mark.parametrize(("row", "relative"), [
    ({"tolerance": 0.01}, 0.01 / sqrt(3)), ({"how": "read_off"}, 0.05 / sqrt(3)),
    ({"how": "measured"}, 0.02)])
def test_a_nominal_value_is_as_good_as_its_tolerance(row, relative):
    (one,) = seen("current_sense_resistance", **of("sense_resistor", {"nominal": 2.0} | row))
    assert one.u == pytest.approx(2.0 * relative)


def library(quantity, value, marking="DQX-45"):
    limit = {"quantity": quantity, "value": value, "citation": "data sheet, table 1"}
    return [{"marking": marking, "limits": [limit]}]


def test_a_blank_rating_is_looked_up_in_the_library_and_a_written_one_wins():
    parts = library("rectifier_current_rating", 5.0)
    row = {"part": "DQX-45", "count": 2}
    rows = of("output_rectifier", row, parts=parts)
    assert values("rectifier_current_rating", **rows) == [10.0]
    rows = of("output_rectifier", row | {"rated_current": 4.0}, parts=parts)
    assert values("rectifier_current_rating", **rows) == [8.0]


def test_a_limit_of_another_role_s_part_says_nothing():
    rows = of("other", {"part": "DQX-45"}, parts=library("rectifier_current_rating", 5.0))
    assert values("rectifier_current_rating", **rows) == []


PORTS = [{"key": "c1", "label": "C1"}, {"key": "c2", "label": "C2"}]


def test_a_flag_of_a_part_that_serves_one_port_is_the_port_s():
    rows = of("port_converter", {"port": "c1"}, {"port": "c2", "state": "not_found"})
    found = seen("port_converter", ports=PORTS, **rows)
    assert [(one.value, one.port) for one in found] == [(1.0, "c1"), (0.0, "c2")]


def test_a_part_of_one_port_is_no_part_of_the_unit_s_sum():
    rows = of("output_capacitor", {"ripple_current": 3.0}, {"ripple_current": 1.0, "port": "c1"})
    assert values("output_ripple_rating", ports=PORTS, **rows) == [3.0]
    assert values("output_ripple_rating", ports=PORTS[:1], **rows) == [4.0]
