"""Findings on the unit page: never without scenario, certainty and number of confirmations."""
from types import SimpleNamespace

from teardowns.engine.findings import findings
from teardowns.engine.scenarios import SCENARIOS
from teardowns.presenting.findings_section import findings_section
from teardowns.presenting.links import Links

UNIT = SimpleNamespace(listing_reach=1200, price=None, currency="", channel="unknown")


def result(grade="falls short"):
    return {"rule": "safety/clearance", "grade": grade, "barrier": "PRI_SEC", "ratio": 0.4,
            "value": 1.2e-3, "u": 1e-4, "low": 3e-3,
            "hazard": "shock", "numbers": {}, "why": 0, "largest": False, "on": "path",
            "flagged": False,
            "shortfall": [0.98, 0.99], "evidence": ["insulationobservation/a"],
            "sentence": "In the unit examined.",
            "title": "Clearance", "subject": "a to b"}


def section(results, confirmed=0, unit=UNIT):
    report = {"safety": {"results": results, **findings(results, SCENARIOS)}}
    return findings_section(report, unit, Links(7), {"pri_sec_distance_below_half": confirmed})


def test_a_finding_says_how_grave_how_sure_and_what_it_rests_on():
    one, = section([result()])["findings"]
    assert one.level == "serious" and one.span == "High one band less probable."
    assert "0.98" in one.certainty and "0 of 2" in one.confirmed
    (address, words), = one.because
    assert address.endswith("/working/safety/clearance/low/?of=a") and words == "Clearance: a to b"


def test_two_confirmations_make_a_serious_finding_a_headline():
    assert section([result()], 1)["headlines"] == []
    assert len(section([result()], 2)["headlines"]) == 1


def test_nothing_that_falls_short_is_said_without_reassurance():
    found = section([result("meets")])
    assert found["nothing"] == "No scenario triggered by the evidence." and found["level"] == ""


def test_beside_each_level_stands_that_it_is_an_illustration_from_memory():
    found = section([result()])
    assert "illustration" in found["beside"] and "from memory" in found["beside"]
    assert "no act of an authority" in found["illustration"] and "2019/417" in found["source"]


def test_reach_is_context_in_words():
    assert "1200 sales" in section([result()])["reach"]


def test_a_unit_that_was_not_assessed_has_no_section():
    assert findings_section(None, UNIT, Links(7), {}) is None
