import pytest

from teardowns.logs.decimal_marks import find_marks, thousands_of


@pytest.mark.parametrize(("cells", "possible"), [
    (["12,5"], ","), (["12.5"], "."), (["0,125"], ","), (["1.234,5"], ","), (["1,234.5"], "."),
    (["1.234.567"], ","), (["1,234,567"], "."), (["1234.567"], "."), (["1.234e3"], "."),
    (["1.234", "1.2345"], "."), (["5", "12"], "."), (["1.234", "5.678"], ".,"), (["1,234"], ".,"),
    (["12345", "1.234"], "."), (["0.5", "0,5"], ".,"), (["0.5", "1,234"], ".,"),
    (["0.5", "1,234.5", "1,234"], "."), (["0.5", "5.09.2"], "."), (["5.09.2"], "."),
    (["0.5", "1.234.567"], ".,"),
])
def test_cells_decide_the_mark_or_leave_it_open(cells, possible):
    assert "".join(find_marks([cells]).possible) == possible


def test_where_both_marks_are_meant_a_cell_that_clashes_is_shown():
    assert find_marks([["0.5", "0,5"]]).sample == "0,5"
    assert find_marks([["0.5", "1.234.567"]]).sample == "1.234.567"


@pytest.mark.parametrize(("times", "possible"), [
    (["998", "999", "1.000"], ","), (["1.000", "2", "3"], "."), (["1.000", "2.000", "3.000"], ".,"),
    (["1.000", "2"], ".,"),
])
def test_time_that_must_ascend_decides_where_only_one_reading_does(times, possible):
    assert "".join(find_marks([times], times).possible) == possible
    assert "".join(find_marks([times]).possible) == ".,"


@pytest.mark.parametrize(("cells", "decimal", "mark"), [
    (["5", "1,234.5"], ".", ","), (["1.234"], ",", "."), (["1\u00a0234"], ",", " "),
    (["1\u2019234"], ".", "'"), (["1.234"], ".", ""), (["12"], ".", ""),
])
def test_the_mark_between_thousands_is_taken_from_the_cells(cells, decimal, mark):
    assert thousands_of([cells], decimal) == mark
