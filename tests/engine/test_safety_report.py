"""The safety part of a report: every result opens into what it rests on."""
import json

import pytest

from teardowns.engine.rules.safety.clearance import JOINT
from teardowns.engine.safety_report import governing, is_short
from teardowns.exchange.document import read_document
from teardowns.exchange.verdict import verdicts
from tests.exchange.whole_document import WHOLE

GAPS = [{"key": "near", "path": "clearance", "place": "near", "value": 1.2e-3},
        {"key": "far", "path": "clearance", "place": "far", "value": 7e-3},
        {"key": "unread", "path": "clearance", "place": "unread", "state": "not_readable"}]


@pytest.fixture(scope="module")
def safety():
    document = read_document(WHOLE | {"insulation": GAPS})
    report, = verdicts([document])
    return json.loads(json.dumps(report["safety"], allow_nan=False))


def of_paths(safety):
    return {one["subject"]: one for one in safety["results"] if one["rule"] == "safety/clearance"}


def test_each_path_is_graded_and_names_its_row(safety):
    found = of_paths(safety)
    assert [found[name]["grade"] for name in ("near", "far", "unread")] == [
        "falls short", "meets", "cannot tell"]
    assert "insulationobservation/near" in found["near"]["evidence"]


def test_the_path_that_leaves_least_governs(safety):
    found = of_paths(safety)
    assert found["near"]["governs"] and not found["far"]["governs"]


def test_a_shortfall_is_said_about_the_unit_examined_with_its_figure(safety):
    near = of_paths(safety)["near"]
    assert near["sentence"].startswith("In the unit examined") and "3\u202fmm" in near["sentence"]
    assert near["shortfall"] == [pytest.approx(1.0), pytest.approx(1.0)] and is_short(near)


def test_what_was_taken_for_granted_stands_with_the_results(safety):
    named = {name for one in safety["results"] for name in one["assumed"]}
    assert named == set(safety["assumptions"]) and "altitude" in named


def test_a_gap_below_half_is_a_serious_finding_that_cites_its_rows(safety):
    gravest = safety["findings"][0]
    assert safety["level"] == gravest["level"] == "serious"
    assert gravest["scenario"] == "pri_sec_distance_below_half" and gravest["p"] == "1/4000"
    assert "insulationobservation/near" in gravest["evidence"]


def test_of_equal_grades_the_smaller_share_governs():
    results = [{"rule": "r", "barrier": "b", "on": "path", "value": 1.0, "grade": "meets",
                "ratio": ratio, "why": 0} for ratio in (1.5, 1.1, 2.0)]
    governing(results)
    assert [one["governs"] for one in results] == [False, True, False]


def test_what_a_moved_part_would_leave_governs_nothing_that_is_there():
    there = {"rule": "safety/clearance", "barrier": "b", "on": "path", "value": 1.0, "why": 0,
             "grade": "meets", "ratio": 1.5}
    results = [there, there | {"grade": "falls short", "ratio": 0.5, "why": JOINT}]
    governing(results)
    assert [one["governs"] for one in results] == [True, False]
