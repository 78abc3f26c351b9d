"""Distances of several units on one axis, and their findings."""
from teardowns.presenting.compare_safety import compared_findings, compared_insulation
from tests.presenting.compared import columns, compared, path

RESULT = {
    "rule": "safety/clearance", "title": "Clearance", "on": "path", "subject": "slot",
    "barrier": "PRI_SEC", "hazard": "shock", "hazard_words": "electric shock",
    "grade": "falls short", "flagged": False, "value": 2e-3, "u": 1e-4, "low": 3e-3, "high": 3e-3,
    "unit": "m", "largest": False, "ratio": 2 / 3, "evidence": ["insulationobservation/slot"],
    "governs": True, "reason": "", "sentence": "", "why": 0, "assumed": [], "numbers": {},
}
FINDING = {"title": "Distance below half", "level": "serious", "scenario": "short_gap"}


def unit(*results, findings=(), pk=7, **changed):
    safety = {"results": [RESULT | one for one in results], "findings": list(findings)}
    found = compared(pk=pk, insulationobservation=[path("slot", path="clearance", place="slot")])
    found.report["safety"] = safety
    return found


def test_units_stand_beside_each_other_below_one_barrier():
    drawn = compared_insulation(columns(unit({}, pk=1), unit({"value": 4e-3, "grade": "meets"},
                                                             pk=2)))
    assert drawn.count("Mains side to output") == 1
    assert drawn.index("A: slot") < drawn.index("B: slot")
    assert 'href="/units/2/#insulationobservation-slot"' in drawn
    assert 'href="/units/2/working/safety/clearance/low/?of=slot"' in drawn


def test_paths_of_one_kind_come_together():
    two = unit({}, {"rule": "safety/creepage", "title": "Creepage"})
    drawn = compared_insulation(columns(two, two))
    assert drawn.index("A: slot") < drawn.index("B: slot") < drawn.rindex("A: slot")


def test_only_the_path_that_decides_is_drawn():
    drawn = compared_insulation(columns(unit({}, {"subject": "roomy", "governs": False}), unit()))
    assert "A: slot" in drawn and "roomy" not in drawn


def test_without_any_graded_distance_there_is_no_map():
    assert compared_insulation(columns(unit(), unit())) == ""


def cells(row, *units):
    return [cell.text for cell in compared_findings(columns(*units))[row].cells]


def test_a_serious_finding_says_how_far_it_is_confirmed():
    first, second = cells(1, unit({}, findings=[FINDING]), unit({}))
    assert "risk serious" in first and "0 of 2 independent reviewers confirmed every row" in first
    assert "none from what was recorded" in second


def test_what_falls_short_leads_to_its_working():
    first, second = cells(2, unit({}), unit({"grade": "meets"}))
    assert 'href="/units/7/working/safety/clearance/low/?of=slot"' in first
    assert "nothing that was measured" in second


def test_what_nobody_measured_is_open_and_never_a_pass():
    assert " not recorded</a>" in cells(3, unit(), unit())[0]
    assert "0 open" not in cells(3, unit(), unit())[0]


def test_an_assessment_that_does_not_judge_safety_says_so():
    found = unit()
    del found.report["safety"]
    assert all("does not judge safety" in cells(row, found, unit())[0] for row in range(4))
