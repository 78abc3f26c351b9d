"""What lists know of a public unit: confirmed facts, or that they are unknown."""
from math import sqrt

import pytest

from teardowns.exchange.listing_facts import TOPOLOGIES, listing_facts
from tests.exchange.small import small

NO_REPORT = {"headline": None, "claims": [], "capability": {"low": None},
             "safety": {"findings": [], "results": []}}
CASE = {"case_height": 0.05, "case_width": 0.04, "case_depth": 0.03}
EMPTY = {"completeness": 0.0, "topology": "", "controller": "", "connectors": [], "hazards": []}


def confirmed(*rows):
    return [{"review_state": "confirmed"} | row for row in rows]


def measured(**values):
    return confirmed(*({"quantity": code, "value": value} for code, value in values.items()))


def facts(report=NO_REPORT, **lists):
    return listing_facts(small(**lists), report)


def test_of_an_empty_document_everything_is_unknown_and_nothing_is_zero():
    found = facts()
    assert {name: found[name] for name in EMPTY} == EMPTY
    assert all(found[name] is None for name in found if name not in EMPTY)


@pytest.mark.parametrize("state", ["open", "disputed"])
def test_what_nobody_confirmed_is_unknown(state):
    rows = [{"quantity": "mass_total", "value": 0.05, "review_state": state}]
    ports = [{"label": "C", "connector": "usb_c", "review_state": state}]
    found = facts(measurements=rows, ports=ports)
    assert (found["mass"], found["connectors"]) == (None, [])


def test_mass_and_volume_in_si_units():
    found = facts(measurements=measured(mass_total=0.05, mass_ballast=0.02, **CASE))
    assert found["mass"] == pytest.approx(0.03)
    assert found["volume"] == pytest.approx(6e-5)              # 5 · 4 · 3 cm³


def test_without_one_dimension_there_is_no_volume():
    del (two := dict(CASE))["case_depth"]
    assert facts(measurements=measured(**two))["volume"] is None


def test_a_weight_that_was_found_and_not_weighed_leaves_the_mass_unknown():
    weight = confirmed({"role": "ballast", "marking": "steel plate"})
    assert facts(measurements=measured(mass_total=0.05), components=weight)["mass"] is None


def test_the_measured_capacitance_goes_before_the_marked_one():
    marked = confirmed({"role": "bulk_capacitor", "nominal": 1e-5, "count": 2,
                        "marking": "10 µF 400 V"})
    assert facts(components=marked)["bulk_capacitance"] == pytest.approx(2e-5)
    both = facts(components=marked, measurements=measured(bulk_capacitance=1.7e-5))
    assert both["bulk_capacitance"] == pytest.approx(1.7e-5)


def test_measured_power_is_the_middle_between_what_was_held_and_what_was_too_much():
    rows = measured(sustained_power=10.0, failed_power=12.0)
    assert facts(measurements=rows)["measured_power"] == pytest.approx(sqrt(120))


def test_what_a_test_held_and_failed_at_is_known_of_one_end_alone_too():
    found = facts(measurements=measured(sustained_power=10.0))
    assert [found[name] for name in ("load_held", "load_lost", "load_mains")] == [10.0, None, None]


def test_the_gap_is_claim_over_capability():
    report = NO_REPORT | {"headline": 1, "claims": [{"power": 5.0}, {"power": 20.0}],
                          "capability": {"low": {"median": 8.0}}}
    assert facts(report)["gap"] == 2.5
    assert facts(report | {"headline": None})["gap"] is None


def controller(function, **row):
    parts = [{"marking": "QX-9", "function": function}]
    return {"parts": parts, "components": confirmed(
        {"role": "primary_controller", "marking": "QX-9 2531", "part": "QX-9"} | row)}


@pytest.mark.parametrize("function, stage", [
    ("flyback controller with built-in switch", "flyback"),
    ("Quasi-resonant controller for an external switch", "flyback"),
    ("controller for corrector and resonant stage", "resonant"),
    ("fixed-frequency controller", ""), ("", "")])
def test_the_power_stage_is_what_the_library_says_of_the_controller(function, stage):
    assert facts(**controller(function))["topology"] == stage
    assert stage in TOPOLOGIES or not stage


def test_a_corrector_stands_before_it_only_where_one_was_found():
    with_one = controller("flyback controller") | {
        "measurements": measured(power_factor_corrector=1.0)}
    assert facts(**with_one)["topology"] == "corrected_flyback"
    without = with_one | {"measurements": confirmed(
        {"quantity": "power_factor_corrector", "state": "not_found"})}
    assert facts(**without)["topology"] == "flyback"


def test_the_controller_goes_by_the_librarys_marking_else_by_its_own():
    assert facts(**controller("flyback controller"))["controller"] == "QX-9"
    bare = confirmed({"role": "primary_controller", "marking": "8 pins, sanded"})
    assert facts(components=bare)["controller"] == "8 pins, sanded"


def result(ratio, **changes):
    return {"on": "path", "barrier": "PRI_SEC", "largest": False, "ratio": ratio} | changes


def test_the_margin_is_that_of_the_weakest_path_between_mains_side_and_output():
    results = [result(1.4), result(0.8), result(None), result(0.1, barrier="L_N"),
               result(0.2, on="part"), result(0.3, largest=True)]
    report = NO_REPORT | {"safety": {"findings": [], "results": results}}
    assert facts(report)["insulation_margin"] == 0.8


def test_connectors_and_hazards_come_once_each():
    ports = confirmed(*({"key": key, "label": key, "connector": kind} for key, kind in (
        ("a", "usb_a"), ("b", "usb_c"), ("c", "usb_a"))))
    findings = [{"hazard": kind} for kind in ("shock", "fire", "shock")]
    found = facts(NO_REPORT | {"safety": {"findings": findings, "results": []}}, ports=ports)
    assert (found["connectors"], found["hazards"]) == (["usb_a", "usb_c"], ["shock", "fire"])


def test_year_and_reach_are_those_of_the_listing_it_came_from():
    found = facts(unit={"title": "L5", "obtained_on": "2024-11-02", "listing_reach": 0})
    assert (found["year"], found["reach"]) == (2024, 0)
