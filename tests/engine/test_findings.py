"""Findings: one a scenario, the gravest first, and nothing that cannot hurt."""
from teardowns.engine.findings import findings
from teardowns.engine.scenarios import SCENARIOS


def result(rule="safety/clearance", grade="falls short", ratio=0.4, **more):
    return {"rule": rule, "grade": grade, "barrier": "PRI_SEC", "ratio": ratio, "value": ratio,
            "u": 0.0, "low": 1.0, "hazard": "shock", "flagged": False, "numbers": {}, "why": 0,
            "largest": False, "shortfall": [0.9, 0.95],
            "evidence": ["insulationobservation/a"],
            "sentence": "In the unit examined it is so."} | more


def test_two_results_of_one_scenario_are_one_finding_that_cites_both():
    found = findings([result(), result("safety/creepage",
                                       evidence=["insulationobservation/b"])], SCENARIOS)
    one, = found["findings"]
    assert one["because"] == [0, 1] and found["level"] == "serious"
    assert one["evidence"] == ["insulationobservation/a", "insulationobservation/b"]


def test_it_says_what_leaves_least():
    found = findings([result(ratio=0.4, sentence="More."), result(ratio=0.2, sentence="Less.")],
                     SCENARIOS)
    assert found["findings"][0]["sentence"] == "Less."
    hot = {"rule": "safety/touch_temperature", "largest": True, "hazard": "burn"}
    found = findings([result(**hot, ratio=1.1, sentence="Warm."),
                      result(**hot, ratio=1.4, sentence="Hot.")], SCENARIOS)
    assert found["findings"][0]["sentence"] == "Hot."


def test_how_well_the_matrix_is_known_stands_beside_the_level():
    assert findings([result()], SCENARIOS)["findings"][0]["confidence"] == "C"


def test_the_gravest_comes_first_and_gives_the_level_alone():
    found = findings([result(ratio=0.9), result(ratio=0.3)], SCENARIOS)
    assert [one["level"] for one in found["findings"]] == ["serious", "medium"]
    assert found["level"] == "serious"


def test_the_surest_reading_behind_it_is_how_sure_a_finding_is():
    found = findings([result(shortfall=[0.7, 0.9]), result(shortfall=[0.95, 0.99])], SCENARIOS)
    assert found["findings"][0]["certainty"] == 0.95
    seen = findings([result("safety/loose_metal", ratio=None, shortfall=[None, None])], SCENARIOS)
    assert seen["findings"][0]["certainty"] is None


def test_a_shortfall_without_a_scenario_is_listed_and_has_no_level():
    found = findings([result("safety/fuse_voltage", hazard="fire")], SCENARIOS)
    assert found == {"findings": [], "level": "", "without_scenario": [0], "flags": []}


def test_what_cannot_hurt_is_no_finding():
    found = findings([result("safety/conducted_emission", hazard="interference")], SCENARIOS)
    assert found["without_scenario"] == []
    flag = result(grade="cannot tell", flagged=True)
    assert findings([flag | {"hazard": "energy"}, flag], SCENARIOS)["flags"] == [1]


def test_cannot_tell_triggers_nothing():
    found = findings([result(grade="cannot tell"), result(grade="meets")], SCENARIOS)
    assert found == {"findings": [], "level": "", "without_scenario": [], "flags": []}
