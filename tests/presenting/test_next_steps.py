from copy import deepcopy

from teardowns.presenting.next_steps import (
    bits,
    minutes,
    open_steps,
    panel_steps,
    steps_figure,
    without_steps,
)
from tests.figures.drawing import parsed, words
from tests.figures.sample_report import REPORT


def step(rule="power/bulk_capacitor", reads=("bulk_capacitance_marked",), rate=0.25, **changed):
    return {"rule": rule, "title": "Bulk capacitor", "reads": list(reads),
            "text": "Read off: marking.", "bits": rate * 4, "minutes": 4.0,
            "bits_per_minute": rate, "stage": "opened"} | changed


def with_steps(*steps):
    return deepcopy(REPORT) | {"next_steps": list(steps)}


def plain(text):
    return text.replace("\u202f", " ")


def test_a_step_is_told_with_its_rate_its_whole_and_what_it_takes_apart():
    said = plain(words(parsed(steps_figure(with_steps(step(rate=0.0527)), {}))))
    assert "Read off: marking." in said and "Bulk capacitor, with the case open" in said
    # 0.0527 · 4 = 0.211 bit
    assert "0.053" in said and "0.21 bit in 4 min" in said


def test_it_says_about_which_claim_it_is():
    assert "about the claim of 45 W" in plain(steps_figure(with_steps(step()), {}))


def test_a_step_leads_to_its_rule():
    assert 'href="/method/#power-bulk_capacitor"' in steps_figure(with_steps(step()), {})


def test_what_was_looked_for_in_vain_is_not_asked_for_again():
    report = with_steps(step(), step(reads=("mass_total", "fuse_rating")))
    for state in ("looked, not found", "not readable"):
        assert open_steps(report, {"fuse_rating": state}) == [step()]
    assert len(open_steps(report, {"fuse_rating": "not looked"})) == 2


def test_where_nothing_is_left_it_says_so_instead_of_an_empty_table():
    assert steps_figure(with_steps(), {}) == ""
    assert plain(without_steps(with_steps())) == (
        "Nothing left to measure would move the claim of 45 W noticeably.")


def test_without_a_claim_it_says_that_there_is_none():
    assert without_steps(with_steps() | {"headline": None}).startswith("No printed power")


def test_an_assessment_from_before_the_steps_has_none():
    assert open_steps(REPORT, {}) == []


def test_the_bench_sheet_shows_the_first_few_with_bars_against_the_best():
    first, second = panel_steps(with_steps(step(rate=0.4), step(rate=0.1), step()), {}, 2)
    assert 'width="100.00%"' in first.bar and 'width="25.00%"' in second.bar
    assert plain(second.cost) == "4 min, 0.40 bit"


def test_numbers_carry_their_units():
    assert (plain(bits(0.7968)), plain(minutes(15.0))) == ("0.80 bit", "15 min")
