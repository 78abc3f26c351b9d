"""What rows observe, and above all what they do not: unknown stays unknown."""
from math import isnan, sqrt

import pytest

from teardowns.engine.evidence import assumed_uncertainty
from tests.exchange.observing.seen import seen, values


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


# A load that the seller says it holds is the claim once more; a mass is worth what it is worth.
@pytest.mark.parametrize(("quantity", "count"), [
    ("sustained_power", 0), ("offered_voltage", 0), ("electric_strength_withstood", 0),
    ("mass_total", 1)])
def test_what_the_seller_says_is_no_test(quantity, count):
    rows = [{"quantity": quantity, "value": 5.0, "how": "claimed_by_seller", "output_voltage": 5.0}]
    assert len(values(quantity, measurements=rows)) == count


BULK = {"role": "bulk_capacitor", "nominal": 1e-5, "rated_voltage": 200.0}


@pytest.mark.parametrize("code", ["bulk_capacitance_marked", "bulk_capacitor_rating"])
def test_a_part_that_only_the_seller_names_is_not_observed(code):
    assert len(values(code, components=[BULK])) == 1
    assert values(code, components=[BULK | {"how": "claimed_by_seller"}]) == []


def test_beside_one_that_only_the_seller_names_a_sum_stays_unknown():
    told = BULK | {"how": "claimed_by_seller"}
    assert values("bulk_capacitance_marked", components=[BULK, told]) == []


def test_what_a_seller_says_of_a_winding_and_of_a_port_is_not_observed():
    layer = {"position": 1, "kind": "winding", "winding": "primary", "turns": 90.0}
    port = {"label": "USB-C", "connector": "usb_c", "advertised": ["0A01912C"]}
    for how, count in (("measured", 1), ("claimed_by_seller", 0)):
        lists = {"stack": [layer | {"how": how}], "ports": [port | {"how": how}]}
        assert len(values("primary_turns", **lists)) == count
        assert len(values("advertised_power", **lists)) == count


@pytest.mark.parametrize("state", ["not_looked", "not_found", "not_readable"])
def test_a_quantity_that_was_not_recorded_is_not_zero(state):
    assert values("mass_total", measurements=[{"quantity": "mass_total", "state": state}]) == []


@pytest.mark.parametrize(("state", "expected"), [
    ("not_looked", []), ("not_readable", []), ("not_found", [0.0])])
def test_a_flag_is_absent_only_when_it_was_looked_for(state, expected):
    rows = [{"quantity": "primary_feedback", "state": state}]
    assert values("primary_feedback", measurements=rows) == expected


@pytest.mark.parametrize(("kind", "code"), [
    ("above", "at_least"), ("at_least", "at_least"), ("below", "at_most"), ("at_most", "at_most")])
def test_a_limit_in_place_of_a_value_is_observed_as_one(kind, code):
    rows = [{"quantity": "insulation_resistance", "state": "not_readable", "bound": 5e8,
             "bound_kind": kind}]
    assert values(f"insulation_resistance_{code}", measurements=rows) == [5e8]
    assert values("insulation_resistance", measurements=rows) == []


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


def test_sides_of_the_board_not_photographed_are_none():
    assert values("photographed_sides", unit={"title": "x", "photographed_sides": 2}) == [2.0]
    assert values("photographed_sides") == [0.0]


FUSE = {"role": "fuse", "rated_current": 3.15}


def test_what_was_measured_is_not_read_off_a_marking_a_second_time():
    row = {"quantity": "fuse_rating", "value": 3.0}
    assert values("fuse_rating", components=[FUSE]) == [3.15]
    assert values("fuse_rating", components=[FUSE], measurements=[row]) == [3.0]
    disputed = row | {"review_state": "disputed"}
    assert values("fuse_rating", components=[FUSE], measurements=[disputed]) == [3.15]


def test_a_flag_has_as_many_witnesses_as_looked():
    rows = {"components": [{"role": "optocoupler"}],
            "measurements": [{"quantity": "isolated_feedback", "value": 1.0}]}
    assert values("isolated_feedback", **rows) == [1.0, 1.0]


PORTS = [{"key": "c1", "label": "C1"}, {"key": "c2", "label": "C2"}]


def test_a_reading_carries_the_port_it_was_taken_at():
    row = {"quantity": "offered_voltage", "value": 9.0, "port": "c2"}
    assert [one.port for one in seen("offered_voltage", ports=PORTS, measurements=[row])] == ["c2"]


def test_a_part_of_one_port_of_several_does_not_speak_for_the_unit():
    part = {"role": "output_rectifier", "rated_current": 3.0, "port": "c2"}
    assert values("rectifier_current_rating", ports=PORTS, components=[part]) == []
    assert values("rectifier_current_rating", ports=PORTS[1:], components=[part]) == [3.0]
    whole = {"role": "output_rectifier", "rated_current": 20.0}
    assert values("rectifier_current_rating", ports=PORTS, components=[part, whole]) == [20.0]


PHOTO = [{"key": "top", "sha256": "ab" * 32}]


@pytest.mark.parametrize(("row", "photo"), [
    ({"quantity": "core_width", "value": 0.016}, "top"),
    ({"quantity": "core_width", "value": 0.016, "instrument": "photo with a scale"}, "top"),
    ({"quantity": "core_width", "value": 0.016, "instrument": "caliper"}, ""),
    ({"quantity": "mass_total", "value": 0.05}, ""),
])
def test_a_length_read_from_a_photo_names_it(row, photo):
    (one,) = seen(row["quantity"], photos=PHOTO, measurements=[row | {"photo": "top"}])
    assert one.photo == photo
