"""Units under their letters."""
from teardowns.presenting.compare_columns import cell, letters

from .compared import columns, compared


def test_units_get_their_letters_names_and_links():
    first, second = columns(compared(pk=3), compared(pk=8, version="2"))
    assert (first.letter, first.remark, first.links.unit) == ("A", "Veltrice VQ-45", "/units/3/")
    assert second.remark == "Veltrice VQ-45, version 2"
    assert second.links.unit == "/units/8/versions/2/"


def test_what_people_typed_is_escaped():
    column, = columns(compared(title="<b>Veltrice"))
    assert "&lt;b&gt;Veltrice" in column.name
    assert cell(column, ["<i>", "<u>"]).text == "&lt;i&gt;<small>&lt;u&gt;</small>"


def test_empty_remarks_leave_nothing_behind():
    column, = columns(compared())
    assert cell(column, ["14.6", ""]).text == "14.6" and cell(column, []).text == ""


def test_letters_are_listed_as_one_says_them():
    found = columns(compared(), compared(), compared())
    assert [letters(found[:n]) for n in (1, 2, 3)] == ["A", "A and B", "A, B and C"]
