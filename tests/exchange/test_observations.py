"""What rows observe, and above all what they do not: unknown stays unknown."""
from math import isnan, sqrt

import pytest

from teardowns.engine.evidence import assumed_uncertainty
from teardowns.exchange.observations import observations
from tests.exchange.small import small


def seen(code, confirmed_only=False, **lists):
    return [o for o in observations(small(**lists), confirmed_only) if o.code == code]


def values(code, **lists):
    return [o.value for o in seen(code, **lists)]


def mass(**fields):
    return {"measurements": [{"quantity": "mass_total", "value": 0.05} | fields]}


# A 95 % interval is two standard uncertainties wide to each side, a tolerance a = √3 u:
# JCGM 100:2008, 4.3.4 and 4.3.7.
@pytest.mark.parametrize(("kind", "u"), [
    ("standard", 0.003), ("interval", 0.0015), ("tolerance", 0.003 / sqrt(3))])
def test_a_stated_uncertainty_becomes_a_standard_one(kind, u):
    (one,) = seen("mass_total", **mass(uncertainty=0.003, uncertainty_kind=kind))
    assert one.u == pytest.approx(u, rel=1e-12)


@pytest.mark.parametrize("how", ["measured", "estimated"])
def test_an_unstated_uncertainty_is_what_the_rulebook_assumes(how):
    (one,) = seen("mass_total", **mass(how=how))
    assert one.u == assumed_uncertainty("mass_total", how, 0.05) > 0


@pytest.mark.parametrize("state", ["not_looked", "not_found", "not_readable"])
def test_a_quantity_that_was_not_recorded_is_not_zero(state):
    assert values("mass_total", measurements=[{"quantity": "mass_total", "state": state}]) == []


@pytest.mark.parametrize(("state", "expected"), [
    ("not_looked", []), ("not_readable", []), ("not_found", [0.0])])
def test_a_flag_is_absent_only_when_it_was_looked_for(state, expected):
    rows = [{"quantity": "primary_feedback", "state": state}]
    assert values("primary_feedback", measurements=rows) == expected


def test_a_disputed_row_says_nothing():
    assert values("mass_total", **mass(review_state="disputed")) == []


def test_of_confirmed_evidence_an_open_row_says_nothing():
    assert seen("mass_total", confirmed_only=True, **mass()) == []
    assert seen("mass_total", confirmed_only=True, **mass(review_state="confirmed"))


def test_conditions_travel_with_the_value_and_unstated_ones_are_unknown():
    row = {"quantity": "sustained_power", "value": 12.0, "mains_voltage": 230.0}
    (one,) = seen("sustained_power", measurements=[row])
    assert one.mains_voltage == 230.0
    assert isnan(one.output_voltage)


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


def test_turns_of_a_split_winding_add_up():
    rows = [{"position": 1, "kind": "winding", "winding": "primary", "turns": 20.0},
            {"position": 2, "kind": "winding", "winding": "secondary", "turns": 6.0},
            {"position": 3, "kind": "winding", "winding": "primary", "turns": 22.0}]
    assert values("primary_turns", stack=rows) == [42.0]
    assert values("secondary_turns", stack=rows) == [6.0]
    del rows[2]["turns"]
    assert values("primary_turns", stack=rows) == []


def rated(*claims, texts=()):
    return {"claims": [{"kind": "input"} | claim for claim in claims], "printed_texts": texts}


def test_the_rated_input_is_the_widest_that_the_plate_prints():
    lists = rated(
        {"voltage_low": 100.0, "voltage_high": 120.0, "current": 0.8, "frequency_low": 60.0},
        {"voltage_low": 200.0, "voltage_high": 240.0, "current": 0.5, "frequency_low": 50.0})
    assert values("rated_voltage_low", **lists) == [100.0]
    assert values("rated_voltage_high", **lists) == [240.0]
    assert values("rated_frequency", **lists) == [50.0]
    assert values("rated_input_current", **lists) == [0.8]
    assert seen("rated_voltage_low", **lists)[0].u == 0.0


def test_a_single_printed_voltage_is_both_ends():
    assert values("rated_voltage_high", **rated({"voltage_low": 230.0})) == [230.0]


def test_a_listing_speaks_of_the_mains_only_where_the_plate_is_silent():
    texts = [{"key": "plate", "source": "plate"}, {"key": "list", "source": "listing"}]
    listing = {"printed_text": "list", "voltage_low": 85.0}
    plate = {"printed_text": "plate", "voltage_low": 220.0}
    assert values("rated_voltage_low", **rated(listing, plate, texts=texts)) == [220.0]
    assert values("rated_voltage_low", **rated(listing, texts=texts)) == [85.0]


def test_a_misread_input_that_no_mains_has_is_left_out():
    assert values("rated_voltage_low", **rated({"voltage_low": 5.0})) == []


def test_sides_of_the_board_not_photographed_are_none():
    assert values("photographed_sides", unit={"title": "x", "photographed_sides": 2}) == [2.0]
    assert values("photographed_sides") == [0.0]
