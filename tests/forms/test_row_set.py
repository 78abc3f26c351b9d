import pytest

from teardowns.forms.row_set import MOST_ROWS, RowSet, typed_total, with_row
from teardowns.forms.sections import OUTSIDE
from teardowns.models import Measurement

MASS = OUTSIDE.items[0]


@pytest.mark.parametrize("text, total", [("3", 3), ("", 0), ("-1", 0), ("²", 0), ("99999", 0),
                                         ("9999", MOST_ROWS)])
def test_the_number_of_rows_is_a_page_s_to_say_within_reason(text, total):
    assert typed_total({"ports-TOTAL": text}, "ports") == total


def test_one_more_row_has_a_key_that_a_resend_finds_again():
    grown = with_row({"ports-TOTAL": "1"}, "ports", {"label": "C2"})
    assert (grown["ports-TOTAL"], grown["ports-1-label"]) == ("2", "C2")
    assert grown["ports-1-key"].startswith("ports-")
    assert with_row(grown, "ports")["ports-2-key"] != grown["ports-1-key"]


def test_a_full_table_takes_no_more():
    typed = {"ports-TOTAL": str(MOST_ROWS)}
    assert with_row(typed, "ports") == typed


def test_the_first_reading_of_a_quantity_is_named_after_it():
    (form,) = RowSet(MASS, []).forms
    assert form.own_key == "mass-total"


def test_rows_of_another_quantity_are_somebody_else_s():
    other = Measurement(quantity="case_width", key="w", value=0.05)
    mine = Measurement(quantity="mass_total", key="m", value=0.07)
    assert [form.row for form in RowSet(MASS, [other, mine]).forms] == [mine]


def test_a_row_that_came_since_the_page_was_drawn_stands_below_what_was_typed():
    """As from a log, while a mistake waits: it is shown, and saving leaves it alone."""
    came = Measurement(quantity="mass_total", key="m", value=0.07)
    typed = {"mass-total-TOTAL": "1", "mass-total-0-key": "mass-total",
             "mass-total-0-value": "heavy"}
    rows = RowSet(MASS, [came], typed, check=True)
    assert not rows.is_valid() and rows.total == 2
    assert rows.forms[1]["value"].value() == "70 g"
    rest = RowSet(MASS, [came], typed | {"mass-total-0-remove": "on"}, check=True)
    assert rest.is_valid() and rest.changes() == []


def test_a_page_of_a_former_release_that_has_not_the_table_changes_nothing_of_it():
    came = Measurement(quantity="mass_total", key="m", value=0.07)
    rows = RowSet(MASS, [came], {}, check=True)
    assert rows.is_valid() and rows.changes() == []
