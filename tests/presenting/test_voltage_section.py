from copy import deepcopy

from teardowns.presenting.links import Links
from teardowns.presenting.voltage_section import feedback, voltage_table
from tests.figures.sample_report import REPORT


def table(report=REPORT):
    return voltage_table(report, Links(7), {})


def test_voltages_stand_beside_each_other_the_lowest_first():
    assert [voltage.name for voltage in table().voltages] == ["9\u202fV", "20\u202fV"]


def test_each_line_tells_what_it_says_of_each_voltage():
    rating, offered = table().lines
    assert [s.text for s in rating.speaks] == ["says nothing", "against \u221222.0"]
    assert [s.text for s in offered.speaks] == ["for +14.0", "says nothing"]


def test_the_working_is_that_of_the_voltages_own_claim():
    _, offered = table().lines
    assert offered.speaks[0].working.endswith("/voltage/offered/low/?claim=out-9")


def test_a_missing_line_is_shown_as_missing():
    report = deepcopy(REPORT)
    report["unmeasured"].append(
        {"id": "voltage/refused", "title": "Refused", "reads": ["refused_voltage"]})
    gap = table(report).lines[-1]
    assert (gap.found, gap.speaks) == ("no value", [])
    assert "not recorded" in gap.name


def test_without_a_judged_voltage_there_is_no_table():
    report = deepcopy(REPORT)
    for claim in report["claims"]:
        claim["plausibility_voltage"] = None
    assert table(report) is None


def test_an_unrecorded_feedback_path_is_left_untold():
    report = REPORT | {"feedback": {"row": None, "switchable": None, "note": ""}}
    assert feedback(report) == "The feedback path was not recorded well enough to tell."
