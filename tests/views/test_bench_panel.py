import pytest

from teardowns.models import Assessment
from teardowns.views.bench_panel import MOST_QUESTIONS, MOST_STEPS, panel

pytestmark = pytest.mark.django_db
NOTHING = {"mains": {"low": {"voltage": 100.0}, "high": {"voltage": 240.0}},
           "capability": {"low": None, "high": None}, "lines": [], "claims": [], "headline": None,
           "open_questions": []}
KNOWN = {"median": 13.54, "low": 9.1, "high": 18.2}


def shown(unit, verdict="", claimed=None, **changed):
    Assessment.objects.create(unit=unit, rulebook="1", evidence_digest="d", verdict=verdict,
                              claimed_power=claimed, payload=NOTHING | changed)
    return panel(unit)


def test_before_any_assessment_there_is_nothing_to_show(unit):
    assert panel(unit) is None


def test_without_evidence_it_names_no_power(unit):
    found = shown(unit, "no evidence")
    assert (found["median"], found["lines"], found["claim"]) == ("", 0, "")
    assert "no evidence" in found["chip"]


def test_it_gives_the_capability_at_the_lower_end_with_its_interval(unit):
    found = shown(unit, capability={"low": KNOWN, "high": KNOWN | {"median": 20.0}})
    assert found["median"] == "13.5\u202fW"
    assert found["interval"] == "9.1 to 18.2\u202fW"
    assert found["at"] == "at 100\u202fV mains"


def test_where_only_the_upper_end_can_be_told_it_says_which(unit):
    found = shown(unit, capability={"low": None, "high": KNOWN})
    assert found["at"] == "at 240\u202fV mains"


def test_only_lines_that_count_are_counted(unit):
    found = shown(unit, lines=[{"used": True}, {"used": False}, {"used": True}])
    assert found["lines"] == 2


def test_the_headline_claim_and_a_few_questions_stand_beside_it(unit):
    found = shown(unit, "doubtful", 45.0, claims=[{"power": 18.0}, {"power": 45.0}], headline=1,
                  open_questions=[{"text": f"Question {i}"} for i in range(9)])
    assert found["claim"] == "45.0\u202fW"
    assert found["questions"] == [f"Question {i}" for i in range(MOST_QUESTIONS)]


STEP = {"rule": "power/bulk_capacitor", "title": "Bulk capacitor", "text": "Read off: marking.",
        "reads": ["bulk_capacitance_marked"], "bits": 0.5, "minutes": 1.0, "bits_per_minute": 0.5,
        "stage": "opened"}


def with_steps(unit, *steps):
    return shown(unit, "doubtful", 45.0, claims=[{"power": 45.0}], headline=0,
                 next_steps=list(steps), open_questions=[{"text": "Question"}])


def test_the_best_steps_stand_in_place_of_the_questions(unit):
    found = with_steps(unit, *[STEP] * (MOST_STEPS + 1))
    assert [step.text for step in found["steps"]] == ["Read off: marking."] * MOST_STEPS
    assert found["questions"] == []
    assert found["next_address"] == f"{unit.get_absolute_url()}#next"


def test_a_part_that_cannot_be_read_is_not_asked_for_again(unit, alice):
    unit.components.create(key="bulk", role="bulk_capacitor", state="not_readable", author=alice)
    assert with_steps(unit, STEP)["steps"] == []


def test_where_nothing_is_left_to_measure_it_says_so(unit):
    assert with_steps(unit)["without_steps"].startswith("Nothing left to measure")
