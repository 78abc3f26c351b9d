"""Remarks item by item: rows that keep what was typed, and a few to spare."""
from teardowns.forms.remark_rows import FEWEST, LONGEST, MOST, STEP, RemarkRows

NAMES = {"measurement/mass": "Mass", "component/bulk-1": "bulk capacitor C1"}


def test_disputes_of_reviewers_are_proposed_and_others_are_not():
    rows = RemarkRows(NAMES, proposed=[("measurement/mass", "Too light."), ("gone/1", "Hm.")])
    assert rows.remarks == [("measurement/mass", "Too light.")] and len(rows.rows) == FEWEST


def test_there_is_always_an_empty_row_and_more_on_demand():
    typed = {f"remark-text-{n}": "Weigh it." for n in range(4)}
    assert len(RemarkRows(NAMES, typed).rows) == 5
    assert len(RemarkRows(NAMES, typed, more=True).rows) == 5 + STEP


def test_gaps_close_and_empty_rows_are_not_sent():
    typed = {"remark-ref-0": "measurement/mass", "remark-text-0": "  ", "remark-text-2": " Fine. "}
    assert RemarkRows(NAMES, typed).remarks == [("", "Fine.")]


def test_an_item_that_is_gone_and_too_many_words_are_said():
    typed = {"remark-ref-0": "gone/1", "remark-text-0": "Hm.", "remark-text-1": "x" * (LONGEST + 1)}
    rows = RemarkRows(NAMES, typed)
    assert not rows.is_sound and [bool(row.error) for row in rows.rows[:2]] == [True, True]


def test_no_more_rows_than_a_form_can_hold():
    typed = {f"remark-text-{n}": "x" for n in range(MOST + 20)}
    assert len(RemarkRows(NAMES, typed, more=True).rows) == MOST
