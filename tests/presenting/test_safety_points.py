"""Each result about safety as a page prints it: how bad, how sure, on what ground."""
import pytest

from teardowns.presenting.links import Links
from teardowns.presenting.safety_points import assumed_names, chance, points, share, subject_keys

from .sample_safety import result, safety

LINKS = Links(7)


def test_every_result_stands_in_one_group_and_none_is_lost():
    found = points(safety(
        result(grade="falls short"), result(grade="cannot tell"), result(grade="meets"),
        result(grade="cannot tell", flagged=True), result(grade="falls short", hazard="marking"),
    ), LINKS)
    assert [len(group) for group in (found.short, found.open, found.meets, found.flagged,
                                     found.harmless)] == [1, 1, 1, 1, 1]


def test_the_worst_stands_first():
    found = points(safety(
        result(grade="falls short", value=0.0027, sentence="nearly"),
        result(grade="falls short", value=0.0012, sentence="by far")), LINKS)
    assert [point.sentence for point in found.short] == ["by far", "nearly"]


def test_how_bad_it_is_is_the_share_of_the_requirement():
    assert share(result(value=0.0018)) == "60\u202f% of what is required"       # 1.8 of 3 mm
    assert share(result(value=96.0, low=77.0, high=94.0, largest=True, ratio=96 / 94)) == (
        "102\u202f% of the highest allowed value")


@pytest.mark.parametrize("changed", [{"value": None}, {"low": None}, {"why": 2}])
def test_without_a_comparison_there_is_no_share(changed):
    assert share(result(**changed)) == ""


def test_how_sure_it_is_is_the_chance_of_a_shortfall_at_both_ends():
    assert chance(result(shortfall=[0.2, 0.9])).endswith("scatter of the reading: 0.20 to 0.90")
    assert chance(result(shortfall=[0.3, 0.3])).endswith("scatter of the reading: 0.30")
    assert chance(result(u=0.0)) == chance(result(shortfall=[None, None])) == ""


def test_assumptions_have_numbers_and_runs_of_them_are_one_link():
    named = {"altitude": "A1", "material_group": "A2", "clean_path": "A3", "bare_path": "A4",
             "contact": "A5"}
    assert assumed_names(["altitude", "clean_path"], named) == [
        ("#assumed-altitude", "A1"), ("#assumed-clean_path", "A3")]
    assert assumed_names(["contact", "clean_path", "bare_path"], named) == [
        ("#assumed-clean_path", "A3 to A5")]


def test_the_working_is_that_of_the_subject():
    found = points(safety(result(grade="meets")), LINKS).meets[0]
    assert found.working == "/units/7/working/safety/clearance/low/?of=slot"
    assert found.evidence == "/units/7/#insulationobservation-slot"


def test_a_subject_without_a_row_of_its_own_is_counted_and_the_unit_needs_no_name():
    keys = subject_keys([
        result(on="adjacency", rule="winding_margin"), result(),
        result(on="adjacency", rule="winding_margin"), result(on="unit", rule="touch_current")])
    assert keys == ["1", "slot", "2", ""]


def test_what_would_settle_an_open_question_stands_with_it():
    found = points(safety(result(grade="cannot tell", asks=["How wide is it?"])), LINKS)
    assert found.open[0].asks == ["How wide is it?"]
