from copy import deepcopy

import pytest

from teardowns.presenting.links import Links
from teardowns.presenting.power_section import gaps, ladders, missing_in_words, weights
from tests.figures.sample_report import REPORT


@pytest.fixture
def report():
    return deepcopy(REPORT)


def test_one_ladder_for_each_end_of_the_mains_range(report):
    assert len(ladders(report, Links(7))) == 2


def test_a_plate_of_one_mains_condition_has_one_ladder(report):
    report["mains"]["high"] = report["mains"]["low"]
    assert len(ladders(report, Links(7))) == 1


def test_a_unit_without_lines_has_one_empty_ladder(report):
    report["lines"], report["capability"] = [], {"low": None, "high": None}
    ladder, = ladders(report, Links(7))
    assert "no line of evidence" in ladder


def test_a_line_that_is_silent_at_one_end_is_no_gap(report):
    report["lines"][0]["ends"]["high"] = None
    assert [gap.title for gap in gaps(report, {})] == ["Sense resistor, peak current"]


def test_a_line_that_was_not_used_gives_its_reason(report):
    report["lines"][0] |= {"used": False, "why_not": "The corrector feeds the bus."}
    report["lines"][0]["ends"] = {"low": None, "high": None}
    assert gaps(report, {})[0].reason == "The corrector feeds the bus."


def test_what_is_missing_is_grouped_by_whether_anybody_looked():
    words = missing_in_words(
        "Sense resistor", ["current_sense_resistance", "switching_frequency", "air_gap"],
        {"air_gap": "not readable"})
    assert words == ("not recorded: Current-sense resistance, Switching frequency; "
                     "not readable: Air gap")


def test_the_largest_claim_comes_first_among_the_weights(report):
    titles = [claim.title for claim in weights(report, Links(7))]
    assert titles[0] == "What pushed for and against “20V⎓2.25A”"
    assert len(titles) == 3
