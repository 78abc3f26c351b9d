"""Other units' boards stand beside a verdict; they neither support, reject nor reassure."""
from pathlib import Path

import pytest

from teardowns.engine.verdicts import WORDS
from teardowns.exchange.document import read_document
from teardowns.exchange.inherited import Sister, inherit
from teardowns.exchange.sister_verdict import (
    changes_beside,
    held_back,
    open_points,
    with_sisters,
)
from teardowns.exchange.verdict import verdicts
from tests.likeness.made import component, document

UNITS = Path(__file__).resolve().parents[2] / "fixtures" / "units"
FIRM = ("supported", "implausible", "not attainable on this evidence")


@pytest.fixture(scope="module")
def pair():
    """A unit of the demo that was hardly opened, and one torn down to the core."""
    return [read_document((UNITS / name).read_bytes())
            for name in ("27-quimsby-q30.json", "07-ipswold-furrow30.json")]


@pytest.fixture(scope="module")
def own(pair):
    return verdicts(pair[:1], confirmed_only=True)[0]


@pytest.fixture(scope="module")
def beside(pair):
    rows = inherit(Sister(27, 1, pair[0]), [Sister(7, 1, pair[1])]).rows
    return with_sisters(pair[0], rows)


@pytest.mark.parametrize("word", WORDS)
@pytest.mark.parametrize("was", WORDS)
def test_a_firm_word_is_the_unit_s_own_or_none(word, was):
    said = held_back(word, was)
    assert said not in FIRM or said == was


def test_what_is_held_back_keeps_its_direction():
    assert held_back("supported", "no evidence") == "possible"
    assert held_back("not attainable on this evidence", "possible") == "doubtful"
    assert held_back("doubtful", "supported") == "doubtful"
    assert held_back("implausible", "not attainable on this evidence") == FIRM[2]


def test_an_undecided_claim_gets_no_more_than_possible(own, beside):
    moved = changes_beside(own, beside).words
    assert {one.was["verdict"] for one in moved} == {"no evidence"}
    assert {one.now["verdict"] for one in moved} == {"possible"}
    assert max(one.now["plausibility"] for one in moved) > 0.9    # which alone is "supported"


def test_both_capabilities_stand_side_by_side(own, beside):
    low = next(one for one in changes_beside(own, beside).capability if one.about == "low")
    assert low.was["high"] / low.was["low"] > low.now["high"] / low.now["low"]


def test_nothing_is_said_of_hazards_or_checks(own, beside):
    moved = changes_beside(own, beside)
    assert not (moved.findings or moved.grades or moved.level or moved.checks)


def test_the_unit_s_own_report_is_the_same_afterwards(pair, own, beside):
    assert verdicts(pair[:1], confirmed_only=True)[0] == own


def finding(scenario, *refs):
    return {"scenario": scenario, "title": scenario, "level": "serious", "evidence": list(refs)}


def asked(theirs, mine=(), insulation=()):
    sister = Sister(12, 2, document([component("fuse")], insulation=list(insulation)))
    reports = [{"safety": {"findings": list(found)}} for found in (mine, theirs)]
    return [one.scenario for one in open_points(reports[0], [(sister, reports[1])])]


def test_a_hazard_of_a_sister_board_is_an_open_question():
    assert asked([finding("no_fuse", "component/fuse")]) == ["no_fuse"]


def test_a_hazard_that_was_found_here_is_no_question_any_more():
    assert asked([finding("no_fuse", "component/fuse")], [finding("no_fuse", "component/f")]) == []


def test_what_the_case_or_a_test_showed_there_is_not_asked_here():
    gap = {"key": "seam", "barrier": "PRI_ENC", "path": "clearance", "place": "seam",
           "site": "case", "value": 0.001, "review_state": "confirmed"}
    assert asked([finding("opens", "measurement/case-opens-by-hand"),
                  finding("seam", "insulationobservation/seam")], insulation=[gap]) == []


def test_what_met_its_requirement_there_is_never_told():
    """Nothing that returns from here can reassure: only findings are read."""
    report = {"safety": {"findings": [], "results": [{"grade": "meets", "rule": "safety/creepage",
                                                      "subject": "board"}]}}
    assert open_points({"safety": {"findings": []}}, [(Sister(1, 1, document()), report)]) == []
