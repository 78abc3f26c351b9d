"""Capabilities and lines of several units on one axis."""
from copy import deepcopy

import pytest

from teardowns.presenting.compare_power import MOST_LINES, compared_power
from tests.figures.sample_report import REPORT, line

from .compared import columns, compared


@pytest.fixture
def other():
    return deepcopy(REPORT)


def power(*reports):
    return compared_power(columns(*(compared(pk=pk, title=f"Unit {pk}", report=report)
                                    for pk, report in enumerate(reports, start=1))))


def test_both_mains_ends_are_drawn_for_every_unit(other):
    drawn = power(REPORT, other).capabilities
    assert "Lower end" in drawn and "Upper end" in drawn
    assert drawn.count('class="med"') == 4


def test_a_unit_that_is_rated_for_one_condition_stands_at_its_only_end(other):
    other["mains"]["high"] = other["mains"]["low"]
    found = power(REPORT, other)
    assert found.capabilities.count('class="med"') == 3
    assert "rated for one mains condition" in found.ladders[1][1]


def test_each_capability_leads_to_its_working(other):
    drawn = power(REPORT, other).capabilities
    assert 'href="/units/1/claims/out-20/#capability"' in drawn
    assert 'href="/units/2/claims/out-20/#capability"' in drawn


def test_a_unit_without_evidence_cannot_tell(other):
    other |= {"capability": {"low": None, "high": None}, "lines": [], "unmeasured": [],
              "claims": [], "headline": None}
    found = power(REPORT, other)
    assert "cannot tell" in found.capabilities and "no power claim" in found.capabilities
    assert "<b>B</b> not recorded" in found.ladders[0][1]


def test_a_line_that_nobody_could_read_says_so(other):
    other["lines"] = [one for one in other["lines"] if one["id"] != "power/bulk_capacitor"]
    other["unmeasured"] = [{"id": "power/bulk_capacitor", "title": "Bulk capacitor",
                            "reads": ["bulk_capacitance"]}]
    assert "<b>B</b> not recorded" in power(REPORT, other).ladders[0][1]


def test_the_lines_that_weigh_most_are_drawn_and_the_rest_counted(other):
    other["lines"] += [line(f"power/extra_{i}", "limit", f"Extra {i}", "", 20.0, 20.0, 0.1, [])
                       for i in range(6)]
    found = power(REPORT, other)
    # Five lines about power and six more; eight are shown at each end, the same at both.
    assert found.left_out == 5 + 6 - MOST_LINES
    assert "Left regulation" in found.ladders[0][1] and "Extra 5" not in found.ladders[0][1]


def test_two_units_without_any_line_have_no_ladder(other):
    other |= {"capability": {"low": None, "high": None}, "lines": [], "unmeasured": []}
    other["claims"] = [one | {"weights": []} for one in other["claims"]]
    assert power(other, deepcopy(other)).ladders == []
